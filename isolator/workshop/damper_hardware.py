"""What has to be bought for motor dampers besides rubber sheet and filament."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

from isolator.design import MotorSpacer
from isolator.design.damper import MotorDamper, bond_screw, poured
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.naming import slug
from isolator.design.plate_kinds import PLATE_KINDS
from isolator.design.plate_room import ear, outline_side
from isolator.workshop.foot_hardware import HEXAGON, Row
from isolator.workshop.mount_hardware import BUTTON

WIRE = 0.75
"""Section of a bonding wire [mm²], or more; common practice, no source."""
WIRE_LENGTH = 0.5
"""Of one bonding wire, with slack [m]; no source: it depends on where the bonded frame is near."""


def damper_rows(dampers: tuple[MotorDamper, ...]) -> list[Row]:
    """Return (item, quantity, unit, remark): screws, nuts, washers, bonding wires, casting rubber.

    Equal screws of all dampers are counted together.
    """
    if not dampers:
        return []
    pieces: Counter[tuple[str, str]] = Counter()
    for damper in dampers:
        for item, remark, count in _hardware(damper):
            pieces[item, remark] += count
    rows = [(item, str(count), "pieces", remark) for (item, remark), count in pieces.items()]
    wire = f"green-yellow stranded wire, {WIRE:g} mm^2 or more"
    slack = (
        f"{WIRE_LENGTH:g} m a motor, from its body to the bonded frame, with slack; measure the way"
    )
    rows.append((wire, f"{WIRE_LENGTH * len(dampers):g}", "m", slack))
    return rows + _poured(dampers)


def plate_rows(spacers: tuple[MotorSpacer, ...]) -> list[Row]:
    """Return the screws, at their new length, through plain plates under motors, and their nuts."""
    found: dict[tuple[str, str], list[str]] = {}
    for spacer in spacers:
        if spacer.height == 0 or spacer.motor_screw == 0:
            continue
        thread = f"M{screw_of(spacer.frame_size).thread * 1e3:g}"
        told = f"through bracket and spacer plate of {spacer.height * 1e3:g} mm into motor"
        found.setdefault((_screw(thread, spacer.motor_screw, BUTTON), told), []).append(spacer.name)
        if FACEPLATES[spacer.frame_size].flange > 0:
            for item in (f"nut {thread}, ISO 4032", f"washer {thread}, ISO 7089"):
                found.setdefault((item, "behind the flange of motor"), []).append(spacer.name)
    return [
        (item, str(4 * len(names)), "pieces", f"{told} {', '.join(names)}")
        for (item, told), names in found.items()
    ]


def cut_rows(dampers: tuple[MotorDamper, ...]) -> list[Row]:
    """Return the plates that a shop cuts of sheet metal, equal ones together, with their file."""
    found: dict[tuple[str, float, int, str], list[str]] = {}
    for damper in dampers:
        if not damper.kind.sheet or damper.bought:
            continue
        for role, thick in (
            ("damper-motor-plate", damper.motor_plate),
            ("damper-frame-plate", damper.frame_plate),
        ):
            key = (role, round(thick, 9), damper.frame_size, damper.plates)
            found.setdefault(key, []).append(damper.name)
    rows = []
    for (role, thick, size, made), names in found.items():
        side, (off, half) = outline_side(size), ear(size)
        wide = side + (off + half if role == "damper-motor-plate" else 0.0)
        name = (
            f"plate of {PLATE_KINDS[made].told} sheet, {thick * 1e3:g} mm, "
            f"{math.ceil(wide * 1e3 - 1e-6)} x {math.ceil(side * 1e3 - 1e-6)} mm"
        )
        told = f"have it cut by a shop, by parts/{slug(*names, role)}.dxf, and every edge deburred"
        rows.append((name, str(len(names)), "pieces", told))
    return rows


def _poured(dampers: tuple[MotorDamper, ...]) -> list[Row]:
    """Return what is mixed of each rubber: its mass, or its volume where a sheet tells no more."""
    needed = defaultdict[tuple[str, str], float](float)
    for damper in dampers:
        if damper.cast:
            volume, mass = poured(damper)
            unit, each = ("g", mass * 1e3) if damper.density > 0 else ("cm^3", volume * 1e6)
            needed[damper.material, unit] += each
    told = "both parts together, a fifth over for the spill"
    return [
        (f"{material} in two parts, to pour", f"{amount:.3f}", unit, told)
        for (material, unit), amount in needed.items()
    ]


def _hardware(damper: MotorDamper) -> Iterator[tuple[str, str, int]]:
    """Yield item, remark and count of what one damper is screwed together with."""
    screw = screw_of(damper.frame_size)
    thread = f"M{screw.thread * 1e3:g}"
    flanged = FACEPLATES[damper.frame_size].flange > 0
    own = not (damper.kind.sheet or damper.bought)  # a screw in the motor for the wire alone
    nuts = (5 if own else 4) if flanged else 2
    yield (_screw(thread, damper.motor_screw, BUTTON), "motor-side plate to motor, two a motor", 2)
    sheet = damper.kind.sheet
    framed = _screw(thread, damper.frame_screw, BUTTON if sheet else HEXAGON)
    yield framed, "frame-side plate to bracket, two a motor", 2
    bonded = "bonding wire's terminal to " + ("the motor-side plate's ear" if sheet else "motor")
    if not damper.bought:
        yield (_screw(thread, bond_screw(damper), BUTTON), bonded, 1)
    if sheet and not damper.bought:
        yield f"nut {thread}, ISO 4032", "bonding nut, under the ear", 1
    yield f"nut {thread}, ISO 4032", "self-locking ones hold better", nuts
    yield f"washer {thread}, ISO 7089", "under the nuts", nuts
    under = "under the bonding nut" if sheet else "under the bonding screw's head"
    if damper.bought:
        under = "under the bonding wire's end, below the head of one motor screw"
    yield f"toothed washer {thread}", under, 1
    yield f"ring terminal {thread}", "bonding wire's end at the motor", 1
    yield "ring terminal for a screw of the frame", "bonding wire's other end", 1


def _screw(thread: str, length: float, head: str) -> str:
    return f"screw {thread} x {length * 1e3:g}, {head}"


def taken(dampers: Sequence[MotorDamper], *marks: str) -> tuple[str, ...]:
    """Return the bought things whose remark begins with one of `marks`, with their number."""
    rows = damper_rows(tuple(dampers))
    return tuple(
        f"{quantity} × {item.replace('^2', '²')}"
        for item, quantity, _, remark in rows
        if remark.startswith(marks)
    )
