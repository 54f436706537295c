"""The law of a squashed piece, fitted to its readings with all their errors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from isolator.cards import Material
from isolator.measuring.chance import NINE_OF_TEN
from isolator.measuring.squash_law import CURVE, FIRST, BlockLaw, FoamLaw, held_of, law_of
from isolator.measuring.squash_runs import Leg, Runs
from isolator.measuring.squash_solve import Task
from isolator.physics.arrays import Array
from isolator.physics.rubber.section import section
from isolator.recordings.specimen import FOAM, Specimen
from isolator.recordings.squash_file import Readings
from isolator.vibration.band import Band

SCALE = 0.005
"""Standard error of a kitchen scale's reading as a share; estimated, no source."""
HELD = 0.05
"""Standard error of how far faces are held, 0 to 1; estimated, no source."""
FORM = 0.01
"""What the form of foam's law leaves of the stress, as a share; found by trying it on the shipped
cards' curves."""
FAR = 3.5
"""Standard errors by which a reading without load may lie off the fitted curve."""
MISFIT = 4.0
"""Mean square of foam's misfit, in standard errors, from which its law gives way to a curve."""
GRID = (0.0, FIRST, 0.02, 0.035, 0.05, 0.075, *(0.1 + 0.05 * n for n in range(18)))
"""Strains at which a fitted curve of foam is written down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """What a test has found [SI]."""

    law: str
    modulus: Band  # Young's; of a print that of the whole piece
    error: float  # standard error of the logarithm of stiffness where feet are squeezed
    rms: float  # of what the law leaves of the compressions, over the largest [-]
    toe: bool  # readings without load lay off the curve and were left out
    apart: float | None  # ratio of the stiffest run to the softest; None with one run
    solid: float  # modulus of a print's solid, or of rubber [Pa]
    curve: tuple[Array, Array]  # of the piece: strain [-] and load over area [Pa]
    dots: tuple[tuple[bool, Array, Array], ...]  # each leg: used, strain, load over area


def fit_squash(specimen: Specimen, base: Material, runs: Runs, readings: Readings) -> Fit:
    """Return the fit; `base` lends what a squash test does not tell."""
    held = held_of(specimen)
    law = law_of(specimen, base, held, _top(runs))
    legs, toe = list(runs.used), False
    task = Task.of_readings(legs, readings)
    found = task.fit(law)
    if found.off(task) > FAR:
        shorter = [_without_zero(leg) for leg in legs]
        if all(len(leg.force) >= len(found.numbers) + 1 for leg in shorter):
            legs, toe = shorter, True
            task = task.of(legs)
            found = task.fit(law)
    area = float(section(specimen.shape, specimen.first, specimen.second).area)
    own = found.covariance[: len(law.start), : len(law.start)]
    told = _told(law, found.numbers, task)
    slopes = _slopes(law, found.numbers, task)
    square = np.einsum("ij,jk,ik->i", slopes, own, slopes)
    apart = None
    if isinstance(law, BlockLaw) and len(legs) > 1:
        alone = np.array([task.of([leg]).fit(law).numbers[0] for leg in legs])
        apart = float(np.exp(np.ptp(alone)))
        square = np.maximum(square, alone.var(ddof=1) / len(alone))
    square = square + _from_sizes(specimen, base, held, found.numbers, task, law)
    form = FORM if isinstance(law, FoamLaw) else 0.0
    error = np.sqrt(square + SCALE**2 + form**2)
    law_name = law.name
    curve = _curve(law, found.numbers, task, area)
    if isinstance(law, FoamLaw) and found.misfit > MISFIT:
        law_name, curve = CURVE, _through(legs, found.offsets, specimen.height, area)
    modulus = float(np.exp(told[0]))
    width = float(np.exp(NINE_OF_TEN * error[0]))
    most = max(float(leg.squeezed.max()) for leg in legs)
    return Fit(
        law=law_name,
        modulus=Band(low=modulus / width, nominal=modulus, high=modulus * width),
        error=float(error[-1]),
        rms=float(np.sqrt(np.mean(np.concatenate(found.residuals) ** 2)) / most),
        toe=toe,
        apart=apart,
        solid=modulus / law.mean if isinstance(law, BlockLaw) else modulus,
        curve=curve,
        dots=_dots(runs, legs, found.offsets, specimen.height, area),
    )


def _top(runs: Runs) -> tuple[float, float]:
    """Return the furthest reading that is fitted: force [N] and compression [m]."""
    last = max(runs.used, key=lambda leg: float(leg.force[-1]))
    return float(last.force[-1]), float(last.squeezed[-1])


def _told(law: BlockLaw | FoamLaw, numbers: Array, task: Task) -> Array:
    """Return logarithms: of Young's modulus, of foam also of the stress half way up."""
    first = np.log(law.modulus(numbers))
    if isinstance(law, BlockLaw):
        return np.array([first])
    middle = _middle(law, task)
    return np.array([first, np.log(law.curve(numbers, np.array([middle]))[0])])


