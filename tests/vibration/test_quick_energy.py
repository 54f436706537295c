"""What candidates pass on in single precision, against the double precision of what is told."""

from __future__ import annotations

from dataclasses import replace

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
from isolator.vibration.source import Source, motor_source
from isolator.vibration.system import System, build, exact_modes


def heard(end: str) -> tuple[System, Source]:
    """Return more candidates than are taken at a time, and motors at some frequencies."""
    brief, cards = read_brief_text(ROOM, "brief.toml"), load_cards()
    task, installation = build_feet_task(brief), build_installation(brief, cards)
    case, room = installation.printer.nominal, installation.surroundings.room
    # as little damped as any card: pivots come nearest to zero at the modes themselves
    batch = min(candidates(task, cards), key=lambda each: each.material.loss_factor.value)
    batch = batch.take(np.linspace(0, len(batch) - 1, CHUNK + 3).astype(np.intp))
    system = build(feet_at(task, room, pads_of(batch), batch.positions, case, end), case)
    modes = exact_modes(system).frequency[[0, 40, 70]].ravel()
    return system, motor_source(installation.excitation, case, np.append(modes, [4.0, 300.0]))


def apart(system: System, source: Source) -> float:
    """Return by how many dB the two differ at most."""
    quick, exact = quick_floor_energy(system, source), floor_energy(system, source)
    return float(np.abs(10.0 * np.log10(quick / exact)).max())


@pytest.mark.parametrize("end", ["soft", "stiff"])
def test_candidates_are_heard_as_what_is_told(end: str) -> None:
    assert apart(*heard(end)) < 0.01


@pytest.mark.parametrize(
    ("touches", "apart_from"),
    [
        ([], []),
        ([(0, 2)], []),
        ([(1, 2), (0, 1)], []),
        ([(2, 5)], [(3, 5), (4, 5)]),  # twist comes to rocking by what moves upright alone
    ],
)
def test_what_touches_nothing_else_is_passed_over_and_all_else_is_not(
    touches: list[tuple[int, int]], apart_from: list[tuple[int, int]]
) -> None:
    system, source = heard("soft")
    dynamic, blocked = source.dynamic.copy(), source.blocked.copy()
    lossy, gravity = system.lossy.copy(), system.gravity.copy()
    blocked[..., 2, :] = 3.0 if touches else 0.0
    for i, j in touches:
        dynamic[..., i, j] = dynamic[..., j, i] = 0.2 * np.sqrt(
            np.abs(dynamic[..., i, i] * dynamic[..., j, j])
        )
    for each in (lossy, gravity, dynamic):
        for i, j in apart_from:
            each[..., i, j] = each[..., j, i] = 0.0
    system = replace(system, lossy=lossy, gravity=gravity)
    assert apart(system, replace(source, dynamic=dynamic, blocked=blocked)) < 0.01
