"""A damper that the search took is held over all samples, all dampers in, before it is drawn."""

from __future__ import annotations

from dataclasses import replace
from importlib import resources

import numpy as np

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.motors.belt_load import loaded
from isolator.motors.candidates import damper_batches
from isolator.motors.choose import DamperChoice
from isolator.motors.confirm import Equal, after_hearing
from isolator.motors.mount import Damper
from isolator.motors.plates import plates_of
from isolator.motors.results import NoDamper
from isolator.motors.task import build_motor_task
from isolator.vibration.band import Band
from isolator.vibration.heard import UNCHANGED
from isolator.vibration.results import Heard
from isolator.vibration.spreads import PadFactors


def test_a_damper_that_misses_its_check_over_all_samples_gives_way_to_the_next() -> None:
    quiet, loud, called = (
        (Heard(desk=Band(low=-1.0, nominal=0.2, high=high), frame=UNCHANGED),)
        for high in (0.9, 2.0, 3.2)
    )
    text = (resources.files("isolator.examples") / "reading-room.toml").read_text(encoding="utf-8")
    brief = read_brief_text(text, "reading-room.toml")
    task, motor = build_motor_task(brief), brief.motors[0]
    row = damper_batches(replace(brief.damper, materials=("nr-50",)), 17, 2e-4, load_cards())[0]
    some, plates = row.take(np.array([3])), plates_of(brief.damper, 17, 2e-4)
    damper = Damper(
        offered=some,
        loaded=loaded(task, motor, some, plates, (0.8, 1.2)),
        plates=plates,
        rubber=PadFactors(np.ones(1), np.ones(1), np.ones(1)),
        ring_left=0.8,
    )
    one, two, three = (
        {0: replace(damper, feet=(Band(low=-1.0, nominal=0.0, high=few),))}
        for few in (0.5, 0.8, 1.4)
    )
    choice = DamperChoice(ranked=(), keenest=None, tried=3, stopped={})
    equal = Equal(indices=(0,), choice=choice, always=False, offer=one, next=(two, three))
    assert after_hearing(task, equal, {0: quiet}) is equal
    # one that holds is looked for once; then the first that nobody calls louder is good enough
    second = after_hearing(task, equal, {0: loud})
    assert second.offer is two
    assert after_hearing(task, second, {0: quiet}) is second
    back = after_hearing(task, second, {0: loud})
    assert back.offer is one
    assert after_hearing(task, back, {0: loud}) is back
    assert after_hearing(task, back, {0: called}).why == NoDamper(cause="floor")
    # one that is called louder is never taken
    third = after_hearing(task, replace(equal, offer=two, next=(three,)), {0: called})
    assert third.offer is three
    assert after_hearing(task, third, {0: called}).why == NoDamper(cause="floor")
    assert after_hearing(task, replace(equal, always=True), {0: called}).offer is one
