"""Which motors get a damper: the best for equal ones, unless a check or the ear is against it."""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from isolator.brief import Motor
from isolator.cards import Material
from isolator.design.damper import MotorDamper
from isolator.motors.confirm import Equal, after_hearing, without_loudest
from isolator.motors.mount import Damper
from isolator.motors.outcomes import bolted, damped, no_offer, offer_of, plated
from isolator.motors.results import Cause, MotorResult, NoDamper
from isolator.motors.sampled import Drawn
from isolator.motors.sharing import equal_motors
from isolator.motors.task import MotorTask
from isolator.motors.told import OnDamper, Telling
from isolator.motors.whole import Whole
from isolator.vibration.printer import RigidPrinter
from isolator.vibration.sampled import sampled
from isolator.vibration.spreads import Samples, draw
from isolator.vibration.stand import Stand


@dataclass(frozen=True, slots=True, kw_only=True)
class MountedMotors:
    """What was found of all motors, and the dampers to draw."""

    results: tuple[MotorResult, ...]
    dampers: tuple[MotorDamper, ...]
    whole: Whole | None = None  # None without a damper


Spoils = Callable[[Whole], tuple[float, ...]]
"""Which print speeds [m/s] dampers spoil, of those at which the feet alone are quiet enough."""


def best_dampers(
    task: MotorTask,
    printer: RigidPrinter,
    cards: dict[str, Material],
    stand: Stand,
    spoils: Spoils | None = None,
    asked: tuple[float, ...] = (),
    samples: Samples | None = None,
) -> MountedMotors:
    """Design a damper for every belt motor that is better off with one, on the chosen feet.

    One that makes a print speed louder on either way, or that fails a check, loses to none unless
    the brief wants one always; so does one that `spoils` a speed. What all motors together are
    heard with is told at the speeds `asked` [m/s], the brief's where none is. `samples` are of all
    spreads, drawn here unless they are given.
    """
    samples = samples or draw(printer.extras)
    drawn = Drawn(samples=samples, feet=sampled(stand, printer, task.excitation, samples, "feet"))
    equals = list(equal_motors(task, cards, drawn))
    # what one damper does to the feet hangs on the others: look again after each that changes
    telling = Telling(task, drawn, _offered(equals))
    while taken := _taken(equals):
        floor = telling.floors.over(taken)
        heard = telling.heard(floor, taken)
        after = _apart(after_hearing(task, each, heard) for each in equals)
        if len(after) == len(equals) and all(map(operator.is_, after, equals)):
            whole = telling.whole(floor, taken)
            lost = () if spoils is None else spoils(whole)
            fewer = without_loudest(task, equals, heard, lost) if lost else None
            if fewer is None:
                found = _results(task, equals, telling.told(floor, taken))
                at = _whole_at(task, drawn, taken, asked) or whole
                return replace(found, whole=at._replace(over=telling.over_speed(floor)))
            after = fewer
        equals = after
    return _results(task, equals, {})


def _whole_at(
    task: MotorTask, drawn: Drawn, taken: dict[int, Damper], speeds: tuple[float, ...]
) -> Whole | None:
    """Return what all motors are heard with at other print speeds; None where they are none."""
    if speeds in ((), task.motion.speeds):
        return None
    excitation = replace(task.excitation, motion=replace(task.motion, speeds=speeds))
    telling = Telling(replace(task, excitation=excitation), drawn, taken.values())
    return telling.whole(telling.floors.over(taken), taken)


def _offered(equals: list[Equal]) -> Iterator[Damper]:
    for each in equals:
        if each.why is None:
            for shared in (each.offer, *each.next):
                yield from shared.values()


def _taken(equals: list[Equal]) -> dict[int, Damper]:
    return {index: one for each in equals if each.why is None for index, one in each.offer.items()}


def _apart(equals: Iterable[Equal]) -> list[Equal]:
    """Return motors, those of several axes each by itself where one damper for all is given up."""
    return [one for each in equals for one in (each.apart if each.why and each.apart else (each,))]


def _declined(
    task: MotorTask, motor: Motor, equal: Equal, index: int
) -> tuple[tuple[str, str], ...]:
    """Return the bought dampers that fit a motor and are not taken, each with what stops it.

    "" where another one is taken that is heard less, or as much and easier.
    """
    if motor.mount:
        return ()
    why = dict(equal.choice.declined)
    taken = equal.offer[index].offered.bought if equal.why is None else None
    fitting = [each for each in task.stock.mounts if each.frame_size == motor.frame_size]
    return tuple(
        (each.name, why.get(each.name, ""))
        for each in fitting
        if each is not taken and (each.name in why or equal.why is None)
    )


def _results(task: MotorTask, equals: list[Equal], told: Mapping[int, OnDamper]) -> MountedMotors:
    """Return what was found of every motor, in the brief's order."""
    places = {motor.name: index for index, (_, motor) in enumerate(task.belts)}
    of = {index: each for each in equals for index in each.indices}
    results: list[MotorResult] = []
    sheets: list[MotorDamper] = []
    for motor in task.motors:
        index = places.get(motor.name, -1)
        equal = of.get(index)
        if motor.spacer_plate > 0:
            results.append(plated(task, motor))
        elif equal is None:
            cause: Cause = "not wanted" if index >= 0 else "no belt"
            results.append(bolted(task, motor, NoDamper(cause=cause)))
        elif equal.why is None:
            result, sheet = damped(task, motor, equal.offer[index], told[index])
            results.append(result)
            sheets.append(sheet)
        elif index in equal.offer:
            offer = offer_of(task, motor, equal.offer[index])
            results.append(bolted(task, motor, replace(equal.why, offer=offer)))
        else:
            results.append(bolted(task, motor, no_offer(task, motor, equal.choice)))
        if equal is not None:
            results[-1] = replace(results[-1], declined=_declined(task, motor, equal, index))
    return MountedMotors(results=tuple(results), dampers=tuple(sheets))
