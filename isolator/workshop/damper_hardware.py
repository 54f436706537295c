"""What has to be bought for motor dampers besides rubber sheet and filament."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from isolator.design import MotorSpacer
from isolator.design.damper import MotorDamper, bond_screw, poured
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.workshop.foot_hardware import BUTTON, HEXAGON, Row

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
    nuts = 5 if FACEPLATES[damper.frame_size].flange > 0 else 2
    yield (_screw(thread, damper.motor_screw, BUTTON), "motor-side plate to motor, two a motor", 2)
    framed = _screw(thread, damper.frame_screw, HEXAGON)
    yield framed, "frame-side plate to bracket, two a motor", 2
    yield (_screw(thread, bond_screw(damper), BUTTON), "bonding wire's terminal to motor", 1)
    yield f"nut {thread}, ISO 4032", "self-locking ones hold better", nuts
    yield f"washer {thread}, ISO 7089", "under the nuts", nuts
    yield f"toothed washer {thread}", "under the bonding screw's head", 1
    yield f"ring terminal {thread}", "bonding wire's end at the motor", 1
    yield "ring terminal for a screw of the frame", "bonding wire's other end", 1


def _screw(thread: str, length: float, head: str) -> str:
    return f"screw {thread} x {length * 1e3:g}, {head}"
