"""Motor dampers that are bought: their line on the lists, and how they go under motors."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from isolator.design.damper import MotorDamper, stack_height
from isolator.design.faceplates import FACEPLATES
from isolator.design.phrases import millimetres
from isolator.workshop.damper_hardware import taken
from isolator.workshop.damper_words import DRILL_FOUR
from isolator.workshop.foot_hardware import Row
from isolator.workshop.step import Step


def bought_rows(dampers: Sequence[MotorDamper]) -> list[Row]:
    """Return (item, quantity, unit, remark) of the dampers that are bought, equal ones together."""
    found = Counter((_item(each), each.found) for each in dampers if each.bought)
    return [
        (item, str(count), "pieces", f"got: {place}" if place else "")
        for (item, place), count in found.items()
    ]


def _item(damper: MotorDamper) -> str:
    thick = damper.motor_plate + damper.rubber + damper.frame_plate
    return f"motor damper {damper.bought}, for frame size {damper.frame_size}, {thick * 1e3:g} mm"


def made_up(damper: MotorDamper) -> str:
    """Return what a bought damper is, for the parts list."""
    weight = f", {damper.mass * 1e3:.0f} g" if damper.mass > 0 else ""
    thick = millimetres(stack_height(damper) - damper.wedge, 2)
    return (
        f"1 × bought damper {damper.bought} under motor {damper.name}, {thick} thick{weight}: a "
        f"rubber ring between plates of {millimetres(damper.motor_plate, 2)}, nothing of it to "
        "make"
    )


def bought_steps(
    dampers: Sequence[MotorDamper], whose: str, wedge: str, tight: str
) -> tuple[Step, ...]:
    """Return the steps from the bracket's holes to the motor in its place.

    `whose` names the motors, `wedge` says how wedges go on, `tight` how tight screws are.
    """
    owner = dampers[0].name
    nuts = any(FACEPLATES[damper.frame_size].flange > 0 for damper in dampers)
    behind = " A washer and a nut go behind the flange." if nuts else ""
    which = "; ".join(dict.fromkeys(each.bought for each in dampers))
    items = tuple(f"{count} × {item}" for item, count, _, _ in bought_rows(dampers))
    return (
        Step(
            title=f"Screw the bought dampers of {whose} to the brackets",
            words=(
                f"Measure a damper ({which}) with a calliper first: what it is thicker or thinner "
                "than its sheet says, the pulley sits off its old plane.",
                DRILL_FOUR,
                "Lay the two screws for the motor through the damper's one plate, heads to the "
                "bracket: they cannot be put in later. Under the head of one go the toothed washer "
                "and the bonding wire's terminal, its tongue outwards, on bare metal. "
                f"{wedge}Put the frame's two screws through the other plate, on the other "
                "diagonal, from the motor's side, hold them there with the key, and put a washer "
                f"and a nut on each behind the bracket: {tight}.",
            ),
            cautions=("drill", "bonding wire"),
            owner=owner,
            view="bracket",
            uses=(
                *items,
                *taken(
                    dampers,
                    "motor-side plate",
                    "frame-side plate",
                    "bonding",
                    "under the bonding",
                    "self-locking",
                    "under the nuts",
                    "from each motor",
                ),
            ),
        ),
        Step(
            title=f"Screw {whose} to the bought dampers",
            words=(
                "Hold the motor to the damper, the boss in its hole, and turn its two screws in by "
                f"turns, with the key through the bracket's two other holes: {tight}.{behind} Hold "
                "the damper by the plate that you screw to: turned across its rubber it tears.",
                "Lead the wire to a screw of the frame, metal on metal, and leave it slack. "
                "Measure with an ohmmeter from the motor's case to the frame: the screw is part of "
                "the way. No screw goes from plate to plate, and motor and motor-side plate may "
                "touch nothing else of the frame.",
            ),
            owner=owner,
            view="motor",
        ),
    )
