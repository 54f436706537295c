"""Hardness to modulus: published relations, the natural-rubber table, and how far they differ.

A. N. Gent, Rubber Chem. Technol. 31 (1958) 896; H. J. Qi, K. Joyce, M. C. Boyce, Rubber Chem.
Technol. 76 (2003) 419 (Shore D, and the logarithmic relation); the error-function form of ISO 48,
from memory; P. B. Lindley, Engineering Design with Natural Rubber, 4th ed. 1978 (table).
"""

import numpy as np
import pytest

from isolator.physics.rubber import hardness
from isolator.physics.rubber.hardness import natural_rubber

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
    *(("shore_d", s, e) for s, e in ((40, 34.750), (46, 49.337), (50, 62.550), (60, 117.282))),
]


@pytest.mark.parametrize(("relation", "value", "modulus"), ROWS)
def test_published_rows_both_ways(relation: str, value: float, modulus: float) -> None:
    to_modulus = getattr(hardness, f"{relation}_modulus")
    to_hardness = getattr(hardness, f"{relation}_hardness")
    assert to_modulus(value) == pytest.approx(modulus * 1e6, rel=PRINTED)
    assert to_hardness(to_modulus(value)) == pytest.approx(
        value, rel=1e-6
    )  # constants printed to 7 digits


def test_shore_d_of_a_modulus() -> None:
    assert hardness.shore_d_hardness(np.array([50e6, 100e6])) == pytest.approx(
        [46.227, 57.568], rel=PRINTED
    )


def test_one_point_of_shore_a_at_50_is_4_per_cent() -> None:
    ratio = hardness.gent_modulus(50.5) / hardness.gent_modulus(49.5)
    assert ratio - 1 == pytest.approx(0.0382, abs=2e-4)  # the source gives three digits


@pytest.mark.parametrize(
    ("relation", "scale", "reason"),
    [
        ("gent", "Shore A", "Gent's relation has a pole at 100"),
        ("log", "Shore A", "the scale ends at 100"),
        ("irhd", "IRHD", "100 stands for a modulus without bound"),
        ("shore_d", "Shore D", "the relation has a pole at 100"),
    ],
)
def test_hardness_of_100_is_refused(relation: str, scale: str, reason: str) -> None:
    with pytest.raises(ValueError, match="hardness") as refused:
        getattr(hardness, f"{relation}_modulus")(np.array([47.0, 100.0]))
    assert str(refused.value) == (
        f"hardness 100 {scale} has no modulus: {reason}; wanted 0 to below 100"
    )
    with pytest.raises(ValueError, match="hardness nan"):
        getattr(hardness, f"{relation}_modulus")(float("nan"))


# IRHD, E0, G [MPa], k, bulk modulus [MPa], as printed
TABLE = [
    (30, 0.92, 0.30, 0.93, 1000),
    (35, 1.18, 0.37, 0.89, 1000),
    (40, 1.50, 0.45, 0.85, 1000),
    (45, 1.80, 0.54, 0.80, 1000),
    (50, 2.20, 0.64, 0.73, 1030),
    (55, 3.25, 0.81, 0.64, 1090),
    (60, 4.45, 1.06, 0.57, 1150),
    (65, 5.85, 1.37, 0.54, 1210),
    (70, 7.35, 1.73, 0.53, 1270),
    (75, 9.40, 2.22, 0.52, 1330),
]


@pytest.mark.parametrize("row", TABLE)
def test_natural_rubber_table(row: tuple[float, ...]) -> None:
    found = natural_rubber(row[0])
    assert found.youngs_modulus == pytest.approx(row[1] * 1e6, rel=1e-12)  # a row, not a fit
    assert found.shear_modulus == pytest.approx(row[2] * 1e6, rel=1e-12)
    assert found.hardness_factor == pytest.approx(row[3], rel=1e-12)
    assert found.bulk_modulus == pytest.approx(row[4] * 1e6, rel=1e-12)


def test_between_rows_and_outside() -> None:
    between = natural_rubber(np.array([52.0, 71.5]))
    assert between.youngs_modulus == pytest.approx([2.62e6, 7.965e6])
    with pytest.raises(ValueError, match="outside") as refused:
        natural_rubber(np.array([40.0, 76.0]))
    assert str(refused.value) == (
        "hardness 76 IRHD is outside the natural-rubber table; wanted 30 to 75"
    )


def test_filled_rubber_is_stiffer_in_compression_than_three_shear_moduli() -> None:
    # E0 is a small-strain figure of filled rubber: E0/G 3.07 at 30, 3.33 at 40, to 4.27
    ratio = natural_rubber(np.array([30, 40, 60, 65, 70, 75]))
    quotient = ratio.youngs_modulus / ratio.shear_modulus
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
        hardness.gent_modulus(value),
        hardness.irhd_modulus(value),
        natural_rubber(value).youngs_modulus,
        hardness.log_modulus(value),
    ]
    assert np.array(found) / 1e6 == pytest.approx(moduli, rel=1e-3)  # printed to three digits
    assert max(found) / min(found) > 1.3


def test_the_other_gent_constant_and_the_other_logarithm() -> None:
    # 7.66 in place of 7.62336 is in circulation too, and a natural logarithm in place of base 10
    other = 0.0981e6 * (56 + 7.66 * 47) / (0.137505 * (254 - 2.54 * 47))
    assert other / hardness.gent_modulus(47.0) - 1 == pytest.approx(0.0042, abs=2e-4)
    wrong = 1e6 * np.exp(0.0235 * 47 - 0.6403)
    assert hardness.log_modulus(47.0) / wrong > 1.7
