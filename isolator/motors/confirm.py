"""Whether what was found in few samples holds over all of them, all dampers in: the next if not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from isolator.feet.ranking import EQUAL_DB
from isolator.motors.choose import DamperChoice
from isolator.motors.consequences import feet_check
from isolator.motors.mount import Shared
from isolator.motors.results import NoDamper
from isolator.motors.task import MotorTask
from isolator.vibration.band import failed
from isolator.vibration.results import Heard

TRIES = 3
"""Dampers tried in the place of one that spoils a speed, before motors go without."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoiling:
    """The first damper of some motors that spoiled a speed."""

    offer: Shared
    speeds: tuple[float, ...]  # spoiled [m/s]
    tried: int = 0  # dampers in its place


@dataclass(frozen=True, slots=True, kw_only=True)
class Equal:
    """Motors that share a damper, and why they do not get it."""

    indices: tuple[int, ...]  # into the task's `belts`
    choice: DamperChoice
    always: bool  # the brief wants one whatever it does
    offer: Shared  # taken, or what came closest to it; empty where none holds
    next: tuple[Shared, ...] = ()  # that may be taken in its place
    maybe: Shared | None = None  # the first of those given up that nobody calls louder
    last: bool = False  # taken though its check through the feet is missed: none holds it
    why: NoDamper | None = None  # None: taken
    spoiling: Spoiling | None = None  # another one is tried in its place
    apart: tuple[Equal, ...] = ()  # each axis by itself, where one for all does not hold


def after_hearing(task: MotorTask, equal: Equal, heard: Mapping[int, tuple[Heard, ...]]) -> Equal:
    """Return motors with the next damper, or without, where they may be louder through the feet.

    One that misses its check, but that nobody calls louder, is taken where the next misses it too.
    """
    if equal.why is not None or equal.always:
        return equal
    checks = [feet_check(task.belts[index][1], heard[index]) for index in equal.offer]
    called = bool(failed(checks))
    if all(check.passed for check in checks) or (equal.last and not called):
        return equal
    maybe = equal.maybe or (None if called else equal.offer)
    # where one will do, one more look at what holds in few samples is enough
    others = equal.next if maybe is None else tuple(each for each in equal.next if _holds(each))
    if others and equal.maybe is None:
        return replace(equal, offer=others[0], next=others[1:], maybe=maybe)
    if maybe is None or equal.last:
        return _without(equal, NoDamper(cause="floor"))
    return replace(equal, offer=maybe, maybe=None, last=True)


def without_loudest(
    task: MotorTask,
    equals: Sequence[Equal],
    heard: Mapping[int, tuple[Heard, ...]],
    spoiled: tuple[float, ...],
) -> list[Equal] | None:
    """Return all motors, those with the next damper whose own adds most at `spoiled` speeds [m/s].

    The next that adds less there, of `TRIES` at most; without one where none is left. None where
    every damper that is taken is wanted whatever it does.
    """
    at = [task.motion.speeds.index(speed) for speed in spoiled]
    worst = {
        number: max(heard[index][place].desk.high for index in equal.offer for place in at)
        for number, equal in enumerate(equals)
        if equal.why is None and not equal.always
    }
    if not worst:
        return None
    loudest = max(worst, key=lambda number: worst[number])
    return [
        _instead(equal, spoiled, at) if number == loudest else equal
        for number, equal in enumerate(equals)
    ]


def _instead(equal: Equal, spoiled: tuple[float, ...], at: list[int]) -> Equal:
    """Return motors with the next damper that adds less at the speeds `at`, or without one."""
    first = equal.spoiling or Spoiling(offer=equal.offer, speeds=spoiled)
    added = _added(equal.offer, at)
    others = tuple(each for each in equal.next if _added(each, at) < added)
    if not others or first.tried >= TRIES:
        return _without(replace(equal, spoiling=first), NoDamper(cause="spoils", spoiled=spoiled))
    again = replace(first, tried=first.tried + 1)
    return replace(equal, offer=others[0], next=others[1:], maybe=None, last=False, spoiling=again)


def _without(equal: Equal, why: NoDamper) -> Equal:
    """Return motors without a damper; what is told of is the first that spoiled a speed, if any."""
    first = equal.spoiling
    if first is None:
        return replace(equal, why=why)
    spoils = NoDamper(cause="spoils", spoiled=first.speeds)
    return replace(equal, offer=first.offer, why=spoils)


def _added(shared: Shared, at: list[int]) -> float:
    """Return by how much a damper is louder through the feet at most, at the speeds `at`."""
    return max(one.feet[place].high for one in shared.values() for place in at)


def _holds(shared: Shared) -> bool:
    return all(each.high <= EQUAL_DB for one in shared.values() for each in one.feet)
