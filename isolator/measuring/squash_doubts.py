"""What is doubtful about a squash test, by name and with the numbers that a sentence needs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from isolator.cards import Material
from isolator.measuring.squash_fit import Fit
from isolator.measuring.squash_law import CURVE
from isolator.measuring.squash_runs import Runs
from isolator.physics.rubber.section import shape_factor
from isolator.recordings.specimen import FOAM, RUBBER, SLIPPING, Specimen
from isolator.recordings.squash_file import Readings
from isolator.vibration.supports import ROOM

FEW = 6
"""Loads in one run from which a curve is well told; common practice, no source."""
IN_RANGE = 4
"""Readings that should lie where feet may stand, the one without load among them."""
LITTLE, MUCH = 0.5, 2.5
"""Shares of the strain that feet may have, below and beyond which readings tell little of feet."""
KEEPS = {"rubber": 0.25, "foam": 0.5, "printed": 0.4}
"""Shares of the work that a loop of each family usually keeps at most; estimated, no source."""
CREPT = 0.05
"""Creep under one load from which times are asked for."""
APART = 1.1
"""Ratio of two runs' stiffness from which they are told as unlike."""
COARSE = 20.0
"""Steps of a gauge that the readings should span."""
BLUNT = 0.3
"""Shape factor from which what friction is left between slipping faces is read as stiffness."""
SOFTEST = 75e3
"""Young's modulus below which nothing sold as solid rubber lies [Pa]: half the softest shipped
card's."""
MISMATCH = 0.05
"""By how much the height without load may differ from thickness times layers."""
COLD = 8.0
"""Kelvin from the cards' temperature beyond which the correction is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """One thing to know before the card is trusted; `figures` in SI, shares as such."""

    name: str
    figures: Mapping[str, float]


def doubts(
    specimen: Specimen, base: Material, runs: Runs, readings: Readings, fit: Fit
) -> tuple[Doubt, ...]:
    """Return every doubt, what weighs most first."""
    found = [
        *_of_family(specimen, fit),
        *_of_data(specimen, runs, readings),
        *_of_range(specimen, base, runs),
    ]
    found += [*_of_runs(specimen, runs, fit), *_of_piece(specimen)]
    return tuple(Doubt(name=name, figures=figures) for name, figures in found)


def _of_family(specimen: Specimen, fit: Fit) -> Iterator[tuple[str, Mapping[str, float]]]:
    if specimen.family == RUBBER and fit.solid < SOFTEST:
        yield "soft", {"told_k": fit.solid / 1e3}


def _of_data(
    specimen: Specimen, runs: Runs, readings: Readings
) -> Iterator[tuple[str, Mapping[str, float]]]:
    loads = max(len(leg.force) for leg in runs.used)
    if loads < FEW:
        yield "few loads", {"loads": loads, "wanted": FEW}
    span = max(float(np.ptp(leg.squeezed)) for leg in runs.used)
    if span < COARSE * readings.place_step * (1 - 1e-9):
        yield "coarse gauge", {"span_m": span, "step_m": readings.place_step}
    least = min(float(np.diff(leg.force).min()) for leg in runs.used)
    if readings.force_step > 0.1 * least:
        yield "coarse scale", {"step_n": readings.force_step, "least_n": least}
    if runs.free is not None and abs(runs.free / specimen.height - 1.0) > MISMATCH:
        yield "height", {"read_m": runs.free, "told_m": specimen.height}


def _of_range(
    specimen: Specimen, base: Material, runs: Runs
) -> Iterator[tuple[str, Mapping[str, float]]]:
    most = max(float(leg.squeezed.max()) for leg in runs.used) / specimen.height
    limit = base.strain_limit.value
    if most < (1.0 if specimen.family == FOAM else LITTLE) * limit:
        yield "little squeeze", {"most": most, "limit": limit}
    below = max(int(np.sum(leg.squeezed < limit * specimen.height)) for leg in runs.used)
    if below < IN_RANGE <= max(len(leg.force) for leg in runs.used):
        yield "few in range", {"loads": below, "limit": limit}
    if specimen.family != FOAM and most > MUCH * limit:
        yield "much squeeze", {"most": most, "limit": limit}


def _of_runs(specimen: Specimen, runs: Runs, fit: Fit) -> Iterator[tuple[str, Mapping[str, float]]]:
    if fit.toe:
        yield "first reading", {}
    if fit.law == CURVE:
        yield "own curve", {}
    if fit.apart is not None and fit.apart > APART:
        yield "runs apart", {"ratio": fit.apart}
    if len(runs.used) == len([leg for leg in runs.legs if leg.up]) == 1:
        yield "one run", {}
    if runs.lost is not None and runs.lost > KEEPS[specimen.family]:
        yield "large loop", {"share": runs.lost, "usual": KEEPS[specimen.family]}
    if runs.lost is not None and runs.lost < 0:
        yield "loop turned", {"share": runs.lost}
    if runs.crept is not None and runs.crept > CREPT and runs.creep is None:
        yield "creep", {"share": runs.crept}


def _of_piece(specimen: Specimen) -> Iterator[tuple[str, Mapping[str, float]]]:
    sizes = specimen.first, specimen.second, specimen.height
    shape = float(shape_factor(specimen.shape, *sizes))
    if specimen.faces == SLIPPING and shape > BLUNT and specimen.family != FOAM:
        yield "friction", {"shape": shape}
    if abs(specimen.temperature - ROOM) > COLD:
        yield "temperature", {"at": specimen.temperature, "told": ROOM}