def _middle(law: BlockLaw | FoamLaw, task: Task) -> float:
    """Return the strain half way to the furthest reading."""
    return 0.5 * max(float(leg.squeezed.max()) for leg in task.legs) / law.height


def _slopes(law: BlockLaw | FoamLaw, numbers: Array, task: Task) -> Array:
    """Return the derivatives of `_told` by each number (2 or 1, p)."""
    columns = []
    for at in range(len(numbers)):
        step = np.zeros_like(numbers)
        step[at] = 1e-4
        both = [_told(law, numbers + sign * step, task) for sign in (1.0, -1.0)]
        columns.append((both[0] - both[1]) / 2e-4)
    return np.array(columns).T


def _from_sizes(
    specimen: Specimen,
    base: Material,
    held: float,
    numbers: Array,
    task: Task,
    like: BlockLaw | FoamLaw,
) -> Array:
    """Return the variance that errors of sizes and faces add to each logarithm."""
    error = specimen.size_error
    told = _told(like, numbers, task)
    start = like.start
    others = [
        (replace(specimen, first=specimen.first + error), held),
        # callipers close on a thickness better than on a soft rim
        (replace(specimen, thickness=specimen.thickness + 0.5 * error), held),
    ]
    if specimen.second > 0:
        others.append((replace(specimen, second=specimen.second + error), held))
    if specimen.family != FOAM:
        others.append((specimen, abs(held - HELD)))
    added = np.zeros_like(told)
    for changed, faces in others:
        law = replace(law_of(changed, base, faces), start=start)
        found = task.of(task.legs).fit(law, numbers)
        added += (_told(law, found.numbers, task) - told) ** 2
    return added


def _without_zero(leg: Leg) -> Leg:
    keep = leg.force > 0
    return replace(leg, force=leg.force[keep], squeezed=leg.squeezed[keep])


def _curve(law: BlockLaw | FoamLaw, numbers: Array, task: Task, area: float) -> tuple[Array, Array]:
    """Return the fitted curve of the piece up to the furthest reading."""
    top = max(float(leg.force.max()) for leg in task.legs)
    if isinstance(law, BlockLaw):
        force = np.linspace(0.0, top, 60)
        return law.squeezed(numbers, force) / law.height, force / area
    most = float(law.squeezed(numbers, np.array([top]))[0]) / law.height
    strain = np.array([each for each in GRID if each < most - 0.01] + [most])
    return strain, law.curve(numbers, strain)


def _through(
    legs: Sequence[Leg], offsets: Array, height: float, area: float
) -> tuple[Array, Array]:
    """Return a curve that rises at every point, through the mean of all runs."""
    from scipy.optimize import isotonic_regression

    force = np.concatenate([leg.force for leg in legs])
    strain = np.concatenate(
        [(leg.squeezed - zero) / height for leg, zero in zip(legs, offsets, strict=True)]
    )
    loads = np.unique(force[force > 0])
    means = np.array([strain[force == load].mean() for load in loads])
    risen = isotonic_regression(means).x
    keep = np.flatnonzero(np.diff(np.r_[0.0, risen]) > 1e-4)
    return np.r_[0.0, risen[keep]], np.r_[0.0, loads[keep] / area]


def _dots(
    runs: Runs, legs: Sequence[Leg], offsets: Array, height: float, area: float
) -> tuple[tuple[bool, Array, Array], ...]:
    """Return all ways as strain and stress, from the zero of the run that they belong to."""
    zero, found = float(offsets[0]), []
    zeros = iter(offsets.tolist())
    for leg in runs.legs:
        used = any(leg is each for each in runs.used)
        zero = next(zeros) if used else zero
        found.append((used, (leg.squeezed - zero) / height, leg.force / area))
    return tuple(found)
