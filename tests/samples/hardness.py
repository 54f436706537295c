"""Published relations from hardness to modulus, which differ, and the natural-rubber table."""

from typing import NamedTuple

from scipy.special import erfinv


class NaturalRubber(NamedTuple):
    """Figures of natural rubber at one hardness: E0, G [Pa], k [-], bulk modulus [Pa]."""

    youngs_modulus: float
    shear_modulus: float
    hardness_factor: float
    bulk_modulus: float


TABLE = {
    # IRHD: E0 [MPa], G [MPa], k, bulk modulus [MPa]
    30: (0.92, 0.30, 0.93, 1000),
    35: (1.18, 0.37, 0.89, 1000),
    40: (1.50, 0.45, 0.85, 1000),
    45: (1.80, 0.54, 0.80, 1000),
    50: (2.20, 0.64, 0.73, 1030),
    55: (3.25, 0.81, 0.64, 1090),
    60: (4.45, 1.06, 0.57, 1150),
    65: (5.85, 1.37, 0.54, 1210),
    70: (7.35, 1.73, 0.53, 1270),
    75: (9.40, 2.22, 0.52, 1330),
}
"""Natural rubber, black-filled above 48 IRHD: P. B. Lindley, Engineering Design with Natural
Rubber, NR Technical Bulletin, 4th ed. 1978 (part of the table seen, the rest from memory)."""


def natural_rubber(irhd: int) -> NaturalRubber:
    """Return the table's row at a hardness.

    E0 is a small-strain figure of filled rubber and exceeds 3G from 40 IRHD up.
    """
    youngs, shear, factor, bulk = TABLE[irhd]
    return NaturalRubber(1e6 * youngs, 1e6 * shear, factor, 1e6 * bulk)


def gent_modulus(shore_a: float) -> float:
    """Return Young's modulus [Pa] from Shore A hardness after Gent (1958).

    Sensible from 20 to 90; measured moduli scatter ±30 % about it. Source: A. N. Gent, Rubber
    Chem. Technol. 31 (1958) 896; the constant 7.62336 is also quoted as 7.66 (+0.4 %).
    """
    return 0.0981e6 * (56.0 + 7.62336 * shore_a) / (0.137505 * (254.0 - 2.54 * shore_a))


def log_modulus(shore_a: float) -> float:
    """Return Young's modulus [Pa] from Shore A: log10 E[MPa] = 0.0235·S − 0.6403, 30 to 60.

    The logarithm is to base 10; copies with the natural one are wrong by a large factor. Source:
    Ruess's relation as quoted by H. J. Qi, K. Joyce, M. C. Boyce, Rubber Chem. Technol. 76 (2003)
    419.
    """
    return float(1e6 * 10.0 ** (0.0235 * shore_a - 0.6403))


def irhd_modulus(irhd: float) -> float:
    """Return Young's modulus [Pa] from IRHD = 100·erf(3.186e-4·√E).

    Source: form attributed to the curve of ISO 48 and ASTM D1415, from memory.
    """
    return float((erfinv(irhd / 100.0) / 3.186e-4) ** 2)


RELATIONS = {"gent": gent_modulus, "log": log_modulus, "irhd": irhd_modulus}
