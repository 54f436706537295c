"""Which motors get a damper: the best for equal ones, unless a check or the ear is against it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from isolator.brief import Motor
from isolator.cards import Material
from isolator.design.damper import MotorDamper
from isolator.motors.choose import DamperChoice, Place, choose
from isolator.motors.confirm import Equal, after_hearing, without_loudest
from isolator.motors.consequences import build, damper_checks
from isolator.motors.heat import Layer, heat
from isolator.motors.mount import Damper, Shared
from isolator.motors.outcomes import bolted, damped, no_offer, offer_of, plated
from isolator.motors.results import Cause, MotorResult, NoDamper
from isolator.motors.sampled import Drawn
from isolator.motors.shaft import tallest_stack
from isolator.motors.task import MotorTask
from isolator.motors.told import OnDamper, Telling
from isolator.motors.whole import Whole
from isolator.vibration.band import Check
from isolator.vibration.printer import RigidPrinter
from isolator.vibration.sampled import sampled
from isolator.vibration.spreads import draw
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
) -> MountedMotors:
    """Design a damper for every belt motor that is better off with one, on the chosen feet.

    One that makes a print speed louder on either way, or that fails a check, loses to none unless
    the brief wants one always; so does one that `spoils` a speed. What all motors together are
    heard with is told at the speeds `asked` [m/s], the brief's where none is.
    """
    samples = draw(printer.extras)
    drawn = Drawn(samples=samples, feet=sampled(stand, printer, task.excitation, samples, "feet"))
    equals = [_settled(task, each) for each in _choices(task, cards, drawn)]
    # what one damper does to the feet hangs on the others: look again after each that changes
    telling = Telling(task, drawn, _offered(equals))
    while taken := _taken(equals):
        floor = telling.floors.over(taken)
        heard = telling.heard(floor, taken)
        after = [after_hearing(task, each, heard) for each in equals]
        if all(own is each for own, each in zip(after, equals, strict=True)):
            whole = telling.whole(floor, taken)
            lost = () if spoils is None else spoils(whole)
            fewer = without_loudest(task, equals, heard, lost) if lost else None
            if fewer is None:
                found = _results(task, equals, telling.told(floor, taken))
                return replace(found, whole=_whole_at(task, drawn, taken, asked) or whole)
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


def _choices(
    task: MotorTask, cards: dict[str, Material], drawn: Drawn
) -> Iterator[tuple[tuple[int, ...], DamperChoice]]:
    """Yield what was found for the motors that may have a damper, equal ones together.

    Where no damper holds under all of them, each has its own.
    """
    groups: dict[object, list[int]] = {}
    for index, (belt, motor) in enumerate(task.belts):
        if motor.damper != "none" and motor.spacer_plate == 0:
            axis = -1 if task.motion.layout == "crossed-belt" else belt
            groups.setdefault((axis, *_make(motor)), []).append(index)
    for indices in groups.values():
        places = {index: _place(task, task.belts[index][1]) for index in indices}
        found = choose(task, places, cards, drawn)
        if found.ranked or len(indices) == 1:
            yield tuple(indices), found
            continue
        for index, place in places.items():
            yield (index,), choose(task, {index: place}, cards, drawn)


def _make(motor: Motor) -> tuple[object, ...]:
    """Return what equal motors have in common: all but their places and how their belts run."""
    size = (motor.frame_size, motor.mass, motor.body_length, motor.shaft_length)
    drive = (motor.rotor_inertia, motor.holding_torque, motor.rated_current, motor.current)
    wish = (motor.damper, motor.mount, motor.pulley_set_by)
    bracket = (motor.bracket, motor.bracket_material, *wish)
    return (*size, *drive, *bracket)


def _place(task: MotorTask, motor: Motor) -> Place:
    # the rubber is as warm as the middle between a motor that cools by itself and the room
    room = task.room.temperature_high
    alone = heat(motor, (Layer(1.0, 1e-3, 1e-3),), room, task.print.motor_material)
    tallest = tallest_stack(motor, task.print.layer)
    return Place(tallest=tallest, warm=(alone.case_after + room) / 2.0)


def _settled(task: MotorTask, found: tuple[tuple[int, ...], DamperChoice]) -> Equal:
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
    checks = [
        check
        for index, one in shared.items()
        for check in (
            *damper_checks(task, task.belts[index][1], one),
            *build(task, task.belts[index][1], one).checks,
        )
    ]
    return tuple(check for check in checks if check.binding and not check.passed)


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
