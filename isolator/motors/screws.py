"""Screws of a motor on a damper or a plate: from standard lengths, held deep enough."""

from __future__ import annotations

import math
from typing import NamedTuple

from isolator.brief import Motor
from isolator.design.damper import DEEPEST, LEAST_TURNS, floor_under, frame_head
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED
from isolator.design.screws import Screw, kept_lengths
from isolator.motors.limits import check_against
from isolator.motors.results import Screws
from isolator.vibration.band import Check, Figures

DEPTH_MARGIN = 0.5e-3
"""What a screw leaves free in the ground of a blind hole [m]; common practice, no source."""
BEYOND_NUT = 2.0
"""Turns of thread that stand out of a nut; common practice, no source."""
BUTTON = "button head, ISO 7380-1"
HEXAGON = "hexagon head, ISO 4017"
LOCKING = {3: 4.5e-3, 4: 6.0e-3}
"""Greatest height of a self-locking nut ISO 7040 [m] by thread in whole millimetres; from memory,
and as the public table of ASME B18.16.3M has it."""
STEEL = 210e9
"""Young's modulus of steel [Pa]; any handbook."""
HALF_BELT = 3e-3
"""Half the width of a usual belt [m]; common practice, no source."""


class Fastened(NamedTuple):
    """Screws of one motor, and whether they hold."""

    screws: tuple[Screws, ...]
    checks: tuple[Check, ...]


def damper_screws(
    motor: Motor,
    motor_plate: float,
    frame_plate: float,
    wedge: float,
    plates: str = PRINTED,
    bonded: float = 0.0,
) -> Fastened:
    """Return the two screws into the motor and the two through the bracket.

    `motor_plate`, `frame_plate`, `wedge` thicknesses [m]; heads lie in the pockets of printed
    plates, below the faces that the rubber is glued to, or on plates of sheet metal. The bonding
    wire's end may lie under one of the motor's screws, `bonded` [m] thick.
    """
    screw, kind = screw_of(motor.frame_size), PLATE_KINDS[plates]
    grip = floor_under(motor_plate, screw.button_height, kind)
    into = _motor_side(motor, screw, grip, "motor-side plate to motor", 2, bonded)
    head, where = (
        (BUTTON, "frame-side plate through the bracket, heads to the motor")
        if kind.sheet
        else (HEXAGON, "frame-side plate through the bracket, heads captive in the plate")
    )
    floor = floor_under(frame_plate, frame_head(screw, kind), kind)
    frame = _nutted(motor, screw, floor + wedge + motor.bracket, 2, head, where)
    return Fastened((*into.screws, *frame.screws), (*into.checks, *frame.checks))


def plate_screws(motor: Motor, plate: float) -> Fastened:
    """Return the four screws through bracket and a plain plate of height `plate` [m]."""
    screw = screw_of(motor.frame_size)
    return _motor_side(
        motor, screw, motor.bracket + plate, "through bracket and plate into the motor", 4
    )


def _motor_side(
    motor: Motor, screw: Screw, grip: float, where: str, count: int, bonded: float = 0.0
) -> Fastened:
    """Return screws that go `grip` [m] deep before they reach the motor, into its holes.

    One of them goes `bonded` [m] less deep, and holds all the same.
    """
    if motor.screw_depth == 0:
        # a small motor with through holes: its flange taken as thick as the thread; estimated
        flange = FACEPLATES[motor.frame_size].flange or screw.thread
        return _nutted(motor, screw, grip + bonded + flange, count, BUTTON, where)
    least = LEAST_TURNS * screw.pitch + bonded
    # deeper than the drawing allows adds nothing to hold by
    most = min(motor.screw_depth - DEPTH_MARGIN, DEEPEST * screw.thread)
    kept = kept_lengths(screw.thread)
    lengths = [each for each in kept if least - 1e-9 <= each - grip <= most + 1e-9]
    # the deepest that fits; where none does, the longest that does not touch the ground
    length = (
        lengths[-1]
        if lengths
        else max((each for each in kept if each - grip <= most + 1e-9), default=kept[0])
    )
    held = max(0.0, length - grip - bonded)
    only = Screws(
        count=count,
        thread=_name(screw),
        length=length,
        head=BUTTON,
        where=where,
        engagement=held,
        turns=held / screw.pitch,
    )
    remedy, figures = _too_short(screw, grip, least, most)
    check = Check(
        name=f"thread in motor {motor.name}",
        value=held / screw.pitch,
        limit=LEAST_TURNS,
        unit="turns",
        passed=bool(lengths),
        remedy=remedy,
        figures=figures,
    )
    return Fastened((only,), (check,))


