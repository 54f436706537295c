"""Dynamic stiffness, creep and temperature: worked rows.

Creep per decade: P. B. Lindley, Engineering Design with Natural Rubber, 4th ed. 1978, from memory.
The exponent of a constant loss factor: L. Gaul, Mech. Syst. Signal Process. 5 (1991) 81, from
memory; held here against the complex power itself.
"""

import numpy as np
import pytest
from one_body import natural_frequency

from isolator.physics.bodies.statics import G
from isolator.physics.rubber import viscoelastic


def test_frequency_from_sag_rises_with_the_root_of_the_dynamic_ratio() -> None:
    # sag 2.48405 mm is 10.000 Hz; the dynamic ratio lifts it
    factor = viscoelastic.dynamic_factor(10.0, 10.0, np.array([1.2, 1.4, 1.8]), 0.08)
    frequency = [natural_frequency(rise * G / 2.48405e-3, 1.0) for rise in factor]
    assert frequency == pytest.approx([10.954, 11.832, 13.416], abs=6e-4)  # three decimals


def test_creep_over_a_year() -> None:
    year = 365.25 * 86400  # 5.720954 decades of minutes; the row takes 365 days
    rise = viscoelastic.creep_factor(np.array([365 * 86400.0] * 2), np.array([0.05, 0.02])) - 1
    assert rise == pytest.approx([0.28603, 0.11441], abs=1e-5)  # five decimals
    assert viscoelastic.creep_factor(year, 0.05) - 1 == pytest.approx(0.05 * 5.720954, abs=1e-6)
    assert viscoelastic.creep_factor(5.0, 0.05) == 1.0  # before the reference time


@pytest.mark.parametrize("loss", [0.03, 0.2, 0.9])
def test_springpot_has_its_loss_factor_at_every_frequency(loss: float) -> None:
    stiffness = (1j * np.array([0.7, 11.0, 240.0])) ** float(viscoelastic.springpot_exponent(loss))
    assert stiffness.imag / stiffness.real == pytest.approx([loss] * 3, rel=1e-12)  # exact
    rise = viscoelastic.dynamic_factor(240.0, 11.0, 1.3, loss) / 1.3
    assert rise == pytest.approx(stiffness.real[2] / stiffness.real[1], rel=1e-12)


def test_warmth_softens_by_the_slope_and_never_to_nothing() -> None:
    near = viscoelastic.temperature_factor(21.0, -0.004)
    assert near - 1 == pytest.approx(-0.004, rel=3e-3)  # half the square of the slope
    assert viscoelastic.temperature_factor(900.0, -0.02) > 0
