"""Every fault of motors, belts, dampers and driver as the user reads it."""

from __future__ import annotations

import pytest
from briefs import faults, with_motor

from isolator.brief import read_brief_text
from isolator.reading.faults import InputError

ONE_FAULT = [
    (
        "axis = '-Z'",
        "",
        'motor[1].axis: found "-Z"; wanted one of x, y, z, -x, -y, -z; did you mean "-z"?',
    ),
    (
        "pulley_length = '13 mm'\nset_screw = '13.4 mm'",
        "",
        "motor[1].set_screw: found 13.4 mm; wanted a place on the pulley, 0 mm to 13 mm; "
        "it is counted from the pulley's end at the motor",
    ),
    (
        "belt_offset = '16.1 mm'",
        "",
        "motor[1].belt_offset: found 16.1 mm; wanted a place on the pulley, 0 mm to 16 mm; "
        "it is counted from the pulley's end at the motor",
    ),
    (
        "axis = 'x'\npull = [-3, 0, 0]",
        "",
        "motor[1].pull: found [-3, 0, 0]; wanted a direction across the shaft, which runs along "
        "x; write the way the belts leave the pulley, such as [0, 1, 0]",
    ),
    (
        "pull = [0, 1]",
        "",
        "motor[1].pull: found a list of 2; wanted a list of 3, each a plain number from -1e+06 to "
        "1e+06; write it like […, …, …]",
    ),
    (
        "pull = [0, nan, 1]",
        "",
        "motor[1].pull[2]: found nan; wanted a plain number from -1e+06 to 1e+06; check the value",
    ),
    (
        "damper = 'always'\nspacer_plate = '3 mm'",
        "",
        'motor[1].damper: found "always" beside a spacer_plate; wanted one of the two; '
        'leave out spacer_plate, or set damper to "none"',
    ),
    (
        "frame_size = 23\nscrew_depth = '6.5 mm'",
        "",
        "motor[1].screw_depth: found 6.5 mm; wanted 0 mm: this frame size has a flange with "
        "through holes; leave it out",
    ),
    (  # 36 teeth of 2 mm: 22.92 mm round the pitch circle, 3.5 mm more over the flanges
        "pulley_set_by = 'gauge'",
        "pulley_teeth = 36",
        'motor[1].pulley_set_by: found "gauge"; wanted a pulley that goes through the plates\' '
        'hole of 22.4 mm; with 36 teeth its flanges are some 26.4 mm wide; take "spacer"',
    ),
    (
        "wrap = '361 deg'",
        "",
        'motor[1].wrap: found "361 deg"; wanted an angle of no more than 360 deg; '
        "check the value and its unit",
    ),
    (
        "current = '1.2 mA'\nrated_current = '0.9 mA'",
        "",
        'motor[1].rated_current: found "0.9 mA"; wanted a current of 0.001 A to 1000 A; '
        "check the value and its unit",
    ),
    (
        "current = '8 A'\nrated_current = '9 A'\nwinding_resistance = '3.2 ohm'",
        "",
        "motor[1].current: found 204.8 W of heat in its windings; wanted no more than 200 W; "
        "check current and winding_resistance",
    ),
    (
        "",
        "belt_tension = '19 N'\nbelt_span = '300 mm'\nbelt_pluck = '80 Hz'",
        "motion.belt_tension: found it beside belt_span and belt_pluck; wanted a tension or a "
        "plucked span; leave out belt_tension or belt_span and belt_pluck",
    ),
    (
        "",
        "belt_span = '300 mm'",
        "motion.belt_pluck: found nothing; wanted a frequency with its unit; "
        'add belt_pluck = "… Hz"',
    ),
    (
        "",
        "belt_pluck = '80 Hz'",
        'motion.belt_span: found nothing; wanted a length with its unit; add belt_span = "… mm"',
    ),
    (
        "",
        "belt_span = '70 m'\nbelt_pluck = '95 Hz'\nbelt_line_mass = '2 kg/m'",
        "motion.belt_pluck: found a tension of 3.5378e+08 N; wanted 0.001 N to 100000 N; "
        "check belt_span, belt_pluck, belt_line_mass",
    ),
]