def _nutted(motor: Motor, screw: Screw, grip: float, count: int, head: str, where: str) -> Fastened:
    """Return screws that go through `grip` [m] into a nut on a washer."""
    base = grip + screw.washer_height
    least = base + screw.nut_height + BEYOND_NUT * screw.pitch
    fits = least <= kept_lengths(screw.thread)[-1] + 1e-9
    length = _at_least(screw, least)
    locked = _at_least(screw, base + LOCKING[round(screw.thread * 1e3)])
    better = "better" if locked <= length else f"better, with {locked * 1e3:g} mm screws"
    screws = Screws(
        count=count,
        thread=_name(screw),
        length=length,
        head=head,
        where=where,
        engagement=screw.nut_height if fits else 0.0,
        turns=screw.nut_height / screw.pitch if fits else 0.0,
        beside=f"{count} nuts ISO 4032 (self-locking ISO 7040 {better}) and {count} washers "
        "ISO 7089",
    )
    check = check_against(
        f"length of the {head.split(',')[0]} screws of {motor.name}",
        length * 1e3,
        least * 1e3,
        "mm",
        "screw through the plates",
        _thread(screw),
        at_least=True,
    )
    return Fastened((screws,), (check,))


def _thread(screw: Screw) -> Figures:
    return (("thread_mm", screw.thread * 1e3),)


def _too_short(screw: Screw, grip: float, least: float, most: float) -> tuple[str, Figures]:
    """Return what to do where no standard length holds in a motor, and its figures."""
    if most < least:
        own = (("turns", LEAST_TURNS), ("margin_mm", DEPTH_MARGIN * 1e3))
        return "holes too shallow", (*_thread(screw), *own)
    longer = next((each for each in kept_lengths(screw.thread) if each - grip > most), None)
    if longer is None:
        return "motor out of reach", _thread(screw)
    thicker = math.ceil((longer - grip - most) * 1e4 - 1e-6) / 1e4
    own = (("thicker_mm", thicker * 1e3), ("longer_mm", longer * 1e3))
    return "no length fits", (*_thread(screw), *own)


def belt_edge(motor: Motor) -> float:
    """Return how far [m] the edge of a belt 6 mm wide runs above the bracket's far face."""
    return motor.pulley_standoff + motor.belt_offset - motor.bracket - HALF_BELT


def frame_screw_end(
    motor: Motor, frame_plate: float, wedge: float, length: float, plates: str = PRINTED
) -> float:
    """Return how far [m] a frame-side screw stands out of the bracket to the belt."""
    screw, kind = screw_of(motor.frame_size), PLATE_KINDS[plates]
    floor = floor_under(frame_plate, frame_head(screw, kind), kind)
    return length - floor - wedge - motor.bracket


def core_of(screw: Screw) -> float:
    """Return a screw's stress diameter [m], ISO 898-1."""
    return screw.thread - 0.9382 * screw.pitch


def bridge_ratio(rubber: float, span: float, core: float) -> float:
    """Return how many times stiffer one steel screw is that bridges the rubber, along the shaft.

    `rubber` [N/m] is the rubber's stiffness, `span` [m] the free length of the screw between the
    plates, `core` [m] its stress diameter: E·A/span over the rubber.

    >>> round(bridge_ratio(2.24e6, 3e-3, 2.5e-3))
    153
    """
    area = math.pi / 4.0 * core**2
    return STEEL * area / span / rubber


def _at_least(screw: Screw, length: float) -> float:
    kept = kept_lengths(screw.thread)
    return next((each for each in kept if each >= length - 1e-9), kept[-1])


def _name(screw: Screw) -> str:
    return f"M{screw.thread * 1e3:g}"
