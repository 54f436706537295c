"""The belt motors as built now, and what may go under them: [[motor]]."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal, NamedTuple

from isolator.brief.motion import Layout
from isolator.brief.motor_sizes import MOTOR_SIZES, MotorSize, judge_winding
from isolator.brief.names import refuse_twins
from isolator.brief.pulleys import judge_pulley, read_pull
from isolator.design.axes import AXES, Axis, Triple
from isolator.design.faceplates import FRAME_SIZES
from isolator.reading.keys import choice, integer, maybe, quantity, text, triple, vector
from isolator.reading.table import Table
from isolator.reading.units import format_quantity

Drives = Literal["x", "y", "both"]
BracketMaterial = Literal["aluminium", "steel", "printed"]
DamperWish = Literal["auto", "always", "none"]

DRIVES: tuple[Drives, ...] = ("x", "y", "both")
BRACKET_MATERIALS: tuple[BracketMaterial, ...] = ("aluminium", "steel", "printed")
DAMPER_WISHES: tuple[DamperWish, ...] = ("auto", "always", "none")
SIGNED_AXES = (*AXES, "-x", "-y", "-z")
_POINTS = {"x": "right", "y": "back", "z": "up"}
_MEASURE = "estimated; measure it"
_HUB = "hub towards the motor; estimated, measure it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Motor:
    """One belt motor as built now."""

    name: str
    frame_size: int  # 14 | 17 | 23
    position: Triple  # of its body's centre [m]
    axis: Axis  # of its shaft
    points: int  # 1: the shaft points along the axis, -1: against it
    drives: Drives
    radial_limit: float | None  # the motor's radial load limit [N]; None: not given
    screw_depth: float  # of its threaded blind holes [m]; 0: a flange with through holes
    mass: float  # [kg]
    body_length: float  # [m]
    rotor_inertia: float  # [kg·m²]
    holding_torque: float  # [N·m], both windings at rated current
    shaft_length: float  # from the face [m]
    shaft_diameter: float  # [m]
    radial_arm: float  # distance from the face at which the radial limit holds [m]
    pulley_standoff: float  # motor face to pulley, as built now [m]
    pulley_length: float  # whole pulley along the shaft [m]
    set_screw: float  # pulley's end at the motor to its set screws' axis [m]
    belt_offset: float  # pulley's end at the motor to the belt's middle [m]
    wrap: float  # of the belt round the pulley [rad]
    bracket: float  # thickness of what the motor is bolted to [m]
    bracket_material: BracketMaterial
    bracket_area: float  # surface that cools the bracket [m²]
    rated_current: float  # of a winding [A]
    current: float  # set now, peak of the sine [A]
    winding_resistance: float  # [Ω]
    winding_inductance: float  # [H]
    damper: DamperWish
    spacer_plate: float  # height of a plain plate to go between motor and frame [m]; 0 for none
    pull: Triple  # unit vector of the belts' pull on the shaft, across it


class Place(NamedTuple):
    """Where a motor of a layout usually sits, as shares of half width, half depth and height."""

    name: str
    drives: Drives
    axis: Axis
    share: Triple


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


def _usual(value: Callable[[MotorSize], float]) -> dict[str, Any]:
    """Return the default of a key that goes with the motor's frame size."""
    return {
        "default": lambda t: value(MOTOR_SIZES[t.frame]),
        "why": lambda t: f"usual of frame size {t.frame}; estimated, from memory",
    }


