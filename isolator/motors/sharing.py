"""Which motors share a damper: equal ones on one axis, and on several where none loses by it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from isolator.brief import Motor
from isolator.cards import Material
from isolator.feet.ranking import EQUAL_DB
from isolator.motors.choose import DamperChoice, Place, choose
from isolator.motors.confirm import Equal
from isolator.motors.feet_way import CLOSE, FeetWay
from isolator.motors.heat import Layer, heat
from isolator.motors.mount import Shared
from isolator.motors.preferred import points_of
from isolator.motors.sampled import Drawn
from isolator.motors.settled import settled
from isolator.motors.shaft import tallest_stack
from isolator.motors.task import MotorTask
from isolator.vibration.sampled import sample_band
from isolator.vibration.spreads import SHARP


def equal_motors(task: MotorTask, cards: dict[str, Material], drawn: Drawn) -> Iterator[Equal]:
    """Yield the motors that may have a damper, equal ones together.

    Those of several axes share one where each of them then sounds as with its own.
    """
    makes: dict[object, dict[int, list[int]]] = {}
    for index, (belt, motor) in enumerate(task.belts):
        if motor.damper != "none" and motor.spacer_plate == 0:
            axis = -1 if task.motion.layout == "crossed-belt" else belt
            makes.setdefault(_make(motor), {}).setdefault(axis, []).append(index)
    for axes in makes.values():
        own = [settled(task, each) for each in _choices(task, axes.values(), cards, drawn)]
        together = [index for indices in axes.values() for index in indices]
        if len(axes) > 1 and all(each.why is None for each in own):
            places = {index: _place(task, task.belts[index][1]) for index in together}
            found = choose(task, places, cards, drawn)
            shared = settled(task, (tuple(together), found))
            if shared.why is None and _sound_as(shared, felt(task, own, drawn)):
                yield replace(shared, apart=tuple(own))
                continue
        yield from own


def felt(task: MotorTask, own: Iterable[Equal], drawn: Drawn) -> Shared:
    """Return the dampers of several axes as they are heard with all of them in.

    One that is heard with another's motor bolted on is no match for one heard with all in.
    """
    every = {index: one for each in own for index, one in each.offer.items()}
    changes = FeetWay(task, tuple(every), drawn).changes(every, CLOSE)
    return {
        index: replace(one, feet=tuple(sample_band(each, SHARP) for each in feet.T))
        for (index, one), feet in zip(every.items(), changes, strict=True)
    }


def _sound_as(shared: Equal, own: Shared) -> bool:
    """Return whether each motor sounds on a shared damper as on its own, all dampers in."""
    return all(
        points_of(shared.offer[index]) >= points_of(one) - EQUAL_DB for index, one in own.items()
    )


def _choices(
    task: MotorTask, groups: Iterable[list[int]], cards: dict[str, Material], drawn: Drawn
) -> Iterator[tuple[tuple[int, ...], DamperChoice]]:
    """Yield what was found for groups of equal motors, by index into the task's `belts`.

    Where no damper holds under all of a group, each has its own.
    """
    for indices in groups:
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
