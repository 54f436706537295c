"""Every printed part of all motor dampers, each once for all the motors that it fits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from geometry.motors.clearance import damper_clearances
from geometry.motors.damper_rules import require
from geometry.motors.damper_stack import stack_parts
from geometry.motors.damper_tools import drill_template, mould
from geometry.motors.wedge_marks import marked_wedge
from geometry.solids.part import Part
from isolator.design import PrintSettings
from isolator.design.damper import MotorDamper, bond_screw, local_pull
from isolator.design.naming import slug

Key = tuple[object, ...]

TOOLS = ("damper-mould", "damper-drill-template", "pulley-gauge")  # one serves all motors


def damper_parts(dampers: tuple[MotorDamper, ...], settings: PrintSettings) -> list[Part]:
    """Return the parts of all dampers, not yet verified, with their quantities.

    Raises CannotDraw where a damper's sheet does not hold together, or where its parts would not
    move freely of each other.
    """
    found: dict[Key, list[tuple[Part, MotorDamper]]] = {}
    for damper in dampers:
        require(damper, settings.for_filament(damper.filament))
        for part in _of_one(damper, settings):
            found.setdefault((part.role, *_KEYS[part.role](damper)), []).append((part, damper))
        damper_clearances(damper, settings)
    return [_shared(same, settings) for same in found.values()]


def _shared(same: list[tuple[Part, MotorDamper]], settings: PrintSettings) -> Part:
    """Return the part that several motors share: one file that names them all."""
    part, damper = same[0]
    names = [each.name for _, each in same]
    if part.role == "damper-wedge":
        part = marked_wedge(part, damper, names, settings)
    return replace(
        part,
        name=slug(*names, part.role),
        owner=", ".join(names),
        quantity=1 if part.role in TOOLS else len(same),
        notes=(*part.notes, "for " + ", ".join(names)),
    )


def _of_one(damper: MotorDamper, settings: PrintSettings) -> list[Part]:
    parts = [*stack_parts(damper, settings)]
    if damper.cast:
        parts.append(mould(damper, settings))
    return [*parts, drill_template(damper, settings)]


def _same(length: float) -> float:
    return round(length, 9)


def _motor_plate(damper: MotorDamper) -> Key:
    if damper.kind.sheet:  # flat: nothing else tells one from another
        return damper.frame_size, _same(damper.motor_plate), damper.plates
    return (
        damper.frame_size,
        _same(damper.motor_plate),
        _same(bond_screw(damper)),
        damper.filament,
    )


def _frame_plate(damper: MotorDamper) -> Key:
    if damper.kind.sheet:
        return damper.frame_size, _same(damper.frame_plate), damper.plates
    return damper.frame_size, _same(damper.frame_plate), _same(damper.travel), damper.filament


def _wedge(damper: MotorDamper) -> Key:
    x, y = local_pull(damper)
    # turned by half a turn a wedge serves the opposite pull
    sign = -1.0 if (x, y) < (0.0, 0.0) else 1.0
    slope = (_same(damper.wedge_angle), _same(sign * x), _same(sign * y))
    return (damper.frame_size, _same(damper.wedge), *slope, _same(damper.travel), damper.filament)


def _mould(damper: MotorDamper) -> Key:
    sizes = (damper.first, damper.second, damper.rubber)
    return damper.shape, *(_same(each) for each in sizes), damper.material


def _spacer(damper: MotorDamper) -> Key:
    sizes = (damper.pulley_spacer, damper.bore, damper.outer, damper.nose, damper.nose_height)
    return *(_same(each) for each in sizes), damper.filament


def _gauge(damper: MotorDamper) -> Key:
    sizes = (damper.pulley_spacer, damper.bore, damper.boss, damper.boss_height)
    return damper.frame_size, *(_same(each) for each in sizes), damper.filament


_KEYS: dict[str, Callable[[MotorDamper], Key]] = {
    "damper-motor-plate": _motor_plate,
    "damper-frame-plate": _frame_plate,
    "damper-wedge": _wedge,
    "damper-mould": _mould,
    "damper-drill-template": lambda damper: (damper.frame_size,),
    "pulley-spacer": _spacer,
    "pulley-gauge": _gauge,
}
