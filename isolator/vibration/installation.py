"""A printer where it stands: its body, what shakes it, what is round it, what it may not pass."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.brief import Brief, Desk, Limits, Room
from isolator.cards import Material
from isolator.design.soles import FRICTION
from isolator.vibration.excitation import Excitation, build_excitation
from isolator.vibration.own_feet import build_bumpers, stood_on_slab
from isolator.vibration.printer import RigidPrinter, build_printer
from isolator.vibration.stand import Stand


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What is round a printer."""

    desk: Desk
    room: Room
    friction: float | None  # coefficient between foot and desk as told; None: of what stands there

    def grip(self, touches: str) -> float:
        """Return the friction of what stands on the desk, one of `isolator.design.soles`."""
        return FRICTION[touches] if self.friction is None else self.friction


@dataclass(frozen=True, slots=True, kw_only=True)
class Installation:
    """A printer where it stands."""

    printer: RigidPrinter
    excitation: Excitation
    surroundings: Surroundings
    limits: Limits
    bumpers: Stand  # what is heard is compared with these where today's feet are not told


def build_installation(brief: Brief, cards: dict[str, Material]) -> Installation:
    """Return the printer of a brief where it stands; `cards` hold what its own feet are of."""
    return Installation(
        printer=stood_on_slab(brief, cards, build_printer(brief)),
        excitation=build_excitation(brief),
        surroundings=Surroundings(
            desk=brief.desk, room=brief.room, friction=brief.limits.desk_friction
        ),
        limits=brief.limits,
        bumpers=build_bumpers(brief, cards),
    )
