"""Which of the dampers that were compared motors take, as far as brackets and checks tell."""

from __future__ import annotations

from dataclasses import replace

from isolator.motors.choose import DamperChoice
from isolator.motors.confirm import Equal
from isolator.motors.consequences import build, damper_checks
from isolator.motors.mount import Shared
from isolator.motors.results import NoDamper
from isolator.motors.task import MotorTask
from isolator.vibration.band import Check, failed


def settled(task: MotorTask, found: tuple[tuple[int, ...], DamperChoice]) -> Equal:
    """Return the damper that motors take as far as their brackets and checks tell."""
    indices, choice = found
    always = task.belts[indices[0]][1].damper == "always"
    if not choice.ranked or choice.keenest is None:
        none = NoDamper(cause="none holds")
        return Equal(indices=indices, choice=choice, always=always, offer={}, why=none)
    good = [
        shared
        for shared in choice.ranked
        if all(one.clear and (always or (one.worth and one.unheard)) for one in shared.values())
    ]
    failing = {at: _failed(task, shared) for at, shared in enumerate(good)}
    holding = tuple(shared for at, shared in enumerate(good) if not failing[at])
    own = Equal(indices=indices, choice=choice, always=always, offer=choice.keenest)
    if holding:
        return replace(own, offer=holding[0], next=holding[1:])
    if always:
        return own
    offer, why = _why(choice, failing[0] if good else ())
    return replace(own, offer=offer, why=why)


def _why(choice: DamperChoice, failing: tuple[Check, ...]) -> tuple[Shared, NoDamper]:
    """Return the damper that came closest, and why it is not taken."""
    if failing:
        return choice.ranked[0], NoDamper(cause="fails", failed=failing)
    clear = [each for each in choice.ranked if all(one.clear for one in each.values())]
    worth = [each for each in clear if all(one.worth for one in each.values())]
    if worth:
        return worth[0], NoDamper(cause="floor")
    if clear:
        return clear[0], NoDamper(cause="little")
    assert choice.keenest is not None  # there is one where any is ranked
    return choice.keenest, NoDamper(cause="louder")


def _failed(task: MotorTask, shared: Shared) -> tuple[Check, ...]:
    """Return the checks that a damper fails under any of its motors."""
    return failed(
        check
        for index, one in shared.items()
        for check in (
            *damper_checks(task, task.belts[index][1], one),
            *build(task, task.belts[index][1], one).checks,
        )
    )
