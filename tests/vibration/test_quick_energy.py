"""What candidates pass on in single precision, against the double precision of what is told."""

from __future__ import annotations

import numpy as np
import pytest
from briefs import ROOM

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.feet.candidates import candidates
from isolator.feet.screen import feet_at, pads_of
from isolator.feet.task import build_feet_task
from isolator.vibration.installation import build_installation
from isolator.vibration.isolation import floor_energy
from isolator.vibration.quick_energy import CHUNK, quick_floor_energy
from isolator.vibration.source import motor_source
from isolator.vibration.system import build, exact_modes


@pytest.mark.parametrize("end", ["soft", "stiff"])
def test_candidates_are_heard_as_what_is_told(end: str) -> None:
    brief, cards = read_brief_text(ROOM, "brief.toml"), load_cards()
    task, installation = build_feet_task(brief), build_installation(brief, cards)
    case, room = installation.printer.nominal, installation.surroundings.room
    # as little damped as any card: pivots come nearest to zero at the modes themselves
    batch = min(candidates(task, cards), key=lambda each: each.material.loss_factor.value)
    batch = batch.take(np.linspace(0, len(batch) - 1, CHUNK + 3).astype(np.intp))
    system = build(feet_at(task, room, pads_of(batch), batch.positions, case, end), case)
    modes = exact_modes(system).frequency[[0, 40, 70]].ravel()
    source = motor_source(installation.excitation, case, np.append(modes, [4.0, 300.0]))
    quick, exact = quick_floor_energy(system, source), floor_energy(system, source)
    assert np.abs(10.0 * np.log10(quick / exact)).max() < 0.01
