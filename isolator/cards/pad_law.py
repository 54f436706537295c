"""Unloaded pads of one card: their law and the stiffness that it starts from."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.cards.moduli import card_moduli, card_poisson
from isolator.cards.pads import FoamPads, HalfBalls, PadBatch, SheetMounts, SolidPads
from isolator.design import BALL, OUTLINES
from isolator.physics.rubber import elastomer, plain_pads, printed
from isolator.physics.rubber.section import section

Array = NDArray[np.float64]
Directions = tuple[tuple[Array, Array], tuple[Array, Array, Array]]
Sizes = tuple[Array, Array, Array]

BUCKLING = 0.5
"""Load over buckling load that is allowed: half; common practice, no source."""


def unloaded(material: Material, shape: str, sizes: Sizes, *, bonded: float = 1.0) -> PadBatch:
    """Return n pads of one material and outline.

    `shape` of `isolator.design`; `sizes` (first, second, thickness) (n,) [m] as in
    `isolator.physics.rubber.section`; `bonded` runs from 1, faces that cannot slip, to 0, faces
    that slip freely. Raises ValueError for a half-ball that is not of rubber, or a card that
    lacks a figure its law needs. Buffers stick to their metal discs whatever `bonded` is; a
    `thickness` of theirs is that of their rubber.
    """
    columns = _columns(sizes)
    if shape == BALL:
        return _half_balls(material, columns)
    if OUTLINES[shape].ready:
        rubber = columns[1]  # between its metal discs
        if material.mount is not None:
            return _sheet_mounts(material, rubber)
        return solid_pads(material, OUTLINES[shape].plan, (sizes[0], 0.0 * sizes[1], sizes[1]))
    if material.family == "foam":
        held = card_poisson(material, 0.0)
        shear, angular = _plain(shape, columns, 1.0, held, held)
        return FoamPads(
            material=material,
            thickness=columns[2],
            shear=np.stack(shear, axis=-1),
            angular=np.stack(angular, axis=-1),
            area=section(shape, *columns[:2]).area,
        )
    return solid_pads(material, shape, sizes, bonded=bonded)


def solid_pads(material: Material, shape: str, sizes: Sizes, *, bonded: float = 1.0) -> SolidPads:
    """Return pads of rubber or of a print; arguments as `unloaded`."""
    sizes = _columns(sizes)
    if is_solid(material):
        shear, angular = _rubber(material, shape, sizes, bonded)
    else:
        modulus = _printed_modulus(material, shape, *sizes[:2])
        poisson = card_poisson(material, 0.3)
        shear, angular = _plain(shape, sizes, modulus, poisson, bonded * poisson)
    modulus = pad_modulus(material, shape, sizes, bonded=bonded)
    area = section(shape, *sizes[:2]).area
    return SolidPads(
        material=material,
        thickness=sizes[2],
        shear=np.stack(shear, axis=-1),
        angular=np.stack(angular, axis=-1),
        area=area,
        compression=area * modulus,
    )


def _columns(sizes: Sizes) -> Sizes:
    """Return sizes (n, 1) of sizes (n,)."""
    first, second, thickness = (each[:, None] for each in sizes)
    return first, second, thickness


def _half_balls(material: Material, sizes: Sizes) -> HalfBalls:
    """Return half-balls; their flat face is glued whatever other pads' faces do."""
    if material.family != "rubber":
        raise ValueError(f"{material.id}: a half-ball is of rubber, not {material.family}")
    moduli, none = card_moduli(material), np.zeros_like(sizes[2])
    return HalfBalls(
        material=material,
        thickness=sizes[2],
        wall=(sizes[0] - sizes[1]) / 2.0,
        youngs_modulus=none + moduli["youngs_modulus"],
        shear_modulus=none + moduli["shear_modulus"],
    )


def _sheet_mounts(material: Material, rubber: Array) -> SheetMounts:
    """Return ready-made mounts of a data sheet; `rubber` (n, 1) is the height of their rubber."""
    sheet, full = material.mount, np.ones_like(rubber)
    assert sheet is not None
    across, tilt, twist = sheet.across * full, sheet.tilt * full, sheet.twist * full
    return SheetMounts(
        material=material,
        thickness=rubber,
        shear=np.stack([across, across], axis=-1),
        angular=np.stack([tilt, tilt, twist], axis=-1),
        area=sheet.area * full,
    )


def is_solid(material: Material) -> bool:
    """Return whether a material keeps its volume: rubber, or a print without voids."""
    return material.family == "rubber" or (material.family == "printed" and material.infill == 1)


def pad_modulus(material: Material, shape: str, sizes: Sizes, *, bonded: float = 1.0) -> Array:
    """Return the small-strain apparent modulus E_a [Pa] of pads whose force goes with (λ⁻² − λ)/3.

    `sizes` [m] broadcast; `bonded` as in `unloaded`.
    """
    if is_solid(material):
        return elastomer.apparent_modulus(shape, *sizes, **card_moduli(material), bonded=bonded)
    modulus = _printed_modulus(material, shape, *sizes[:2])
    held = bonded * card_poisson(material, 0.3)
    stiff = plain_pads.compression_stiffness(shape, *sizes, modulus=modulus, poisson=held)
    return np.asarray(stiff * sizes[2] / section(shape, *sizes[:2]).area)


def _rubber(material: Material, shape: str, sizes: Sizes, bonded: float) -> Directions:
    moduli = card_moduli(material)
    youngs, rigidity = moduli["youngs_modulus"], moduli["shear_modulus"]
    shear = elastomer.shear_stiffness(shape, *sizes, shear_modulus=rigidity, youngs_modulus=youngs)
    tilt = elastomer.tilt_stiffness(shape, *sizes, **moduli, bonded=bonded)
    return shear, (*tilt, elastomer.twist_stiffness(shape, *sizes, shear_modulus=rigidity))


def _plain(
    shape: str, sizes: Sizes, secant: Array | float, poisson: float, held: float
) -> Directions:
    """Return shear and angular stiffness of pads that shrink in volume, of modulus `secant` [Pa].

    `held` is Poisson's ratio at the faces: 0 where they slip.
    """
    shear = plain_pads.shear_stiffness(shape, *sizes, secant_modulus=secant, poisson=poisson)
    tilt = plain_pads.tilt_stiffness(shape, *sizes, modulus=secant, poisson=held)
    twist = plain_pads.twist_stiffness(shape, *sizes, secant_modulus=secant, poisson=poisson)
    return shear, (*tilt, twist)


def _printed_modulus(material: Material, shape: str, a: Array, b: Array) -> Array:
    """Return the mean modulus [Pa] of printed pads: infill with solid walls beside it."""
    solid, infill = material.solid_modulus, material.infill
    factor, power = material.infill_factor, material.infill_power
    if solid is None or infill is None or factor is None or power is None:
        raise ValueError(
            f"{material.id}: a printed card needs solid_modulus, infill, infill_factor "
            "and infill_power"
        )
    part = section(shape, a, b)
    core = printed.infill_modulus(solid.value, infill, factor.value, power.value)
    wall_area = np.minimum((material.wall or 0.0) * part.perimeter, part.area)
    return printed.walled_modulus(core, solid.value, part.area, wall_area)
