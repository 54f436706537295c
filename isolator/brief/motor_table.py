"""The keys of one belt motor: [[motor]]."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from isolator.brief.motor import (
    BRACKET_MATERIALS,
    DAMPER_WISHES,
    DRIVES,
    PULLEY_SETTINGS,
    SIGNED_AXES,
)
from isolator.brief.motor_places import Place, by_axis, usual_places
from isolator.brief.motor_sizes import MOTOR_SIZES, MotorSize
from isolator.design.axes import Triple
from isolator.design.faceplates import FACEPLATES, FRAME_SIZES
from isolator.design.filaments import RIGID
from isolator.reading.keys import maybe
from isolator.reading.notes import Notes
from isolator.reading.number_keys import one_of, quantity, triple, vector
from isolator.reading.table import Table
from isolator.reading.word_keys import choice, text

_POINTS = {"x": "right", "y": "back", "z": "up"}
_FACES = ", ".join(f"{size} is {1e3 * face.body:.0f} mm" for size, face in FACEPLATES.items())
_MEASURE = "estimated; measure it"
_BOSS = "as motors of this size have it, NEMA ICS 16; measure it"
RING_WALL = 1.3e-3
"""Wall of the inner ring of a small ball bearing [m]: 5 mm bore, 8 mm and more over the shoulder;
from memory, rather too thin than too thick."""
_HUB = "hub towards the motor; estimated, measure it"


def _read_wish(notes: Notes, path: str, raw: Any) -> Any:
    """Return a wish as it is typed, as it may be the name of a damper that is not read yet."""
    return raw if isinstance(raw, str) else choice(DAMPER_WISHES).read(notes, path, raw)


def _usual(value: Callable[[MotorSize], float]) -> tuple[Callable[[Any], Any], ...]:
    """Return the default of a key that goes with the motor's frame size."""
    return (
        lambda t: value(MOTOR_SIZES[t.frame_size]),
        lambda t: f"usual of frame size {t.frame_size}; estimated, from memory",
    )


