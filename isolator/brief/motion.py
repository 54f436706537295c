"""What moves and how the belts drive it: [motion]."""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.physics.drive.belts import tension_of_span
from isolator.physics.drive.stepper import LAYOUTS, Layout
from isolator.physics.joints.fits import BUSHING, LOOSE, has_bushing, measured, rail_clearance
from isolator.reading.keys import by
from isolator.reading.number_keys import integer, quantities, quantity, warn_unusual
from isolator.reading.table import Table
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice

LAYOUT_MEANINGS = {
    "crossed": "crossed-belt",
    "bed": "moving-bed",
    **dict.fromkeys(("cartesian", "one motor"), "motor-per-axis"),
}
"""Layouts by other words."""
MOST_SPEEDS = 50
MOST_ANGLES = 24
LARGEST_PITCH = 0.1
USUAL_TENSION = (9.0, 45.0)
LEAST_TENSION, LARGEST_TENSION = 1e-3, 1e5
"""Of one strand [N]; beyond them a key was mistyped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """What moves and how the belts drive it."""

    layout: Layout
    belt_pitch: float  # [m]
    pulley_teeth: int
    steps_per_turn: int
    microsteps: int
    tool_mass: float  # [kg]
    gantry_mass: float  # what moves with the tool along one axis only [kg]
    bed_mass: float  # moving bed alone [kg]; 0 for other layouts
    gantry_height: float  # of the tool's moving mass above the frame's underside [m]
    bed_height: float  # of the moving bed [m]; 0 for other layouts
    acceleration: float  # [m/s²]
    speeds: tuple[float, ...]  # print speeds asked about [m/s]
    infill_angles: tuple[float, ...]  # of the moves that count [rad]; none: all directions
    belt_stiffness: float  # effective, from motor to moving mass [N/m]
    belt_tension: float  # one strand [N]; from the plucked span where that was given
    rail_diameter: float | None = None  # of round rails, as measured [m]


class MotionTable(Table):
    """[motion]."""

    layout = choice(
        LAYOUTS,
        meanings=LAYOUT_MEANINGS,
        said=LAYOUTS[0],
        comment="crossed-belt, motor-per-axis or moving-bed",
    )
    speeds = quantities(
        "m/s",
        range(1, MOST_SPEEDS + 1),
        usual=(0.02, 0.3),
        said=["40 mm/s", "60 mm/s", "100 mm/s"],
        comment="at which you print",
    )
    infill_angles = quantities(
        "rad",
        range(1, MOST_ANGLES + 1),
        (),
        sign="any",
        example=["45 deg", "135 deg"],
        comment="of the lines of your infill; without it all directions count alike",
    )
    acceleration = quantity("m/s^2", 2.5, "a middling setting", usual=(0.5, 20.0))
    tool_mass = quantity(
        "kg", 0.35, "estimated", usual=(0.1, 0.5), comment="what moves along both axes"
    )
    gantry_mass = quantity(
        "kg",
        0.4,
        "estimated",
        sign="not negative",
        usual=(0.1, 2.0),
        comment="what moves besides along one axis",
    )
    gantry_height = quantity(
        "m",
        lambda t: t.share * t.up.printer.size[2],
        lambda t: f"{100 * t.share:.0f} % of the printer's height; estimated",
        comment="of what moves",
    )
    belt_pitch = quantity("m", 0.002, "the usual belt of desktop printers", usual=(0.002, 0.01))
    pulley_teeth = integer((6, 1000), 20, "the usual pulley", usual=(12, 80))
    steps_per_turn = integer(
        (4, 10000), 200, "a 1.8° motor", usual=(200, 400), comment="400 for 0.9 degree motors"
    )
    microsteps = integer((1, 256), 16, "the usual setting")
    belt_tension = quantity(
        "N",
        20.0,
        "common practice, no source",
        usual=USUAL_TENSION,
        comment="of one strand; or pluck a span of it:",
    )
    belt_span = quantity(
        "m", usual=(0.05, 1.5), example="300 mm", comment="length that swings, between two pulleys"
    )
    belt_pluck = quantity(
        "Hz", usual=(20.0, 400.0), example="84 Hz", comment="its pitch; a tuner's app hears it"
    )
    belt_line_mass = by(
        lambda t: t.plucked,
        quantity(
            "kg/m",
            8.4e-3,
            "6 mm wide belt of 2 mm pitch; estimated, from memory: weigh a metre of yours",
            usual=(2e-3, 0.05),
            comment="weigh a metre of belt",
        ),
        quantity("kg/m"),
    )
    rail_diameter = quantity(
        "m",
        usual=(0.003, 0.03),
        example="8 mm",
        comment="of round rails, measured: a thin one rattles",
    )
    belt_stiffness = quantity(
        "N/m",
        6e4,
        "estimated for 6 mm wide glass-cord belt half a metre long; may be off by a factor 2",
        show="N/mm",
        usual=(5e3, 1e6),
        comment="from motor to tool, an estimate",
    )
    bed_mass = by(
        lambda t: t.moves_bed,
        quantity("kg", 0.9, "estimated", usual=(0.5, 3.0), comment='for "moving-bed" alone'),
        quantity("kg", 0.0),
    )
    bed_height = quantity(
        "m",
        lambda t: 0.2 * t.up.printer.size[2],
        "20 % of the printer's height; estimated",
        comment='for "moving-bed" alone',
    )

    @property
    def moves_bed(self) -> bool:
        """Return whether the bed moves."""
        return self.layout == "moving-bed"

    @property
    def share(self) -> float:
        """Return the tool's usual height over the printer's."""
        return 0.5 if self.moves_bed else 0.85

    @property
    def plucked(self) -> bool:
        """Return whether a span's note is told rather than the belts' tension."""
        return self.has("belt_span", "belt_pluck")


def read_motion(table: MotionTable) -> Motion:
    """Return the motion of a brief."""
    table.check("layout", "speeds")
    motion = table.record(
        Motion,
        bed_mass=_read_bed(table, "bed_mass"),
        bed_height=_read_bed(table, "bed_height"),
        belt_tension=_read_tension,
        rail_diameter=lambda t: t.rail_diameter if t.has("rail_diameter") else None,
    )
    if motion.belt_pitch > LARGEST_PITCH:
        table.fault(
            "belt_pitch",
            format_quantity(motion.belt_pitch, "mm"),
            f"a pitch of no more than {format_quantity(LARGEST_PITCH, 'mm')}",
            "it is the distance from tooth to tooth",
        )
    if table.has("rail_diameter"):
        _judge_rail(table)
    table.done()
    return motion


def _judge_rail(table: MotionTable) -> None:
    """Warn of a round rail too thin for its bushings: it rattles, and no foot helps."""
    rail = table.rail_diameter
    if math.isnan(rail) or not has_bushing(rail):
        return
    nominal = round(rail * 1e3) * 1e-3
    found = rail_clearance(BUSHING, measured(rail, nominal))
    if found.high > LOOSE:
        table.warn(
            "rail_diameter",
            f"{format_quantity(rail, 'mm')} leaves {found.low:.0f} to {found.high:.0f} µm in "
            f"bushings for {format_quantity(nominal, 'mm')}: it rattles, most at slow moves, and "
            "no foot or damper helps",
        )


def _read_tension(table: MotionTable) -> float:
    """Return one strand's tension [N]: told, from a plucked span, or the usual one."""
    if table.plucked:
        return _read_plucked(table)
    if table.has("belt_line_mass"):
        table.check("belt_line_mass")
        table.warn("belt_line_mass", "is ignored: it serves a plucked span alone")
    _judge_tension(table, "belt_tension", table.belt_tension, "check the value and its unit")
    return table.belt_tension


