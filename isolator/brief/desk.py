"""What the printer stands on: [desk]."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Literal, cast

from isolator.brief.table_tops import MEANINGS, OTHERWISE, TOPS, Top
from isolator.design.axes import Pair
from isolator.reading.keys import Key, by, maybe
from isolator.reading.notes import Notes
from isolator.reading.number_keys import number, pair, places, quantity
from isolator.reading.table import Table
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice, text

KINDS: tuple[Literal["rigid", "plate"], ...] = ("rigid", "plate")
SUPPORTS: tuple[Literal["legs", "edges"], ...] = ("legs", "edges")
BOARD = ("material", "thickness", "youngs_modulus", "density", "poisson", "loss_factor")
HOLLOW = ("skin", "core_density")
SIZED = ("support", "leg_inset", "legs", "position")
"""Keys that say something of a desk of known size alone."""
PLATE = (*BOARD, *HOLLOW, "size", *SIZED, "carries")
"""Keys of a plate alone: any of them makes the desk one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What the printer stands on; every number is 0 for a rigid one."""

    kind: Literal["rigid", "plate"]
    material: str
    thickness: float  # [m]
    youngs_modulus: float  # [Pa]; of a hollow board its skins'
    density: float  # [kg/m³]; of a hollow board its skins'
    poisson: float
    loss_factor: float
    skin: float = 0.0  # thickness of each skin of a hollow board [m]; 0: solid
    core_density: float = 0.0  # between the skins [kg/m³]
    size: Pair | None = None  # along x and y [m]; None: endless
    support: Literal["legs", "edges"] = "legs"
    leg_inset: float = 0.0  # from the edges to the legs' middles [m]
    legs: tuple[Pair, ...] | None = None  # from the desk's middle [m]; None: four, by the inset
    position: Pair = (0.0, 0.0)  # of the printer's middle from the desk's [m]
    carries: float = 0.0  # besides the printer, spread evenly [kg]

    @property
    def leg_places(self) -> tuple[Pair, ...] | None:
        """Return where its legs stand, from its middle [m]; None for held edges, or no size."""
        if self.size is None or self.support == "edges":
            return None
        if self.legs is not None:
            return self.legs
        x, y = (max(side / 2.0 - self.leg_inset, 0.0) for side in self.size)
        return ((-x, -y), (x, -y), (x, y), (-x, y))


def _usual(value: Callable[[Top], float]) -> tuple[Callable[[Any], Any], ...]:
    """Return the default of a key that goes with the desk's material."""
    return (
        lambda t: value(t.top),
        lambda t: f"usual of {t.material} ({t.top.source})" if t.material in TOPS else "estimated",
    )


