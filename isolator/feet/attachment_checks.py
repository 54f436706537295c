"""The attachment of a foot as checks: screws, plastic, flange, glue.

Two pushes are tried. Somebody drags the printer over the desk, or lifts it while a foot sticks:
rare and short. Moves of the printer push a million times: less is allowed then.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from isolator.design import Foot
from isolator.design.ends import recess
from isolator.design.filaments import Strength, strength
from isolator.feet.screw_strength import Push, Share, flanged, hidden
from isolator.feet.strengths import DRAG, MOVES, TAPE, TAPE_SHEAR
from isolator.physics.joints import holding
from isolator.vibration.band import Check

DRAGGED = 0.8
"""Friction of a foot that is dragged over a desk; rubber on a dry table top, from memory."""
STUCK = 0.5
"""Share of its load by which a foot that sticks is pulled when the printer is lifted; convention,
no source."""


def holding_checks(
    foot: Foot, *, load: float, friction: float, filament: str, sideways: float = 0.0
) -> tuple[Check, ...]:
    """Return the checks of a foot's attachment; each value is a share of what is allowed [%].

    `load` [N] is the greatest on one foot, `friction` the desk's coefficient as told: a foot is
    dragged by at least `DRAGGED` of its load. `sideways` [N] is the push of the printer's moves on
    one foot. `filament` is what rigid parts are printed of. A plug and a socket stay on tube and
    rod by friction: that is not promised, and a bare pad holds by its glue alone.
    """
    if not foot.build.hung:
        return ()
    soft = foot.build.soft_body and foot.fastening.flanged
    own = foot.pad.material if soft else filament
    stands = strength(own, flexible=soft)
    worst: dict[str, float] = {}
    for push in (
        Push(load, max(friction, DRAGGED) * load, STUCK * load, DRAG),
        Push(load, sideways, 0.0, MOVES),
    ):
        for name, share in _FELT[foot.fastening.where](foot, push, stands, own):
            worst[name] = max(worst.get(name, 0.0), share)
    return tuple(_told(name, share) for name, share in worst.items())


def _glued(foot: Foot, push: Push, *_: object) -> Iterator[Share]:
    wide, deep = foot.widths
    disc = foot.pad.outline.round
    bare = 1.0 - (recessed(foot) / min(wide, deep)) ** 2
    moment = holding.tipping_moment(push.sideways, foot.height, push.load, min(wide, deep) / 2.0)
    peel = holding.peel_stress(moment, push.pull, wide, deep, disc=disc) / TAPE
    shear = push.sideways / (wide * deep * (math.pi / 4.0 if disc else 1.0)) / TAPE_SHEAR
    yield "glue holds", math.hypot(peel, shear) * push.over.glue / bare


def recessed(foot: Foot) -> float:
    """Return the width of the recess in the face that is glued to the frame [m]; 0 for none."""
    return 0.0 if foot.ends is None else recess(foot.ends, foot.ends.upper, 0.0)


_FELT: dict[str, Callable[[Foot, Push, Strength, str], Iterator[Share]]] = {
    "flange": flanged,
    "cap": hidden,
    "face": _glued,
}


def _told(name: str, share: float) -> Check:
    passed, unit = bool(share <= 1.0), "% of what it may carry"
    return Check(name=name, value=100.0 * share, limit=100.0, unit=unit, passed=passed)
