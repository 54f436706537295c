"""What one material card holds: plain data, SI inside."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from isolator.cards.supply import UNKNOWN, Supply

Family = Literal["rubber", "foam", "printed"]
Kind = Literal["measured", "published", "standard", "estimated"]
FAMILIES: tuple[Family, ...] = get_args(Family)
KINDS: tuple[Kind, ...] = get_args(Kind)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One number of a card [SI], with where it comes from.

    `spread` is the factor by which the true value may be larger or smaller (1.2 means ×/÷ 1.2);
    of a hardness it is in points (5 means ±5 points). `source` is a key of the card's `sources`.
    """

    value: float
    spread: float
    kind: Kind
    source: str
    conditions: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StressCurve:
    """Static compression curve: strain [-] rising from 0, engineering stress [Pa] rising from 0."""

    strain: tuple[float, ...]
    stress: tuple[float, ...]
    kind: Kind
    source: str
    conditions: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MountSheet:
    """What a ready-made mount does by its data sheet [SI]: its load over its deflection.

    `strain` is the deflection over the height of its rubber, rising from 0, `load` likewise, at
    least two points each; past the last point the last slope goes on. The other directions hold
    for the unloaded mount and do not change with the load but for tilt, which goes with the slope.
    """

    strain: tuple[float, ...]
    load: tuple[float, ...]  # [N]
    across: float  # [N/m]
    tilt: float  # about the middle of its height [N·m/rad]
    twist: float  # [N·m/rad]
    area: float  # of its rubber, for its mass [m²]


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One material card. A figure that is None is unknown, never zero.

    rubber: `youngs_modulus` is E0, `shear_modulus` G; `hardness_factor`, the k of E0(1 + 2kS²),
    follows from where E0 is from and is no key of a card.
    foam: `curve` rules; `youngs_modulus` is its first slope; no shape factor.
    printed: `solid_modulus`, `infill` (0..1), `infill_factor` C and `infill_power` n of
    E = C·E_s·infill**n, with `wall` [m] of solid perimeter in parallel; infill 1 is a print
    without voids, a hard rubber. `density` and `conductivity` are those of the solid.

    `stiffness_spread` is read off the figure that rules: E0 (rubber), the curve (foam), solid
    modulus and infill law as independent factors (printed).
    """

    id: str
    name: str
    family: Family
    note: str
    hardness: Figure | None = None  # Shore A, IRHD or as its conditions say; ± points
    youngs_modulus: Figure | None = None
    shear_modulus: Figure | None = None
    hardness_factor: Figure | None = None
    bulk_modulus: Figure | None = None
    poisson: Figure | None = None
    curve: StressCurve | None = None
    solid_modulus: Figure | None = None
    infill: float | None = None
    infill_factor: Figure | None = None
    infill_power: Figure | None = None
    wall: float | None = None
    pattern: str = ""  # of the infill
    loss_factor: Figure  # at `reference_frequency`
    dynamic_ratio: Figure  # dynamic over static stiffness at `reference_frequency`
    strain_dependence: Figure | None = None  # 1 ×/÷ what a drone's small amplitude stiffens it
    reference_frequency: float  # [Hz]
    creep: Figure  # sag added per decade of time, as a fraction
    temperature: Figure  # fractional change of stiffness per kelvin (negative: softer when warm)
    strain_limit: Figure  # largest static compression strain
    density: Figure  # [kg/m³]
    conductivity: Figure | None = None  # [W/(m·K)]
    supply: Supply = UNKNOWN  # where it is got, and in which sheets
    stiffness_spread: float  # ×/÷ on stiffness of one piece against the card
    sources: tuple[tuple[str, str], ...]  # (key, full citation)
    mount: MountSheet | None = None  # of a ready-made mount that is known by its data sheet
    cast: str = ""  # what it is poured from, such as "two-part silicone"; empty: not pourable
    cast_kind: Kind = "estimated"  # how that is known
    cast_source: str = ""

    @property
    def thicknesses(self) -> tuple[float, ...]:
        """Return the sheets it is sold in [m]; none of what is printed or only poured."""
        return self.supply.sheets

    @property
    def in_sheets(self) -> bool:
        """Return whether pads can be cut from sheet of it, which is not only poured or moulded."""
        return bool(self.thicknesses) or not (self.cast or self.supply.ready or self.mount)
