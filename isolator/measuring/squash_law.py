"""Laws of a squashed piece: how far each force squeezes it, by a few numbers that are fitted."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass, replace

import numpy as np

from isolator.cards import Figure, Material
from isolator.cards.pad_law import is_solid, pad_modulus, unloaded
from isolator.cards.pads import PadBatch, pad_state
from isolator.physics.arrays import Array
from isolator.physics.rubber.foam_law import ATMOSPHERE, foam_stress
from isolator.physics.rubber.section import section
from isolator.recordings.specimen import BONDED, FOAM, Specimen

BLOCK, PRINT, SMOOTH, CURVE = (
    "neo-Hookean block",
    "printed block",
    "foam: elastic, folding, closing up, air",
    "monotone curve through the readings",
)
"""What laws are called."""
UNIT = 1e6
"""Modulus [Pa] of the piece that a block's factor starts from."""
FIRST = 0.01
"""Strain up to which foam's first slope is taken."""
DENSE = 601


class Law(ABC):
    """A law with its first guess (p,) and how far off that may be (p,)."""

    name: str
    start: Array
    doubt: Array

    @abstractmethod
    def squeezed(self, numbers: Array, force: Array) -> Array:
        """Return the compression [m] under each force [N]."""

    @abstractmethod
    def modulus(self, numbers: Array) -> float:
        """Return Young's modulus of the material [Pa]."""


@dataclass
class BlockLaw(Law):
    """Rubber or a print: one modulus, the force goes with (λ⁻² − λ)/3."""

    name: str
    pads: PadBatch
    height: float
    mean: float  # modulus of the whole piece of a print over that of its solid; 1 of rubber
    start: Array
    doubt: Array

    def squeezed(self, numbers: Array, force: Array) -> Array:
        """As `Law`."""
        state = pad_state(self.pads, force[None, :], modulus_factor=float(np.exp(numbers[0])))
        return np.asarray(state.strain[0] * self.height)

    def modulus(self, numbers: Array) -> float:
        """As `Law`."""
        return float(UNIT * self.mean * np.exp(numbers[0]))


@dataclass
class FoamLaw(Law):
    """Foam: slope, folding stress, strain that cannot be passed, pressure of the air in cells."""

    area: float
    height: float
    poisson: float
    start: Array
    doubt: Array
    name: str = SMOOTH

    def curve(self, numbers: Array, strain: Array) -> Array:
        """Return the stress [Pa] at each strain [-]."""
        slope, plateau, room, gas = np.exp(numbers)
        return foam_stress(
            strain,
            modulus=slope,
            plateau=plateau,
            packed=float(0.5 + room),
            gas=gas,
            poisson=self.poisson,
        )

    def squeezed(self, numbers: Array, force: Array) -> Array:
        """As `Law`."""
        packed = min(0.5 + float(np.exp(numbers[2])), 0.98)
        top = min(packed, 0.89 / max(1.0 - 2.0 * self.poisson, 1e-6))
        grid = top * (1.0 - np.linspace(1.0, 0.02, DENSE) ** 2)  # closer where it is steep
        stress = self.curve(numbers, grid)
        return np.asarray(np.interp(force / self.area, stress, grid) * self.height)

    def modulus(self, numbers: Array) -> float:
        """As `Law`; the slope of a card's first stretch, walls and air together."""
        return float(self.curve(numbers, np.array([FIRST]))[0] / FIRST)


def held_of(specimen: Specimen) -> float:
    """Return how far faces are held: 1 where they cannot slip, 0 where they slip freely."""
    return 1.0 if specimen.faces == BONDED else 0.0


def law_of(
    specimen: Specimen, base: Material, held: float, top: tuple[float, float] | None = None
) -> FoamLaw | BlockLaw:
    """Return the law of a specimen; `base` lends what a squash test does not tell.

    For rubber and prints it is the very law of pads, so that what is fitted is what feet get;
    `held` tells how far its faces are; foam's first guess goes through `top`, a force [N] and the
    compression [m] under it. Layers act as one piece: nothing stiff lies between them.
    """
    sizes = specimen.first, specimen.second, specimen.height
    if specimen.family == FOAM:
        assert base.curve is not None
        area = float(section(specimen.shape, *sizes[:2]).area)
        curve, scale = (base.curve.strain, base.curve.stress), 1.0
        if top is not None:
            there = min(top[1] / specimen.height, base.curve.strain[-1])
            scale = top[0] / area / max(float(np.interp(there, *curve)), 1.0)
        slope = scale * base.curve.stress[1] / base.curve.strain[1]
        half = scale * float(np.interp(0.25, *curve))
        return FoamLaw(
            area=area,
            height=specimen.height,
            poisson=0.0 if base.poisson is None else base.poisson.value,
            # foams of one kind differ tenfold, and some have no air shut in
            start=np.log([slope, half, 0.35, 0.2 * ATMOSPHERE]),
            doubt=np.array([1.5, 1.5, 0.5, 1.5]),
        )
    trial = trial_of(base)
    first, second, height = (np.array([size]) for size in sizes)
    free = pad_modulus(trial, specimen.shape, (first, second, height), bonded=0.0)
    return BlockLaw(
        name=BLOCK if is_solid(trial) else PRINT,
        pads=unloaded(trial, specimen.shape, (first, second, height), bonded=held),
        height=specimen.height,
        mean=float(free[0]) / UNIT,
        start=np.zeros(1),
        doubt=np.array([5.0]),
    )


def trial_of(base: Material) -> Material:
    """Return `base` with the modulus `UNIT`, a rubber with E = 3G and k = 1."""
    plain = Figure(value=UNIT, spread=1.0, kind="measured", source="", conditions="")
    if base.family == "printed":
        return replace(base, solid_modulus=plain)
    return replace(base, youngs_modulus=plain, shear_modulus=None, hardness_factor=None)
