"""Published closed forms of bonded rubber pads, to compare the tool's own with.

They differ among themselves and from finite elements: a disc's form is 13 % soft for a square
pad, a thin ring's is not a disc's. `s` is the shape factor [-], `k` the hardness factor [-].
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ive

Array = NDArray[np.float64]


def disc_modulus(e0: ArrayLike, k: ArrayLike, s: ArrayLike) -> Array:
    """Return E_c [Pa] of a disc or square block: E0(1 + 2kS²).

    `e0` [Pa]. Source: A. N. Gent, P. B. Lindley, Proc. IMechE 173 (1959) 111. For discs within
    3 % of finite elements for S 0.5 to 5, 5 to 6 % soft at 0.25 and below; squares are stiffer.

    >>> round(float(disc_modulus(2.20e6, 0.73, 0.75)))
    4006750
    """
    return np.asarray(np.asarray(e0) * (1.0 + 2.0 * np.asarray(k) * np.asarray(s) ** 2))


def strip_modulus(e0: ArrayLike, k: ArrayLike, s: ArrayLike) -> Array:
    """Return E_c [Pa] of a long strip of width w, S = w/(2t): (4/3)E0(1 + kS²).

    Source as `disc_modulus`; within 7 % of finite elements for S 0.25 to 5.

    >>> round(float(strip_modulus(3.0, 1.0, 2.0)), 6)
    20.0
    """
    return np.asarray(4.0 / 3.0 * np.asarray(e0) * (1.0 + np.asarray(k) * np.asarray(s) ** 2))


def ring_function(ratio: ArrayLike) -> Array:
    """Return the hole function F [-] of a thin bonded ring, r = outer/inner diameter above 1.

    (r² + 1)/(r − 1)² + (1 + r)/((1 − r)·ln r); 2/3 for a thin ring, 1 without hole, slowly.
    Source: M. C. Constantinou, A. Kartoum, J. M. Kelly, Eng. Struct. 14 (1992).

    >>> round(float(ring_function(1.75)), 5)
    0.67011
    """
    r = np.asarray(ratio, dtype=float)
    return np.asarray((r**2 + 1.0) / (r - 1.0) ** 2 + (1.0 + r) / ((1.0 - r) * np.log(r)))


def thin_ring_modulus(
    shear_modulus: ArrayLike, s: ArrayLike, ratio: ArrayLike, bulk_modulus: ArrayLike = np.inf
) -> Array:
    """Return E_c [Pa] of a thin bonded ring: 1/(1/(6GS²F) + 4/(3K)).

    Moduli [Pa]; `ratio` outer over inner diameter. S well above 5. Source as `ring_function`.

    >>> round(float(thin_ring_modulus(1e6, 10.0, 1.75)) / 1e6, 3)
    402.065
    """
    stiff = 6.0 * np.asarray(shear_modulus) * np.asarray(s) ** 2 * ring_function(ratio)
    return np.asarray(1.0 / (1.0 / stiff + 4.0 / (3.0 * np.asarray(bulk_modulus))))


def thin_disc_modulus(shear_modulus: ArrayLike, s: ArrayLike, bulk_modulus: ArrayLike) -> Array:
    """Return E_c [Pa] of a thin compressible bonded disc: K(1 − 2I₁(x)/(x·I₀(x))).

    x = a√(12G/(Kt²)) with radius a = 2St; moduli [Pa]. S well above 5. Source: M. S. Chalhoub,
    J. M. Kelly, Int. J. Solids Struct. 26 (1990) 743, from memory.

    >>> round(float(thin_disc_modulus(1.2e6, 10.0, 1150e6)) / 1e6, 2)
    396.46
    """
    bulk = np.asarray(bulk_modulus, dtype=float)
    x = 2.0 * np.asarray(s) * np.sqrt(12.0 * np.asarray(shear_modulus) / bulk)
    return np.asarray(bulk * (1.0 - 2.0 * ive(1, x) / (x * ive(0, x))))


def thin_square_modulus(shear_modulus: ArrayLike, s: ArrayLike) -> Array:
    """Return E_c [Pa] of a thin bonded square, incompressible: 6.73·G·S².

    Source: J. M. Kelly, Earthquake-Resistant Design with Rubber, 2nd ed. 1997, ch. 3, from memory.

    >>> round(float(thin_square_modulus(1e6, 10.0)) / 1e6, 3)
    673.0
    """
    return np.asarray(6.73 * np.asarray(shear_modulus) * np.asarray(s) ** 2)


def bulk_corrected(modulus: ArrayLike, bulk_modulus: ArrayLike) -> Array:
    """Return E_a [Pa] with 1/E_a = 1/E_c + 1/K. Source: Gent and Lindley as in `disc_modulus`.

    A sum of compliances: up to 18 % off the exact layer at S = 30.

    >>> round(float(bulk_corrected(4.00675e6, 1030e6)) / 1e6, 5)
    3.99122
    """
    return np.asarray(1.0 / (1.0 / np.asarray(modulus) + 1.0 / np.asarray(bulk_modulus)))


def guided_shear_ratio(thickness: ArrayLike, gyration_radius: ArrayLike) -> Array:
    """Return shear stiffness over GA/t [-] with bending: 1/(1 + t²/(36κ²)).

    `thickness`, `gyration_radius` κ [m]. Bending without shape factor, no edge loss: 3 % stiff at
    S = 1. Source: P. B. Lindley, Engineering Design with Natural Rubber, 4th ed. 1978, from memory.

    >>> round(float(guided_shear_ratio(0.010, 0.0075)), 6)
    0.952941
    """
    slender = np.asarray(thickness, dtype=float) / np.asarray(gyration_radius)
    return np.asarray(1.0 / (1.0 + slender**2 / 36.0))


def neo_hookean_stress(shear_modulus: ArrayLike, stretch: ArrayLike) -> Array:
    """Return engineering stress [Pa] of ideal rubber in simple tension: G(λ − λ⁻²).

    Compression is λ below 1. Source: L. R. G. Treloar, The Physics of Rubber Elasticity.

    >>> round(float(neo_hookean_stress(0.39, 1.125)), 6)
    0.130602
    """
    length = np.asarray(stretch, dtype=float)
    return np.asarray(np.asarray(shear_modulus) * (length - length**-2))