class MotorTable(Table):
    """One [[motor]]."""

    name = text(lambda t: t.own_name, said=lambda t: t.place.name)
    frame_size = one_of(
        FRAME_SIZES,
        f"measure its face: {_FACES} wide",
        17,
        "the usual size",
        comment="14, 17 or 23",
    )
    position = triple(
        "m", lambda t: t.corner, "usual of the layout; estimated", comment="middle of its body"
    )
    axis = choice(
        SIGNED_AXES,
        lambda t: t.place.axis,
        lambda t: f"usual of the layout; its shaft points {_POINTS[t.place.axis]}",
        comment='of its shaft; "-z" where the shaft points down',
    )
    drives = choice(
        DRIVES,
        lambda t: t.place.drives,
        "by the layout and its order",
        comment='"x", "y" or "both"',
    )
    mass = quantity("kg", *_usual(lambda size: size.mass), usual=(0.1, 1.2))
    rotor_inertia = quantity(
        "kg*m^2", *_usual(lambda size: size.rotor_inertia), show="g*cm^2", usual=(23e-7, 110e-7)
    )
    holding_torque = quantity("N*m", *_usual(lambda size: size.holding_torque), usual=(0.2, 0.65))
    shaft_length = quantity(
        "m",
        *_usual(lambda size: size.shaft_length),
        usual=(0.016, 0.025),
        comment="from the motor's face",
    )
    shaft_diameter = quantity("m", *_usual(lambda size: size.shaft_diameter), usual=(0.004, 0.01))
    boss_diameter = quantity(
        "m",
        lambda t: FACEPLATES[t.frame_size].pilot,
        _BOSS,
        usual=(0.015, 0.045),
        comment="of the ring round the bearing that stands out of its face",
    )
    boss_height = quantity(
        "m",
        lambda t: FACEPLATES[t.frame_size].pilot_height,
        _BOSS,
        sign="not negative",
        usual=(0.0, 0.004),
        comment="of that ring over the face",
    )
    inner_ring = quantity(
        "m",
        lambda t: t.shaft_diameter + 2.0 * RING_WALL,
        "shaft_diameter and 1.3 mm all round; estimated, from memory",
        usual=(0.005, 0.016),
        comment="outer diameter of its bearing's inner ring, which turns with the shaft",
    )
    body_length = quantity("m", *_usual(lambda size: size.length), usual=(0.02, 0.12))
    screw_depth = quantity(
        "m",
        *_usual(lambda size: size.screw_depth),
        sign="not negative",
        usual=(0.0, 0.012),
        comment="of its threaded holes; 0 mm: through holes",
    )
    pulley_standoff = quantity(
        "m",
        0.006,
        _MEASURE,
        sign="not negative",
        usual=(0.0, 0.02),
        comment="motor face to pulley, as built now",
    )
    pulley_length = quantity("m", 0.016, _MEASURE, usual=(0.006, 0.03))
    set_screw = quantity(
        "m",
        0.0035,
        _HUB,
        sign="not negative",
        comment="pulley's end at the motor to its set screws",
    )
    belt_offset = quantity(
        "m",
        0.0115,
        _HUB,
        sign="not negative",
        comment="pulley's end at the motor to the belt's middle",
    )
    wrap = quantity(
        "rad",
        math.pi,
        "half a turn; estimated",
        usual=(math.radians(60.0), math.radians(220.0)),
        comment="of the belt round the pulley",
    )
    pull = maybe(
        vector(
            (-1e6, 1e6), example=[0, -1, 0], comment="which way the belts pull; else to the middle"
        )
    )
    bracket = quantity(
        "m",
        0.004,
        _MEASURE,
        usual=(0.001, 0.012),
        comment="thickness of what the motor is bolted to",
    )
    bracket_material = choice(
        BRACKET_MATERIALS,
        "aluminium",
        "estimated",
        meanings={"aluminum": "aluminium", "alu": "aluminium", "iron": "steel"}
        | dict.fromkeys(("plastic", "print", *RIGID), "printed"),
        comment="or steel, printed",
    )
    bracket_area = quantity(
        "m^2", 0.01, _MEASURE, usual=(1e-3, 0.1), comment="surface that cools it"
    )
    radial_limit = maybe(
        quantity(
            "N",
            usual=(5.0, 500.0),
            example="28 N",
            comment="sideways load, from the data sheet ...",
        )
    )
    radial_arm = quantity(
        "m",
        0.02,
        "as data sheets tell it; from memory",
        usual=(0.005, 0.03),
        comment="... at this distance from the face",
    )
    rated_current = quantity(
        "A", *_usual(lambda size: size.rated_current), usual=(0.3, 4.0), comment="of a winding"
    )
    current = quantity(
        "A",
        lambda t: 0.85 * t.rated_current,
        "85 % of rated_current; estimated",
        usual=(0.1, 4.0),
        comment="set now, peak of the sine",
    )
    winding_resistance = quantity("ohm", *_usual(lambda size: size.resistance), usual=(0.3, 40.0))
    winding_inductance = quantity("H", *_usual(lambda size: size.inductance), usual=(2e-4, 0.1))
    damper = replace(
        choice(
            DAMPER_WISHES,
            "auto",
            "where one helps",
            comment='or "always", "none", or the name of a [[damper.mount]]',
        ),
        read=_read_wish,
    )
    spacer_plate = quantity(
        "m",
        0.0,
        "no plate wanted",
        sign="not negative",
        usual=(0.0, 0.02),
        comment="a plain plate to go between motor and frame",
    )
    pulley_set_by = choice(
        PULLEY_SETTINGS,
        "spacer",
        "a ring that stays on the shaft",
        comment='or "gauge": a fork, pulled out once the set screw is tight',
    )

    @property
    def place(self) -> Place:
        """Return where such a motor usually sits: by the axis it is told to drive, else in order.

        Those that are told no axis take the places that are left.
        """
        found, before = usual_places(self.up.motion.layout), self.number - 1
        if by_axis(found):
            told = [motor for motor in self.up.motor if motor.has("drives")]
            if self.has("drives"):
                return next((each for each in found if each.drives == self.drives), found[-1])
            taken = {motor.raw("drives") for motor in told}
            found = tuple(each for each in found if each.drives not in taken) or found
            before -= sum(motor.number < self.number for motor in told)
        return found[min(before, len(found) - 1)]

    @property
    def own_name(self) -> str:
        """Return its name where none is told; one that an earlier motor has gets its number."""
        if self.number > len(usual_places(self.up.motion.layout)):
            return f"motor {self.number}"
        name = self.place.name
        earlier = [motor.name for motor in self.up.motor if motor.number < self.number]
        return f"{name} {self.number}" if name in earlier else name

    @property
    def corner(self) -> Triple:
        """Return that place [m]."""
        (x, y, z), size = self.place.share, self.up.printer.size
        return (x * size[0] / 2, y * size[1] / 2, z * size[2])
