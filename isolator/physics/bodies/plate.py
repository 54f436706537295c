"""Receptance of a table top under its feet: modes as far as they stand out, endless above.

Coordinates of each contact (w, θx, θy), θx = ∂w/∂y and θy = −∂w/∂x; forces (Fz, Mx, My); z up.
Time factor e^{+jωt}. Thin plate of one thickness, the same in all directions. In its own plane it
is rigid. How a contact feels the plate: `footprint`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Complex
from isolator.physics.bodies import endless_plate, plate_modes

RESOLVED = 0.6
"""Modes on legs are right to some percent up to this share of the finest wave that the polynomials
resolve."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """A table top; the origin of places lies in its middle."""

    bending: float  # B [N·m]
    mass_per_area: float  # [kg/m²]
    poisson: float
    loss: float  # loss factor
    size: tuple[float, float] | None = None  # along x and y [m]; None: endless
    legs: tuple[tuple[float, float], ...] | None = None  # from its middle [m]; None: on its edges


def receptance(
    plate: Plate, contacts: ArrayLike, width: ArrayLike, frequency: ArrayLike
) -> Complex:
    """Return the receptance (f, 3s, 3s) [m/N, 1/N, 1/(N·m)] of s contacts.

    `contacts` (s, 2) [m] from the plate's middle, `width` (s,) [m], `frequency` (f,) [Hz], above 0.
    From `fades_from` the modes fade over to the endless plate, over an octave.
    """
    at, wide = np.asarray(contacts, dtype=float), np.asarray(width, dtype=float)
    hertz = np.asarray(frequency, dtype=float)
    start = fades_from(plate)
    found = np.zeros((len(hertz), 3 * len(at), 3 * len(at)), dtype=complex)
    share = np.clip(np.log2(hertz / start), 0.0, 1.0) if start > 0.0 else np.ones_like(hertz)
    share = share**2 * (3.0 - 2.0 * share)
    modal, endless = share < 1.0, share > 0.0
    if plate.size is not None and modal.any():
        shapes = plate_modes.shapes_at(_rectangle(plate, plate.size), at, wide)
        found[modal] = plate_modes.receptance(shapes, plate.loss, hertz[modal])
        found *= (1.0 - share)[:, None, None]
    if endless.any():
        lossy = plate.bending * (1.0 + 1j * plate.loss)
        far = endless_plate.receptance(lossy, plate.mass_per_area, at, wide, hertz[endless])
        found[endless] += share[endless, None, None] * far
    return found


def fades_from(plate: Plate) -> float:
    """Return the frequency [Hz] from which modes overlap or are not resolved; 0 without a size.

    Modes overlap where their number in a band as wide as a resonance, n·f·η, is 1, with the
    density n = A/2·√(m″/B) of any thin plate (Cremer, Heckl & Petersson, ch. 5).
    """
    if plate.size is None:
        return 0.0
    speed = math.sqrt(plate.bending / plate.mass_per_area)
    density = 0.5 * math.prod(plate.size) / speed
    overlapping = 1.0 / (density * plate.loss) if plate.loss > 0.0 else math.inf
    if plate.legs is None:
        return overlapping
    wave = RESOLVED * 2.0 * plate_modes.DEGREES / max(plate.size)
    # half of it, as the modes still count an octave further up
    return min(overlapping, 0.5 * wave**2 * speed / (2.0 * math.pi))


def _rectangle(plate: Plate, size: tuple[float, float]) -> plate_modes.Rectangle:
    return plate_modes.Rectangle(
        width=size[0],
        depth=size[1],
        bending=plate.bending,
        mass_per_area=plate.mass_per_area,
        poisson=plate.poisson,
        legs=plate.legs,
    )
