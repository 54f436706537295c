"""Reading what moves: [motion]."""

from __future__ import annotations

import math

from isolator.brief.model import LAYOUTS, Motion
from isolator.design.axes import Triple
from isolator.physics.drive.belts import tension_of_span
from isolator.physics.joints.fits import BUSHING, LOOSE, measured, rail_clearance
from isolator.reading.table import Section
from isolator.reading.units import format_quantity
from isolator.reading.values import warn_unusual

MOST_SPEEDS = 50
LARGEST_PITCH = 0.1
USUAL_SPEED = (0.02, 0.3)
USUAL_ACCELERATION = (0.5, 20.0)
USUAL_TENSION = (9.0, 45.0)
LEAST_TENSION, LARGEST_TENSION = 1e-3, 1e5
"""Of one strand [N]; beyond them a key was mistyped."""


def read_motion(section: Section, size: Triple) -> Motion:
    """Return the motion of a brief; `size` is the printer's outside [m]."""
    layout = section.choice("layout", LAYOUTS)
    bed = layout == "moving-bed"
    share = 0.5 if bed else 0.85
    speeds = section.quantities("speeds", "m/s", lengths=range(1, MOST_SPEEDS + 1))
    for speed in speeds:
        warn_unusual(section.notes, section.path("speeds"), speed, USUAL_SPEED, "mm/s")
    bed_mass, bed_height = _read_bed(section, bed, size)
    motion = Motion(
        layout=layout,
        belt_pitch=section.quantity(
            "belt_pitch", "m", 0.002, "the usual belt of desktop printers", usual=(0.002, 0.01)
        ),
        pulley_teeth=section.integer(
            "pulley_teeth", 20, "the usual pulley", within=(6, 1000), usual=(12, 80)
        ),
        steps_per_turn=section.integer(
            "steps_per_turn", 200, "a 1.8° motor", within=(4, 10000), usual=(200, 400)
        ),
        microsteps=section.integer("microsteps", 16, "the usual setting", within=(1, 256)),
        tool_mass=section.quantity("tool_mass", "kg", 0.35, "estimated", usual=(0.1, 0.5)),
        gantry_mass=section.quantity(
            "gantry_mass", "kg", 0.4, "estimated", sign="not negative", usual=(0.1, 2.0)
        ),
        bed_mass=bed_mass,
        gantry_height=section.quantity(
            "gantry_height",
            "m",
            share * size[2],
            f"{100 * share:.0f} % of the printer's height; estimated",
        ),
        bed_height=bed_height,
        acceleration=section.quantity(
            "acceleration", "m/s^2", 2.5, "a middling setting", usual=USUAL_ACCELERATION
        ),
        speeds=speeds,
        belt_stiffness=section.quantity(
            "belt_stiffness",
            "N/m",
            6e4,
            "estimated for 6 mm wide glass-cord belt half a metre long; may be off by a factor 2",
            show="N/mm",
            usual=(5e3, 1e6),
        ),
        belt_tension=_read_tension(section),
    )
    if motion.belt_pitch > LARGEST_PITCH:
        section.notes.fault(
            section.path("belt_pitch"),
            format_quantity(motion.belt_pitch, "mm"),
            f"a pitch of no more than {format_quantity(LARGEST_PITCH, 'mm')}",
            "it is the distance from tooth to tooth",
        )
    _judge_rail(section)
    section.done()
    return motion


def _judge_rail(section: Section) -> None:
    """Warn of a round rail too thin for its bushings: it rattles, and no foot helps."""
    if not section.has("rail_diameter"):
        return
    rail = section.quantity("rail_diameter", "m", usual=(0.003, 0.03))
    if math.isnan(rail):
        return
    nominal = round(rail * 1e3) * 1e-3
    found = rail_clearance(BUSHING, measured(rail, nominal))
    if found.high > LOOSE:
        section.notes.warn(
            section.path("rail_diameter"),
            f"{format_quantity(rail, 'mm')} leaves {found.low:.0f} to {found.high:.0f} µm in "
            f"bushings for {format_quantity(nominal, 'mm')}: it rattles, most at slow moves, and "
            "no foot or damper helps",
        )


def _read_tension(section: Section) -> float:
    """Return one strand's tension [N]: told, from a plucked span, or the usual one."""
    if section.has("belt_span") or section.has("belt_pluck"):
        return _read_plucked(section)
    if section.has("belt_line_mass"):
        section.quantity("belt_line_mass", "kg/m")
        section.notes.warn(
            section.path("belt_line_mass"), "is ignored: it serves a plucked span alone"
        )
    tension = section.quantity(
        "belt_tension", "N", 20.0, "common practice, no source", usual=USUAL_TENSION
    )
    _judge_tension(section, "belt_tension", tension, "check the value and its unit")
    return tension


def _read_plucked(section: Section) -> float:
    """Return one strand's tension [N] from a span's length and the note it sounds."""
    keys = [name for name in ("belt_span", "belt_pluck") if section.has(name)]
    if section.has("belt_tension"):
        section.notes.fault(
            section.path("belt_tension"),
            f"it beside {' and '.join(keys)}",
            "a tension or a plucked span",
            f"leave out belt_tension or {' and '.join(keys)}",
        )
    length = section.quantity("belt_span", "m", usual=(0.05, 1.5))
    pitch = section.quantity("belt_pluck", "Hz", usual=(20.0, 400.0))
    mass = section.quantity(
        "belt_line_mass",
        "kg/m",
        8.4e-3,
        "6 mm wide belt of 2 mm pitch; estimated, from memory: weigh a metre of yours",
        usual=(2e-3, 0.05),
    )
    tension = float(tension_of_span(length, pitch, mass))
    warn_unusual(section.notes, section.path("belt_pluck"), tension, USUAL_TENSION, "N")
    _judge_tension(section, "belt_pluck", tension, "check belt_span, belt_pluck, belt_line_mass")
    return tension


def _judge_tension(section: Section, key: str, tension: float, advice: str) -> None:
    if math.isnan(tension) or LEAST_TENSION <= tension <= LARGEST_TENSION:
        return
    section.notes.fault(
        section.path(key),
        f"a tension of {format_quantity(tension, 'N')}",
        f"{format_quantity(LEAST_TENSION, 'N')} to {format_quantity(LARGEST_TENSION, 'N', 7)}",
        advice,
    )


def _read_bed(section: Section, moves: bool, size: Triple) -> tuple[float, float]:
    """Return mass [kg] and height [m] of a moving bed, zeros where none moves."""
    if moves:
        return (
            section.quantity("bed_mass", "kg", 0.9, "estimated", usual=(0.5, 3.0)),
            section.quantity(
                "bed_height", "m", 0.2 * size[2], "20 % of the printer's height; estimated"
            ),
        )
    for name in ("bed_mass", "bed_height"):
        if section.has(name):
            section.quantity(name, "kg" if name == "bed_mass" else "m")
            section.notes.warn(
                section.path(name), 'is ignored: only the layout "moving-bed" moves its bed'
            )
    return 0.0, 0.0
