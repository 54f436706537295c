"""How dampers with plates of sheet metal go together and under motors, in words."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.design.damper import MotorDamper
from isolator.design.faceplates import FACEPLATES
from isolator.workshop.damper_hardware import taken
from isolator.workshop.damper_words import DRILL_FOUR
from isolator.workshop.step import Step


def glued_words() -> tuple[str, ...]:
    """Return how rubber is glued between plates of sheet metal."""
    return (
        "File or grind every edge and hole of the plates smooth on both faces, and lay them on "
        "each other: each one's two free corners lie on the other's holes.",
        "Grind the faces bare where the rubber goes, with grit 80, degrease plates and rubber, and "
        "glue the rubber all over to both plates, edges flush, the ear on the motor's side, with a "
        "glue that its maker names for this rubber and for metal. A rubber shop can vulcanise it "
        "on instead: that holds best.",
        "Keep glue off the holes, and let it cure. No screw goes from plate to plate: it would "
        "bridge the rubber.",
    )


def sheet_steps(
    dampers: Sequence[MotorDamper], whose: str, wedge: str, tight: str
) -> tuple[Step, ...]:
    """Return the steps from the bonding wire to the motor in its place.

    `whose` names the motors, `wedge` says how wedges go on, `tight` how tight screws are.
    """
    owner = dampers[0].name
    nuts = any(FACEPLATES[damper.frame_size].flange > 0 for damper in dampers)
    behind = " A washer and a nut go behind the flange." if nuts else ""
    return (
        Step(
            title=f"Bond the dampers of {whose}",
            words=(
                "Put the bonding wire's screw through the motor-side plate's ear from the rubber's "
                "side; under it go the wire's terminal, the toothed washer and the nut, metal on "
                "bare metal.",
            ),
            cautions=("sheet edges", "bonding wire"),
            owner=owner,
            view="bond",
            uses=taken(dampers, "bonding", "under the bonding", "from each motor"),
        ),
        Step(
            title="Screw the dampers to the brackets",
            words=(
                DRILL_FOUR,
                "Lay the two screws for the motor through the motor-side plate, heads to the "
                f"bracket: they cannot be put in later. {wedge}Put the frame's two screws through "
                "the other diagonal from the motor's side, heads in the motor-side plate's free "
                "corners, hold them there with the key, and put a washer and a nut on each behind "
                f"the bracket: {tight}.",
            ),
            cautions=("drill",),
            owner=owner,
            view="bracket",
            uses=taken(
                dampers, "motor-side plate", "frame-side plate", "self-locking", "under the nuts"
            ),
        ),
        Step(
            title="Screw the motors to their dampers",
            words=(
                "Scrape the motor's face bare where the plate lies, hold the motor to it, the boss "
                "in its hole, and turn its two screws in by turns, with the key through the "
                f"bracket's two other holes: {tight}.{behind}",
                "Lead the wire to a screw of the frame, metal on metal, and leave it slack. "
                "Measure with an ohmmeter from the motor's case to the frame: the plate and its "
                "screws are part of the way. Motor and motor-side plate may touch nothing else "
                "of the frame.",
            ),
            owner=owner,
            view="motor",
        ),
    )
