"""Hardness to modulus: published relations that differ, and the natural-rubber table."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


class NaturalRubber(NamedTuple):
    """Figures of natural rubber at one hardness; arrays of one shape.

    `youngs_modulus` E0, `shear_modulus` G, `bulk_modulus` [Pa]; `hardness_factor` k [-].
    """

    youngs_modulus: Array
    shear_modulus: Array
    hardness_factor: Array
    bulk_modulus: Array


TABLE = np.array(
    [
        # IRHD, E0 [MPa], G [MPa], k, bulk modulus [MPa]
        [30, 0.92, 0.30, 0.93, 1000],
        [35, 1.18, 0.37, 0.89, 1000],
        [40, 1.50, 0.45, 0.85, 1000],
        [45, 1.80, 0.54, 0.80, 1000],
        [50, 2.20, 0.64, 0.73, 1030],
        [55, 3.25, 0.81, 0.64, 1090],
        [60, 4.45, 1.06, 0.57, 1150],
        [65, 5.85, 1.37, 0.54, 1210],
        [70, 7.35, 1.73, 0.53, 1270],
        [75, 9.40, 2.22, 0.52, 1330],
    ]
)
"""Natural rubber, black-filled above 48 IRHD: P. B. Lindley, Engineering Design with Natural
Rubber, NR Technical Bulletin, 4th ed. 1978."""


def gent_modulus(shore_a: ArrayLike) -> Array:
    """Return Young's modulus [Pa] from Shore A hardness after Gent (1958).

    `shore_a` [points] below 100, where the relation has a pole; sensible from 20 to 90. Measured
    moduli scatter ±30 % about it. Source: A. N. Gent, Rubber Chem. Technol. 31 (1958) 896;
    the constant 7.62336 is also quoted as 7.66 (+0.4 %). Raises ValueError at 100 and above.

    >>> round(float(gent_modulus(50.0)) / 1e6, 4)
    2.4558
    """
    s = _below_100(shore_a, "Shore A", "Gent's relation has a pole at 100")
    return np.asarray(0.0981e6 * (56.0 + 7.62336 * s) / (0.137505 * (254.0 - 2.54 * s)))


def gent_hardness(youngs_modulus: ArrayLike) -> Array:
    """Return Shore A hardness [points] from Young's modulus [Pa]: `gent_modulus` solved for it.

    >>> round(float(gent_hardness(2.4558e6)), 2)
    50.0
    """
    e = np.asarray(youngs_modulus, dtype=float) * 0.137505 / 0.0981e6
    return np.asarray((254.0 * e - 56.0) / (7.62336 + 2.54 * e))


def log_modulus(shore_a: ArrayLike) -> Array:
    """Return Young's modulus [Pa] from Shore A: log10 E[MPa] = 0.0235·S − 0.6403.

    `shore_a` [points], quoted for 30 to 60. The logarithm is to base 10; copies with the natural
    one are wrong by a large factor. Source: Ruess's relation as quoted by H. J. Qi, K. Joyce,
    M. C. Boyce, Rubber Chem. Technol. 76 (2003) 419. Raises ValueError at 100 and above.

    >>> round(float(log_modulus(50.0)) / 1e6, 4)
    3.4253
    """
    s = _below_100(shore_a, "Shore A", "the scale ends at 100")
    return np.asarray(1e6 * 10.0 ** (0.0235 * s - 0.6403))


def log_hardness(youngs_modulus: ArrayLike) -> Array:
    """Return Shore A hardness [points] from Young's modulus [Pa]: `log_modulus` solved for it.

    >>> round(float(log_hardness(3.4253e6)), 2)
    50.0
    """
    return np.asarray((np.log10(np.asarray(youngs_modulus, dtype=float) / 1e6) + 0.6403) / 0.0235)


def irhd_modulus(irhd: ArrayLike) -> Array:
    """Return Young's modulus [Pa] from IRHD = 100·erf(3.186e-4·√E).

    `irhd` [degrees] from 0 to below 100. Source: form attributed to the curve of ISO 48 and
    ASTM D1415, from memory. Raises ValueError at 100 and above.

    >>> round(float(irhd_modulus(50.0)) / 1e6, 4)
    2.2409
    """
    from scipy.special import erfinv

    h = _below_100(irhd, "IRHD", "100 stands for a modulus without bound")
    return np.asarray((erfinv(h / 100.0) / 3.186e-4) ** 2)


def irhd_hardness(youngs_modulus: ArrayLike) -> Array:
    """Return IRHD from Young's modulus [Pa]: `irhd_modulus` solved for it.

    >>> round(float(irhd_hardness(2.2409e6)), 2)
    50.0
    """
    from scipy.special import erf

    return np.asarray(100.0 * erf(3.186e-4 * np.sqrt(np.asarray(youngs_modulus, dtype=float))))


def shore_d_modulus(shore_d: ArrayLike) -> Array:
    """Return Young's modulus [Pa] from Shore D hardness.

    `shore_d` [points] below 100; E[MPa] = (781.88 − 156.376u)/u² with u = (100 − S_D)/20.
    Source: H. J. Qi, K. Joyce, M. C. Boyce, Rubber Chem. Technol. 76 (2003) 419.
    Raises ValueError at 100 and above.

    >>> round(float(shore_d_modulus(46.0)) / 1e6, 3)
    49.337
    """
    u = (100.0 - _below_100(shore_d, "Shore D", "the relation has a pole at 100")) / 20.0
    return np.asarray(1e6 * (781.88 - 156.376 * u) / u**2)


def shore_d_hardness(youngs_modulus: ArrayLike) -> Array:
    """Return Shore D hardness [points] from Young's modulus [Pa].

    100 − 20(−78.188 + √(6113.36 + 781.88E))/E with E in MPa; source as `shore_d_modulus`.

    >>> round(float(shore_d_hardness(50e6)), 3)
    46.227
    """
    e = np.asarray(youngs_modulus, dtype=float) / 1e6
    return np.asarray(100.0 - 20.0 * (-78.188 + np.sqrt(6113.36 + 781.88 * e)) / e)


def natural_rubber(irhd: ArrayLike) -> NaturalRubber:
    """Return the published figures of natural rubber at a hardness, linear between rows.

    `irhd` [degrees] from 30 to 75, the table's own range; Shore A is taken as equal to IRHD
    there (common practice). E0 is a small-strain figure of filled rubber and exceeds 3G from
    40 IRHD up. Source: see `TABLE`. Raises ValueError outside the table.

    >>> round(float(natural_rubber(62.0).shear_modulus) / 1e6, 3)
    1.184
    """
    h = np.asarray(irhd, dtype=float)
    if np.any(~((h >= TABLE[0, 0]) & (h <= TABLE[-1, 0]))):
        raise ValueError(
            f"hardness {_first_outside(h, TABLE[0, 0], TABLE[-1, 0]):g} IRHD is outside the "
            "natural-rubber table; wanted 30 to 75"
        )
    columns = [np.asarray(np.interp(h, TABLE[:, 0], TABLE[:, i])) for i in range(1, 5)]
    return NaturalRubber(1e6 * columns[0], 1e6 * columns[1], columns[2], 1e6 * columns[3])


def _first_outside(values: Array, low: float, high: float) -> float:
    flat = np.atleast_1d(values).ravel()
    return float(flat[~((flat >= low) & (flat <= high))][0])


def _below_100(hardness: ArrayLike, scale: str, reason: str) -> Array:
    h = np.asarray(hardness, dtype=float)
    wrong = ~((h >= 0.0) & (h < 100.0))
    if np.any(wrong):
        found = float(np.atleast_1d(h)[np.atleast_1d(wrong)][0])
        raise ValueError(
            f"hardness {found:g} {scale} has no modulus: {reason}; wanted 0 to below 100"
        )
    return h