class DeskTable(Table):
    """[desk]."""

    kind = choice(
        KINDS,
        lambda t: "plate" if t.has(*PLATE) else "rigid",
        lambda t: "its material or thickness is given" if t.has(*PLATE) else "none was given",
        comment="rigid or plate",
    )
    material = by(
        lambda t: not t.has("youngs_modulus") or not t.has("density"),
        cast(
            "Key[str]",
            choice(
                tuple(TOPS),
                "mdf",
                "the usual table top",
                meanings=MEANINGS,
                otherwise=f"write one of these words, in quotes, {OTHERWISE}",
                comment="chipboard, plywood, solid-wood, hollow-board, glass, steel ...",
            ),
        ),
        text("own", "its modulus and density are given"),
    )
    thickness = quantity("m", *_usual(lambda top: top.thickness), usual=(0.003, 0.2))
    youngs_modulus = quantity(
        "Pa", *_usual(lambda top: top.youngs_modulus), show="GPa", usual=(5e8, 3e11)
    )
    density = quantity("kg/m^3", *_usual(lambda top: top.density), usual=(200.0, 8000.0))
    poisson = number((0.0, 0.49), *_usual(lambda top: top.poisson))
    loss_factor = number(
        (0.001, 1.0),
        lambda t: t.top.loss_factor,
        "a table with joints and things on it, estimated",
        comment="of the desk as it stands",
    )
    skin = quantity(
        "m",
        lambda t: t.top.skin,
        lambda t: _usual(lambda top: top.skin)[1](t) if t.top.skin else "",
        sign="not negative",
        comment='of a hollow board, each; "0 mm": solid',
    )
    core_density = quantity(
        "kg/m^3",
        lambda t: t.top.core_density,
        lambda t: _usual(lambda top: top.core_density)[1](t) if t.skin else "",
        sign="not negative",
        comment="between the skins of a hollow board",
    )
    size = maybe(
        pair("m", example=["1400 mm", "700 mm"], comment="along x and y; its modes count then"),
        lambda t: "without its size it is taken as endless" if t.kind == "plate" else "",
        "unknown",
    )
    support = choice(
        SUPPORTS,
        "legs",
        lambda t: "as most tables stand" if t.has("size") else "",
        comment='or "edges", held all round',
    )
    leg_inset = quantity(
        "m",
        0.05,
        lambda t: "usual" if t.four_legs else "",
        sign="not negative",
        comment="from the edges to the legs' middles",
    )
    legs = maybe(
        places(
            3,
            12,
            example=[["-650 mm", "-300 mm"], ["650 mm", "-300 mm"], ["0 mm", "300 mm"]],
            comment="from the desk's middle",
        )
    )
    position = pair(
        "m",
        (0.0, 0.0),
        lambda t: "the middle" if t.has("size") else "",
        sign="any",
        comment="of the printer's middle from the desk's",
    )
    carries = quantity(
        "kg",
        0.0,
        lambda t: "nothing else stands on it" if t.has("size") else "",
        sign="not negative",
        usual=(0.0, 60.0),
        example="12 kg",
        comment="besides the printer, spread over the desk",
    )

    @property
    def top(self) -> Top:
        """Return what is usual of its material, or of the usual one."""
        return TOPS.get(self.material, TOPS["mdf"])

    @property
    def four_legs(self) -> bool:
        """Return whether it stands on four legs whose places follow from their inset."""
        return self.has("size") and self.support == "legs" and not self.has("legs")


def read_desk(table: DeskTable) -> Desk:
    """Return the desk of a brief: rigid where the brief has none."""
    kind = table.kind
    if kind == "plate":
        desk = table.record(Desk)
        _judge_board(table, desk)
    else:
        for key in PLATE:
            if table.has(key):
                table.warn(key, "is ignored: the desk is rigid")
        nothing: dict[str, Any] = dict.fromkeys(BOARD, 0.0)
        desk = Desk(**{**nothing, "kind": kind, "material": "rigid"})
    table.done()
    return desk


def _judge_board(table: DeskTable, desk: Desk) -> None:
    """Note skins that leave no core, and what is said without effect."""
    if table.clean("skin", "thickness") and 2.0 * desk.skin > desk.thickness:
        table.fault(
            "skin",
            format_quantity(desk.skin, "mm"),
            f"at most half of the thickness of {format_quantity(desk.thickness, 'mm')}",
            'it is the thickness of one skin; "0 mm" for a solid board',
        )
    if table.has("core_density") and desk.skin == 0.0:
        table.warn("core_density", "is ignored: the board is solid")
    if desk.carries > 0.0 and not table.has("size"):
        table.fault(
            "carries",
            f"{format_quantity(desk.carries, 'kg')} on a desk of no told size",
            "the size over which it is spread",
            'add desk.size, such as size = ["1400 mm", "700 mm"]',
        )
    for key in SIZED:
        if table.has(key) and not table.has("size"):
            table.warn(key, "is ignored: the desk has no size")
    if table.has("size") and not table.four_legs and table.has("leg_inset"):
        table.warn("leg_inset", "is ignored: no legs follow from it")


def judge_desk(notes: Notes, desk: Desk, feet: Iterable[Pair]) -> None:
    """Note feet (x, y) [m] from the printer's middle, and legs, that lie beside the desk."""
    if desk.size is None:
        return
    for key, called, spots, middle in (
        ("size", "feet", feet, desk.position),
        ("legs", "legs", desk.leg_places or (), (0.0, 0.0)),
    ):
        for spot in spots:
            at = tuple(own + shift for own, shift in zip(spot, middle, strict=True))
            if any(abs(each) > side / 2.0 for each, side in zip(at, desk.size, strict=True)):
                told = ", ".join(format_quantity(each, "mm") for each in at)
                sides = " × ".join(format_quantity(side, "mm") for side in desk.size)
                notes.fault(
                    f"desk.{key}",
                    f"{called} beside the desk, at ({told}) from its middle",
                    f"all {called} on its {sides}",
                    "mend desk.size" if key == "legs" else "mend desk.size or desk.position",
                )
                break
