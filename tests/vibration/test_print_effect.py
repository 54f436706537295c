"""How much of a frame's sway shows in a print."""

from __future__ import annotations

from importlib import resources

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.vibration.cases import all_cases
from isolator.vibration.evaluation import held
from isolator.vibration.installation import build_installation
from isolator.vibration.print_effect import print_effect


@pytest.mark.parametrize("share", [0.08, 0.2])
def test_a_mass_on_its_belt_follows_a_swaying_frame_but_for_the_square(share: float) -> None:
    own, loss = 2.0 * np.pi * 47.0, 0.03
    omega = share * own

    def rate(time: float, state: np.ndarray) -> list[float]:
        behind, speed = state
        base = -(omega**2) * np.sin(omega * time)
        return [speed, -(own**2) * behind - 2.0 * loss * own * speed - base]

    # of how it starts e^−44 is left after 5 s; then three periods and more
    times = np.linspace(5.0, 6.0, 4000)
    found = solve_ivp(rate, (0.0, times[-1]), [0.0, 0.0], t_eval=times, rtol=1e-7, max_step=2e-3)
    assert np.abs(found.y[0]).max() == pytest.approx(share**2, rel=0.06)


def test_what_lessens_sway() -> None:
    text = (resources.files("isolator.examples") / "story-corner.toml").read_text(encoding="utf-8")
    brief = read_brief_text(text, "story-corner.toml")
    installation = build_installation(brief, load_cards())
    bumpers, speeds = installation.bumpers, brief.motion.speeds
    sway = held(installation, bumpers, speeds).sway
    cases = all_cases(bumpers, installation.printer)
    found = print_effect(installation.excitation, cases, sway, speeds)
    assert found is not None
    assert found.less_acceleration < 0.9 * sway.worst
    assert found.stiffer < sway.worst
    assert 0.0 < found.shows < sway.worst
    assert found.frequency < found.belts
