"""Screws and prints as handbooks and papers have them."""

from __future__ import annotations

import pytest

from isolator.design.filaments import FILAMENTS
from isolator.design.screws import SCREWS
from isolator.feet.strengths import YIELD
from isolator.physics.joints.holding import prying, stress_area

STRESS_AREAS = {3: 5.03, 4: 8.78, 5: 14.2, 6: 20.1, 8: 36.6, 10: 58.0}
"""Coarse threads, ISO 898-1 [mm²] (from memory)."""
PROOF_LOADS = {3: 1130, 4: 1980, 5: 3200, 6: 4520, 8: 8240, 10: 13000}
"""Class 4.6, ISO 898-1 [N] (from memory): at a proof stress of 225 MPa."""
ACROSS_PLA = 22.8
"""Tensile strength of printed polylactide across its layers [MPa], mean: 3D Printing and Additive
Manufacturing, doi 10.1089/3dp.2020.0109 (abstract)."""


@pytest.mark.parametrize("size", STRESS_AREAS)
def test_stress_area_of_a_thread(size: int) -> None:
    area = stress_area(size * 1e-3, SCREWS[size].pitch)
    # half a unit of the table's last digit
    assert area * 1e6 == pytest.approx(STRESS_AREAS[size], abs=0.05 if size > 4 else 0.005)


@pytest.mark.parametrize("size", PROOF_LOADS)
def test_proof_load_of_a_thread(size: int) -> None:
    """The yield strength allowed for is the standard's: 240 of it, 225 MPa at proof."""
    by_area = stress_area(size * 1e-3, SCREWS[size].pitch) * YIELD * 225.0 / 240.0
    assert by_area == pytest.approx(PROOF_LOADS[size], rel=0.005)  # the table's three digits


def test_prints_are_no_stronger_across_layers_than_measured() -> None:
    assert FILAMENTS["pla"].strength.across <= ACROSS_PLA * 1e6
    for family, each in FILAMENTS.items():
        assert each.strength.across < each.strength.within, family


def test_prying_of_a_thin_flange() -> None:
    """T-stub with hinges at web and bolts, EN 1993-1-8, table 6.2, mode 1 (from memory).

    F = 4·M/m with two bolts; prying Q = M/n at each end, so that a bolt feels F/2 + M/n.
    """
    hinge, m, n = 0.137, 0.0061, 0.0068
    whole = 4.0 * hinge / m
    bolt = whole / 2.0 + hinge / n
    assert prying(m, n) == pytest.approx(bolt / (whole / 2.0))
