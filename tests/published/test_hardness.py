"""Hardness to modulus: published relations, the natural-rubber table, and how far they differ.

A. N. Gent, Rubber Chem. Technol. 31 (1958) 896; H. J. Qi, K. Joyce, M. C. Boyce, Rubber Chem.
Technol. 76 (2003) 419 (the logarithmic relation); the error-function form of ISO 48,
from memory; P. B. Lindley, Engineering Design with Natural Rubber, 4th ed. 1978 (table).
"""

import numpy as np
import pytest
from hardness import RELATIONS, gent_modulus, irhd_modulus, log_modulus, natural_rubber

PRINTED = 1e-4  # the rows carry four to five digits
# scale relation, hardness, modulus [MPa]
ROWS = [
    *(
        ("gent", s, e)
        for s, e in (
            (20, 0.7319),
            (30, 1.1424),
            (40, 1.6896),
            (45, 2.0379),
            (50, 2.4558),
            (55, 2.9666),
            (60, 3.6051),
            (65, 4.4260),
            (70, 5.5205),
            (75, 7.0529),
            (80, 9.3514),
            (85, 13.1822),
            (90, 20.8440),
            (95, 43.8292),
        )
    ),
    *(
        ("log", s, e)
        for s, e in (
            (30, 1.1606),
            (40, 1.9939),
            (50, 3.4253),
            (60, 5.8844),
            (70, 10.1088),
        )
    ),
    *(
        ("irhd", s, e)
        for s, e in (
            (30, 0.7313),
            (40, 1.3546),
            (50, 2.2409),
            (60, 3.4891),
            (70, 5.2913),
            (80, 8.0900),
            (90, 13.3270),
        )
    ),
]


@pytest.mark.parametrize(("relation", "value", "modulus"), ROWS)
def test_published_rows(relation: str, value: float, modulus: float) -> None:
    assert RELATIONS[relation](value) == pytest.approx(modulus * 1e6, rel=PRINTED)


def test_one_point_of_shore_a_at_50_is_4_per_cent() -> None:
    ratio = gent_modulus(50.5) / gent_modulus(49.5)
    assert ratio - 1 == pytest.approx(0.0382, abs=2e-4)  # the source gives three digits


def test_filled_rubber_is_stiffer_in_compression_than_three_shear_moduli() -> None:
    # E0 is a small-strain figure of filled rubber: E0/G 3.07 at 30, 3.33 at 40, to 4.27
    rows = [natural_rubber(irhd) for irhd in (30, 40, 60, 65, 70, 75)]
    quotient = np.array([row.youngs_modulus / row.shear_modulus for row in rows])
    assert quotient[:2] == pytest.approx([3.07, 3.33], abs=0.005)  # printed to two decimals
    assert np.all((quotient[2:] > 4.1) & (quotient[2:] < 4.28))


# Where the sources disagree: Gent, error function, table's E0, logarithm [MPa]
SPREAD = {
    30: (1.142, 0.731, 0.92, 1.161),
    40: (1.690, 1.355, 1.50, 1.994),
    60: (3.605, 3.489, 4.45, 5.884),
    75: (7.05, 6.52, 9.40, 13.25),
}


@pytest.mark.parametrize(("value", "moduli"), SPREAD.items())
def test_sources_disagree_by_more_than_30_per_cent(value: int, moduli: tuple[float, ...]) -> None:
    found = [
        gent_modulus(value),
        irhd_modulus(value),
        natural_rubber(value).youngs_modulus,
        log_modulus(value),
    ]
    assert np.array(found) / 1e6 == pytest.approx(moduli, rel=1e-3)  # printed to three digits
    assert max(found) / min(found) > 1.3


def test_the_other_gent_constant_and_the_other_logarithm() -> None:
    # 7.66 in place of 7.62336 is in circulation too, and a natural logarithm in place of base 10
    other = 0.0981e6 * (56 + 7.66 * 47) / (0.137505 * (254 - 2.54 * 47))
    assert other / gent_modulus(47.0) - 1 == pytest.approx(0.0042, abs=2e-4)
    wrong = 1e6 * np.exp(0.0235 * 47 - 0.6403)
    assert log_modulus(47.0) / wrong > 1.7
