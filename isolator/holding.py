"""The attachment of a foot as checks: screws, plastic, flange, glue."""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.design import BALL, Foot, attachment_thread
from isolator.design.attachment import EAR_MARGIN, FLANGED, FLOOR, HEAD_GAP, head
from isolator.design.screws import DIRECT_DEPTH, INSERTS, screw
from isolator.figures import Check
from isolator.physics import holding

DRAGGED = 0.8
"""Friction of a foot that is dragged over a desk; rubber on a dry table top, from memory."""
STUCK = 0.5
"""Share of its load by which a foot that sticks is pulled when the printer is lifted; convention,
no source."""
SAFETY = 3.0
"""Over usual strengths of prints, for scatter, heat and creep; convention, no source."""
TAPE = 300e3
"""Short tension that double-sided acrylic tape takes at its edge [Pa]; common practice, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Usual strength of a print [Pa]: within a layer, and across layers."""

    within: float
    across: float


STRENGTHS = {
    "pla": Strength(within=50e6, across=28e6),
    "petg": Strength(within=45e6, across=25e6),
    "abs": Strength(within=36e6, across=18e6),
    "asa": Strength(within=38e6, across=19e6),
    "pc": Strength(within=58e6, across=30e6),
    "pa": Strength(within=42e6, across=24e6),
    "tpu": Strength(within=9e6, across=7e6),
}
"""By filament family; usual figures of printed test bars, from memory. A flexible print is let
stretch by about a half."""


def strength(filament: str) -> Strength:
    """Return what a filament stands, by its family's name; that of the weakest where unknown."""
    return STRENGTHS.get(filament.casefold().split("-")[0], STRENGTHS["abs"])


def holding_checks(foot: Foot, *, load: float, friction: float, filament: str) -> tuple[Check, ...]:
    """Return the checks of a foot's attachment; each value is a share of what is allowed [%].

    `load` [N] is the greatest on one foot, `friction` the desk's coefficient as told: a foot is
    dragged by at least `DRAGGED` of its load. `filament` is what rigid parts are printed of. A
    bare pad, a plug and a socket hold by glue and friction alone: the last two get no check.
    """
    if foot.kind == "bare":
        return ()
    sideways = max(friction, DRAGGED) * load
    if foot.attachment == "adhesive":
        return (_glued(foot, sideways, load),)
    own = foot.pad.material if foot.kind == "printed" and foot.attachment in FLANGED else filament
    stands = strength(own)
    if foot.attachment in FLANGED:
        return _flanged(foot, sideways, load, stands)
    return _hidden(foot, sideways, load, stands)


def _face(foot: Foot) -> tuple[float, float]:
    """Return the outside widths of a foot's body in x and y [m]."""
    pad, more = foot.pad, 2.0 * (foot.side_room + foot.wall)
    more = 0.0 if foot.kind == "printed" else more
    return pad.first + more, (pad.second if pad.shape == "rectangle" else pad.first) + more


def _glued(foot: Foot, sideways: float, load: float) -> Check:
    wide, deep = _face(foot)
    moment = holding.tipping_moment(sideways, foot.height, load, min(wide, deep) / 2.0)
    disc = foot.pad.shape in ("disc", "ring", BALL)
    stress = holding.peel_stress(moment, STUCK * load, wide, deep, disc=disc)
    return _told("glue holds", stress / TAPE, "take a wider pad, or screw the foot on")


def _flanged(foot: Foot, sideways: float, load: float, stands: Strength) -> tuple[Check, ...]:
    thread = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    across, _ = head(foot.attachment, thread)
    wide, deep = _face(foot)
    reach = wide / 2.0 + HEAD_GAP + across / 2.0
    if foot.along == "y":
        reach += (deep - wide) / 2.0
    beside = ((-reach, 0.0), (reach, 0.0)) if foot.along == "x" else ((0.0, -reach), (0.0, reach))
    places = foot.holes or beside
    far = [max(abs(at[axis]) for at in places) + across / 2.0 + EAR_MARGIN for axis in (0, 1)]
    edges = (max(wide / 2.0, far[0]), max(deep / 2.0, far[1]))
    pulled = holding.screw_tension(places, edges, sideways, foot.height, load, STUCK * load)
    force = float(pulled.max())
    hole = screw(thread).clearance if foot.attachment != "self-tapping" else thread
    arm = max(_arm(at, wide, deep) for at in places)
    bent = holding.cantilever_stress(force, arm, across + 2.0 * EAR_MARGIN, foot.cap)
    return (
        _told(
            "flange bends", bent / (stands.within / SAFETY),
            "set the screws closer to the foot, or take a wider pad",
        ),
        _told(
            "plastic under the screw heads",
            max(
                holding.bearing_stress(force, across, hole) / (stands.within / SAFETY),
                holding.punching_stress(force, across, foot.cap) / (0.5 * stands.within / SAFETY),
            ),
            "take thicker screws",
        ),
    )  # fmt: skip


def _arm(at: tuple[float, float], wide: float, deep: float) -> float:
    """Return how far a screw stands from the body's side [m]."""
    over = (max(abs(at[0]) - wide / 2.0, 0.0), max(abs(at[1]) - deep / 2.0, 0.0))
    return math.hypot(*over)


def _hidden(foot: Foot, sideways: float, load: float, stands: Strength) -> tuple[Check, ...]:
    thread = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    wide, deep = _face(foot)
    pulled = holding.screw_tension(
        [(0.0, 0.0)], (wide / 2.0, deep / 2.0), sideways, foot.height, load, STUCK * load
    )
    force, row = float(pulled[0]), screw(thread)
    advice = "take a wider pad or a thicker screw"
    if foot.fixing == "direct":
        # turns of the thread lie between layers: the weak way
        stress = holding.thread_stress(force, thread, DIRECT_DEPTH * thread)
        return (_told("thread in the plastic", stress / (0.5 * stands.across / SAFETY), advice),)
    across = row.flats
    if foot.attachment == "tapped-end":
        across = head(foot.attachment, thread)[0]
    elif foot.fixing == "insert":
        across = INSERTS[round(thread, 6)].hole
    return (
        _told(
            "plastic over the screw head",
            max(
                holding.bearing_stress(force, across, row.clearance) / (stands.within / SAFETY),
                holding.punching_stress(force, across, FLOOR) / (0.5 * stands.across / SAFETY),
            ),
            advice,
        ),
    )  # fmt: skip


def _told(name: str, share: float, advice: str) -> Check:
    passed = bool(share <= 1.0)
    return Check(
        name=name, value=100.0 * share, limit=100.0, unit="% of what it may carry", passed=passed,
        advice="" if passed else advice,
    )  # fmt: skip