class MotorTable(Table):
    """One [[motor]]."""

    name = text(
        default=lambda t: t.place.name if t.number < 3 else f"motor {t.number}",
        said=lambda t: t.place.name,
    )
    frame_size = integer(
        (FRAME_SIZES[0], FRAME_SIZES[-1]), default=17, why="the usual size", comment="14, 17 or 23"
    )
    position = triple(
        "m",
        default=lambda t: t.corner,
        why="usual of the layout; estimated",
        comment="middle of its body",
    )
    axis = choice(
        SIGNED_AXES,
        default=lambda t: t.place.axis,
        why=lambda t: f"usual of the layout; its shaft points {_POINTS[t.place.axis]}",
        comment='of its shaft; "-z" where the shaft points down',
    )
    drives = choice(
        DRIVES,
        default=lambda t: t.place.drives,
        why="by the layout and its order",
        comment='"x", "y" or "both"',
    )
    mass = quantity("kg", usual=(0.1, 1.2), **_usual(lambda size: size.mass))
    rotor_inertia = quantity(
        "kg*m^2",
        show="g*cm^2",
        usual=(23e-7, 110e-7),
        **_usual(lambda size: size.rotor_inertia),
    )
    holding_torque = quantity("N*m", usual=(0.2, 0.65), **_usual(lambda size: size.holding_torque))
    shaft_length = quantity(
        "m",
        usual=(0.016, 0.025),
        **_usual(lambda size: size.shaft_length),
        comment="from the motor's face",
    )
    shaft_diameter = quantity("m", usual=(0.004, 0.01), **_usual(lambda size: size.shaft_diameter))
    body_length = quantity("m", usual=(0.02, 0.12), **_usual(lambda size: size.length))
    screw_depth = quantity(
        "m",
        sign="not negative",
        usual=(0.0, 0.012),
        **_usual(lambda size: size.screw_depth),
        comment="of its threaded holes; 0 mm: through holes",
    )
    pulley_standoff = quantity(
        "m",
        sign="not negative",
        usual=(0.0, 0.02),
        default=0.006,
        why=_MEASURE,
        comment="motor face to pulley, as built now",
    )
    pulley_length = quantity("m", usual=(0.006, 0.03), default=0.016, why=_MEASURE)
    set_screw = quantity(
        "m",
        sign="not negative",
        default=0.0035,
        why=_HUB,
        comment="pulley's end at the motor to its set screws",
    )
    belt_offset = quantity(
        "m",
        sign="not negative",
        default=0.0115,
        why=_HUB,
        comment="pulley's end at the motor to the belt's middle",
    )
    wrap = quantity(
        "rad",
        usual=(math.radians(60.0), math.radians(220.0)),
        default=math.pi,
        why="half a turn; estimated",
        comment="of the belt round the pulley",
    )
    pull = maybe(
        vector(
            (-1e6, 1e6),
            example=[0, -1, 0],
            comment="which way the belts pull; else to the middle",
        )
    )
    bracket = quantity(
        "m",
        usual=(0.001, 0.012),
        default=0.004,
        why=_MEASURE,
        comment="thickness of what the motor is bolted to",
    )
    bracket_material = choice(
        BRACKET_MATERIALS, default="aluminium", why="estimated", comment="or steel, printed"
    )
    bracket_area = quantity(
        "m^2", usual=(1e-3, 0.1), default=0.01, why=_MEASURE, comment="surface that cools it"
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
        usual=(0.005, 0.03),
        default=0.02,
        why="as data sheets tell it; from memory",
        comment="... at this distance from the face",
    )
    rated_current = quantity(
        "A", usual=(0.3, 4.0), **_usual(lambda size: size.rated_current), comment="of a winding"
    )
    current = quantity(
        "A",
        usual=(0.1, 4.0),
        default=lambda t: 0.85 * t.rated_current,
        why="85 % of rated_current; estimated",
        comment="set now, peak of the sine",
    )
    winding_resistance = quantity("ohm", usual=(0.3, 40.0), **_usual(lambda size: size.resistance))
    winding_inductance = quantity("H", usual=(2e-4, 0.1), **_usual(lambda size: size.inductance))
    damper = choice(
        DAMPER_WISHES, default="auto", why="where one helps", comment='or "always", "none"'
    )
    spacer_plate = quantity(
        "m",
        sign="not negative",
        usual=(0.0, 0.02),
        default=0.0,
        why="no plate wanted",
        comment="a plain plate to go between motor and frame",
    )

    @property
    def place(self) -> Place:
        """Return where such a motor usually sits."""
        layout: Layout = self.up.motion.layout
        return _PLACES[layout][min(self.number, 2) - 1]

    @property
    def corner(self) -> Triple:
        """Return that place [m]."""
        (x, y, z), size = self.place.share, self.up.printer.size
        return (x * size[0] / 2, y * size[1] / 2, z * size[2])

    @property
    def frame(self) -> int:
        """Return its frame size, the usual one where there is no such."""
        return self.frame_size if self.frame_size in FRAME_SIZES else 17


def read_motors(tables: list[MotorTable], root: Table) -> tuple[Motor, ...]:
    """Return the belt motors; two at usual places where the brief has none."""
    if not tables:
        root.notes.assume("motor", "two of frame size 17", "none was given")
        tables = [MotorTable(root.notes, f"motor[{n}]", {}, root, n) for n in (1, 2)]
    motors = tuple(_read_motor(table) for table in tables)
    refuse_twins(root.notes, "motor", motors)
    return motors


def _read_motor(table: MotorTable) -> Motor:
    motor = table.record(
        Motor,
        frame_size=_read_frame_size,
        axis=_read_axis,
        points=lambda t: -1 if t.axis.startswith("-") else 1,
        screw_depth=_read_screw_depth,
        wrap=_read_wrap,
        winding_inductance=_read_inductance,
        spacer_plate=_read_spacer_plate,
        pull=lambda t: read_pull(t, t.pull, _read_axis(t), t.position),
    )
    table.done()
    return motor


def _read_frame_size(table: MotorTable) -> int:
    if table.frame_size != table.frame:
        table.fault("frame_size", str(table.frame_size), "14, 17 or 23", "take the nearest")
    return table.frame


def _read_axis(table: MotorTable) -> Axis:
    return AXES[AXES.index(table.axis[-1])]


def _read_screw_depth(table: MotorTable) -> float:
    depth = table.screw_depth
    if MOTOR_SIZES[table.frame].screw_depth == 0 and depth > 0:
        table.fault(
            "screw_depth",
            format_quantity(depth, "mm"),
            "0 mm: this frame size has a flange with through holes",
            "leave it out",
        )
    return depth


def _read_wrap(table: MotorTable) -> float:
    """Return how far the belt wraps; with it all of the pulley is told and can be judged."""
    wrap, length = table.wrap, table.pulley_length
    judge_pulley(table, length, set_screw=table.set_screw, belt_offset=table.belt_offset)
    return wrap


def _read_inductance(table: MotorTable) -> float:
    """Return the inductance; with it all of the winding is told and can be judged."""
    inductance = table.winding_inductance
    judge_winding(table, table.rated_current, table.current, table.winding_resistance)
    return inductance


def _read_spacer_plate(table: MotorTable) -> float:
    if table.spacer_plate > 0 and table.damper == "always":
        table.fault(
            "damper",
            '"always" beside a spacer_plate',
            "one of the two",
            'leave out spacer_plate, or set damper to "none"',
        )
    return table.spacer_plate
