"""Foam laws: worked values of Gibson and Ashby, of the air layer, and of bounce on foam.

L. J. Gibson, M. F. Ashby, Cellular Solids, 2nd ed. 1997, ch. 5 (closed-cell forms from memory);
ISO 9052-1:1989 (dynamic stiffness of an air layer and of a loaded specimen); ASTM D1056 (grade 2
is 5 to 9 psi, 34 to 62 kPa, at 25 per cent deflection).
"""

import foam_laws
import numpy as np
import pytest
from one_body import natural_frequency

from isolator.physics.bodies.statics import G
from isolator.physics.rubber import foam, plain_pads


def bounce(modulus: float, stress: float, thickness: float) -> float:
    """Bounce [Hz] of a body on discs of foam that it presses with `stress` [Pa]."""
    area, across = 1e-3, np.sqrt(4e-3 / np.pi)
    stiffness = plain_pads.compression_stiffness("disc", across, 0.0, thickness, modulus=modulus)
    return natural_frequency(float(stiffness), stress * area / G)


def test_open_cell() -> None:
    assert foam_laws.open_cell_modulus(45e6, 0.03) == pytest.approx(40.5e3, rel=1e-12)
    assert foam_laws.collapse_stress(45e6, 0.03) == pytest.approx(2.025e3, rel=1e-12)
    assert foam_laws.densification_strain(0.03) == pytest.approx(0.958, rel=1e-12)


def test_closed_cell() -> None:
    # the terms: edges 0.072, faces 0.800, gas 0.037528 MPa
    assert foam_laws.closed_cell_modulus(20e6, 0.1, 0.6) == pytest.approx(0.909528e6, rel=1e-6)
    assert foam_laws.closed_cell_modulus(20e6, 0.1, 0.6, pressure=0.0) == pytest.approx(0.872e6)


@pytest.mark.parametrize(
    ("strain", "kilopascals"),
    [
        (0.25, (36.188, 38.971, 46.057)),
        (0.5, (112.583, 126.656, 168.875)),
        (0.1, (11.921, 12.666, 14.475)),
    ],
)
def test_gas_in_the_cells(strain: float, kilopascals: tuple[float, ...]) -> None:
    found = foam_laws.gas_stress(strain, np.array([0.05, 0.1, 0.2]))
    assert found / 1e3 == pytest.approx(kilopascals, abs=6e-4)  # three decimals


def test_gas_slope_is_the_modulus_of_an_air_layer() -> None:
    # ISO 9052-1: s' = p0/(d·porosity) = 111/d MN/m³, d in mm, porosity 0.9, p0 rounded to 0.1 MPa
    slope = foam_laws.gas_stress(1e-7, 0.1, pressure=0.1e6) / 1e-7
    assert slope / 0.010 == pytest.approx(11.111e6, rel=1e-4)


def test_loaded_specimen() -> None:
    # ISO 9052-1: f 30 Hz under 200 kg/m² is 7.10612 MN/m³; 10 mm thick 71.061 kPa
    frequency = bounce(71.0612e3, 200 * 9.80665, 0.010)
    assert frequency == pytest.approx(30.0, rel=1e-5)


def test_bounce_depends_on_modulus_stress_and_thickness_alone() -> None:
    assert bounce(200e3, 20e3, 0.010) == pytest.approx(15.7609, abs=5e-5)
    assert bounce(100e3, 10e3, 0.020) == pytest.approx(11.1446, abs=5e-5)
    # half the area at the same load: √2 lower, where the curve is straight
    straight = [bounce(200e3, stress, 0.010) for stress in (20e3, 40e3)]
    assert straight[0] / straight[1] == pytest.approx(np.sqrt(2))


def test_half_the_area_gains_less_where_the_curve_bends_up() -> None:
    strain = np.linspace(0, 0.7, 60)
    stress = foam_laws.smooth_law(strain, modulus=400e3, plateau=30e3, densification=0.85)
    pressed = foam.strain_under(np.array([25e3, 50e3]), strain, stress)
    tangent = foam.curve_slope(pressed, strain, stress)
    bent = [bounce(slope, on, 0.010) for slope, on in zip(tangent, (25e3, 50e3), strict=True)]
    assert bent[0] / bent[1] < np.sqrt(2)


def test_sponge_law_of_grade_two_stays_inside_its_limits() -> None:
    # a smooth law through the middle of the grade: at that stress it is at a quarter of its
    # height, below it flatter than that, and never at its densification strain
    relative = 0.12
    end = float(foam_laws.densification_strain(relative))
    strain = np.linspace(0, end - 0.05, 80)
    stress = foam_laws.smooth_law(strain, modulus=900e3, plateau=43e3, densification=end)
    loads = np.geomspace(1e3, 0.9 * stress[-1], 30)
    found = foam.strain_under(loads, strain, stress)
    assert np.all(np.diff(found) > 0)
    assert np.all(found < end)
    assert np.all(found[loads < 40e3] < 0.25)