@pytest.mark.parametrize(("motor", "motion", "message"), ONE_FAULT)
def test_one_fault_is_one_line(motor: str, motion: str, message: str) -> None:
    assert faults(with_motor(motor, motion)) == [f"brief.toml: {message}"]


@pytest.mark.parametrize(
    ("more", "message"),
    [
        (
            "[damper]\nshapes = ['rings']",
            'damper.shapes[1]: found "rings"; wanted one of ring, pads; did you mean "ring"?',
        ),
        (
            "[damper]\nplates = 'aluminium'\nplate = '2.3 mm'",
            "damper.plate: found 2.3 mm; wanted 1 mm to 2 mm of aluminium; leave it out for 1.5 mm",
        ),
        (
            "[damper]\nplates = 'brass'",
            'damper.plates: found "brass"; wanted one of printed, steel, aluminium; write one of '
            "these words, in quotes",
        ),
        (
            "[damper]\nwedge = 'no'",
            'damper.wedge: found "no"; wanted true or false; write it bare, as false',
        ),
        (
            "[damper]\nthicknesses = ['2 mm', '0 mm']",
            'damper.thicknesses[2]: found "0 mm"; wanted a length above zero; '
            "check the value and its sign",
        ),
        (
            "[driver]\ngain = '2.5'",
            'driver.gain: found "2.5"; wanted a plain number from 0.01 to 1000; '
            "write it bare, as 2.5",
        ),
        (
            "[driver]\ncurrent_shunt = '0.11'",
            'driver.current_shunt: found "0.11"; wanted a resistance with its unit; '
            'write it like "0.11 ohm"',
        ),
        (
            "[print]\nmotor_material = 'asaa'",
            'print.motor_material: found "asaa"; wanted one of petg, abs, asa, pla, pc, pa; '
            'did you mean "asa"?',
        ),
    ],
)
def test_a_fault_of_stock_or_driver_is_one_line(more: str, message: str) -> None:
    assert faults(with_motor(more=more)) == [f"brief.toml: {message}"]


NASTY = ("1e300", "nan", "inf", "true", "[]", '""', '"1e300 {u}"', '"nan {u}"', '"-5 {u}"', '"7 s"')
KEYS = {
    "motor": {
        "body_length": "mm",
        "screw_depth": "mm",
        "pulley_length": "mm",
        "set_screw": "mm",
        "belt_offset": "mm",
        "bracket": "mm",
        "radial_arm": "mm",
        "wrap": "deg",
        "bracket_area": "cm^2",
        "radial_limit": "N",
        "rated_current": "A",
        "current": "A",
        "winding_resistance": "ohm",
        "winding_inductance": "mH",
    },
    "motion": {"belt_tension": "N"},
    "damper": {"plate": "mm", "tilt_limit": "deg"},
    "driver": {"voltage": "V", "current_shunt": "ohm"},
}


@pytest.mark.parametrize(
    ("table", "key"), [(table, key) for table, keys in KEYS.items() for key in keys]
)
def test_no_extreme_value_gets_past_the_reader(table: str, key: str) -> None:
    for value in NASTY:
        line = f"{key} = {value.format(u=KEYS[table][key])}"
        where = {"motor": table == "motor", "motion": table == "motion"}
        brief = with_motor(
            line if where["motor"] else "",
            line if where["motion"] else "",
            "" if any(where.values()) else f"[{table}]\n{line}",
        )
        with pytest.raises(InputError) as refusal:
            read_brief_text(brief, "brief.toml")
        name = "motor[1]" if where["motor"] else table
        assert [fault.key for fault in refusal.value.faults] == [f"{name}.{key}"], line
