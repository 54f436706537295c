"""One pad by itself: its stiffness in every direction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.cards import Material
from isolator.cards.moduli import card_curve
from isolator.cards.pad_law import BUCKLING, is_solid, pad_modulus, unloaded
from isolator.cards.pads import pad_state
from isolator.design import OUTLINES, SHAPES
from isolator.physics.rubber import foam
from isolator.physics.rubber.section import LARGEST_SHAPE, LEAST_SHAPE, shape_factor, within_fits
from isolator.reading.command_words import COMMAND_LINE, quantities
from isolator.reading.faults import refused


@dataclass(frozen=True, slots=True, kw_only=True)
class PadFigures:
    """One pad [SI]; stiffnesses are static tangents under `load`."""

    shape_factor: float
    apparent_modulus: float  # small strain, with shape factor and bulk; a foam's tangent
    youngs_modulus: float
    compression: float
    shear: tuple[float, float]  # along x, y
    tilt: tuple[float, float]  # about x, y
    twist: float
    strain: float
    load: float
    dynamic_ratio: float  # at the card's reference frequency
    warnings: tuple[str, ...]


def read_sizes(shape: str, texts: Sequence[str]) -> tuple[float, float, float]:
    """Return (first, second, thickness) [m] of a pad from sizes as typed, such as "30 mm".

    Raises InputError with every fault: an unknown outline, too few sizes, a hole too wide.
    """
    if shape not in SHAPES:
        raise refused(
            COMMAND_LINE, "SHAPE", f'"{shape}"', "a pad's outline", f"choose {', '.join(SHAPES)}"
        )
    names = (*OUTLINES[shape].sizes, "thickness")
    if len(texts) != len(names):
        raise refused(
            COMMAND_LINE,
            "SIZE",
            f"{len(texts)} size{'' if len(texts) == 1 else 's'}",
            f"{len(names)} for a {shape}: {', '.join(names)}",
            'write them like "30 mm"',
        )
    values = quantities(names, texts, "m")
    first, second, thickness = (values[0], 0.0, values[1]) if len(values) == 2 else values
    if OUTLINES[shape].holed and second >= first:
        raise refused(
            COMMAND_LINE,
            names[1],
            f'"{texts[1]}"',
            f"less than the {names[0]}",
            "swap the two sizes?",
        )
    return first, second, thickness


def pad_figures(
    material: Material, shape: str, sizes: tuple[float, float, float], load: float, *, bonded: bool
) -> PadFigures:
    """Return everything about one pad that carries `load` [N].

    `sizes` (first, second, thickness) [m] as in `isolator.physics.rubber.section`; `bonded`:
    whether its faces cannot slip. Raises ValueError for a card that lacks what its law needs.
    """
    first, second, thickness = (np.array([value]) for value in sizes)
    arrays, held = (first, second, thickness), 1.0 if bonded else 0.0
    pads = unloaded(material, shape, arrays, bonded=held)
    state = pad_state(pads, np.array([[load]]))
    proportion = float(shape_factor(shape, *sizes))
    if is_solid(material) or material.family == "printed":
        apparent = float(pad_modulus(material, shape, arrays, bonded=held)[0])
        figure = material.youngs_modulus or material.solid_modulus
        youngs = apparent if figure is None else figure.value
    else:
        curve = card_curve(material)
        apparent = float(foam.curve_slope(state.strain[0], *curve)[0])
        youngs = float(foam.curve_slope(0.0, *curve))
    linear, angular = state.linear[0, 0], state.angular[0, 0]
    return PadFigures(
        shape_factor=proportion,
        apparent_modulus=apparent,
        youngs_modulus=youngs,
        compression=float(linear[2]),
        shear=(float(linear[0]), float(linear[1])),
        tilt=(float(angular[0]), float(angular[1])),
        twist=float(angular[2]),
        strain=float(state.strain[0, 0]),
        load=load,
        dynamic_ratio=material.dynamic_ratio.value,
        warnings=_warnings(material, proportion, state.strain[0, 0], state.buckling[0, 0]),
    )


def _warnings(
    material: Material, proportion: float, strain: float, buckling: float
) -> tuple[str, ...]:
    told = []
    if is_solid(material) and not within_fits(proportion):
        told.append(
            f"shape factor {proportion:.3g} lies outside {LEAST_SHAPE:g} to {LARGEST_SHAPE:g}, "
            "where the formulas are held against finite elements"
        )
    if strain > material.strain_limit.value:
        told.append(
            f"compressed by {100 * strain:.0f} %, past the {100 * material.strain_limit.value:.0f} "
            "% that the card allows for good: a wider pad, or a stiffer grade"
        )
    if buckling > BUCKLING:
        told.append(
            f"carries {100 * buckling:.0f} % of the load it buckles at: a wider or thinner pad"
        )
    if material.curve is not None and strain >= material.curve.strain[-1]:
        told.append("squeezed past the last point of its curve: the figures are not to be used")
    return tuple(told)
