"""Reading what shakes: [[motor]], [[fan]], [[load]]."""

from __future__ import annotations

import math

from isolator.brief.model import Fan, Layout, Load, Motion, Motor
from isolator.brief.motor import Place, read_motor
from isolator.design.axes import AXES, Triple
from isolator.reading.notes import Notes
from isolator.reading.table import Section

MOST_FREQUENCIES = 100


_PLACES: dict[Layout, tuple[Place, ...]] = {
    "crossed-belt": (
        Place("left", "both", "z", (-0.8, 0.8, 0.88)),
        Place("right", "both", "z", (0.8, 0.8, 0.88)),
    ),
    "motor-per-axis": (
        Place("x", "x", "z", (-0.8, 0.0, 0.88)),
        Place("y", "y", "x", (0.8, 0.8, 0.84)),
    ),
    "moving-bed": (
        Place("x", "x", "y", (-0.8, 0.1, 0.5)),
        Place("y", "y", "x", (0.1, 0.8, 0.12)),
    ),
}


def read_motors(root: Section, layout: Layout, size: Triple) -> tuple[Motor, ...]:
    """Return the belt motors; two at usual places where the brief has none."""
    sections = root.sections("motor")
    if not sections:
        root.notes.assume("motor", "two of frame size 17", "none was given")
        sections = [Section(root.notes, f"motor[{number}]", {}) for number in (1, 2)]
    motors = tuple(
        read_motor(section, number, _PLACES[layout][min(number, 2) - 1], size)
        for number, section in enumerate(sections, 1)
    )
    _refuse_twins(root.notes, "motor", [motor.name for motor in motors])
    return motors


def read_fans(root: Section, gantry_height: float) -> tuple[Fan, ...]:
    """Return the fans, none where the brief has none."""
    fans = []
    for number, section in enumerate(root.sections("fan"), 1):
        speed = section.quantity("speed", "Hz", show="rpm", usual=(10.0, 250.0))
        fans.append(
            Fan(
                name=section.text("name", f"fan {number}"),
                speed=speed,
                blades=section.integer("blades", 7, "the usual count", within=(2, 100)),
                position=section.triple(
                    "position", "m", (0.0, 0.0, gantry_height), "on the tool; estimated"
                ),
                axis=section.choice("axis", AXES, "y", "estimated"),
                unbalance=_read_unbalance(section, speed),
            )
        )
        section.done()
    _refuse_twins(root.notes, "fan", [fan.name for fan in fans])
    return tuple(fans)


def _read_unbalance(section: Section, speed: float) -> float:
    """A 15 g rotor balanced to grade G 6.3, the fans' own in ISO 21940-11 (from memory)."""
    default = 0.015 * 6.3e-3 / (math.tau * speed)
    why = "a 15 g rotor of balance grade G 6.3; estimated"
    return section.quantity(
        "unbalance", "kg*m", default, why, sign="not negative", show="g*mm", usual=(0.0, 1e-5)
    )


def read_loads(root: Section, motion: Motion) -> tuple[Load, ...]:
    """Return the user's own forces, none where the brief has none."""
    zero = (0.0, 0.0, 0.0)
    loads = []
    for number, section in enumerate(root.sections("load"), 1):
        place = (0.0, 0.0, motion.gantry_height)
        force = section.triple("force", "N", zero, "none was given")
        moment = section.triple("moment", "N*m", zero, "none was given")
        if force == zero and moment == zero:
            section.notes.fault(
                section.path("force"),
                "no force and no moment",
                "one of them",
                'write it like ["0 N", "0 N", "1 N"]',
            )
        loads.append(
            Load(
                name=section.text("name", f"load {number}"),
                force=force,
                moment=moment,
                position=section.triple("position", "m", place, "at the tool's height; estimated"),
                frequencies=_read_frequencies(section),
            )
        )
        section.done()
    _refuse_twins(root.notes, "load", [load.name for load in loads])
    return tuple(loads)


def _read_frequencies(section: Section) -> tuple[float, ...]:
    lengths = range(1, MOST_FREQUENCIES + 1)
    if not section.has("frequencies"):
        return ()
    return section.quantities("frequencies", "Hz", lengths=lengths)


def _refuse_twins(notes: Notes, key: str, names: list[str]) -> None:
    for index, name in enumerate(names):
        if name and name in names[:index]:
            notes.fault(
                f"{key}[{index + 1}].name",
                f'"{name}" again',
                "a name of its own",
                "call it something else",
            )