def _read_plucked(table: MotionTable) -> float:
    """Return one strand's tension [N] from a span's length and the note it sounds."""
    if table.has("belt_tension"):
        keys = " and ".join(name for name in ("belt_span", "belt_pluck") if table.has(name))
        table.fault(
            "belt_tension",
            f"it beside {keys}",
            "a tension or a plucked span",
            f"leave out belt_tension or {keys}",
        )
    tension = float(tension_of_span(table.belt_span, table.belt_pluck, table.belt_line_mass))
    warn_unusual(table.notes, table.path("belt_pluck"), tension, USUAL_TENSION, "N")
    _judge_tension(table, "belt_pluck", tension, "check belt_span, belt_pluck, belt_line_mass")
    return tension


def _judge_tension(table: MotionTable, key: str, tension: float, advice: str) -> None:
    if math.isnan(tension) or LEAST_TENSION <= tension <= LARGEST_TENSION:
        return
    table.fault(
        key,
        f"a tension of {format_quantity(tension, 'N')}",
        f"{format_quantity(LEAST_TENSION, 'N')} to {format_quantity(LARGEST_TENSION, 'N', 7)}",
        advice,
    )


def _read_bed(table: MotionTable, name: str) -> float:
    """Return mass [kg] or height [m] of a moving bed, zero where none moves."""
    if table.moves_bed:
        return float(getattr(table, name))
    if table.has(name):
        table.check(name)
        table.warn(name, 'is ignored: only the layout "moving-bed" moves its bed')
    return 0.0
