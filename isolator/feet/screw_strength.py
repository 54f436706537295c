"""What a foot's screws and the plastic round them feel, as shares of what they may carry."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import NamedTuple

from isolator.design import Foot
from isolator.design.attachment import EAR_MARGIN, FLOOR, SHORTEST_PLUG, SOCKET_FIT, SOCKET_WALL
from isolator.design.attachment_room import bearing, clearance, head, slot_reach
from isolator.design.filaments import Strength, softest, weakest
from isolator.design.screw_lengths import LEAST_PLASTIC, TAPPED_HELD
from isolator.design.screws import DIRECT_DEPTH, DIRECT_HOLE, DIRECT_WALL, INSERTS, screw
from isolator.feet.strengths import GIVES, SHEAR, TAPPED, YIELD, Allowance
from isolator.physics.joints import holding

DIRECT_HELD = 1.5
"""Thread that a screw cuts in plastic, in diameters, at least."""


class Push(NamedTuple):
    """What one foot gets [N]: pressed by `load`, pushed `sideways`, hung on by `pull`."""

    load: float
    sideways: float
    pull: float
    over: Allowance


Share = tuple[str, float]
"""What is told, and the share of what it may carry."""


def _places(foot: Foot, wide: float, deep: float, across: float) -> tuple[tuple[float, float], ...]:
    """Return where the screws of a flange are, from the foot's middle [m]."""
    if foot.holes:
        return foot.holes
    reach = slot_reach(wide if foot.along == "x" else deep, across)
    return ((-reach, 0.0), (reach, 0.0)) if foot.along == "x" else ((0.0, -reach), (0.0, reach))


def _inner(foot: Foot, wide: float, deep: float) -> tuple[float, float]:
    """Return half the widths that foot and frame have in common [m]; a profile is narrow."""
    slot = foot.fastening.slot
    if slot is None:
        return wide / 2.0, deep / 2.0
    if foot.along == "x":
        return wide / 2.0, min(deep, slot.profile) / 2.0
    return min(wide, slot.profile) / 2.0, deep / 2.0


def flanged(foot: Foot, push: Push, stands: Strength, filament: str) -> Iterator[Share]:
    """Yield what a flange and its screws feel; `filament` is what the flange is printed of."""
    thread = foot.thread
    across, _ = bearing(foot.attachment, thread, soft=foot.soft_flange)
    wide, deep = foot.widths
    places = _places(foot, wide, deep, across)
    end = across / 2.0 + EAR_MARGIN
    outer = [max(abs(at[axis]) for at in places) + end for axis in (0, 1)]
    # a head that a bent flange leans on bears at its near side: a quarter of it nearer
    near = [holding.drawn_in(at, across / 4.0) for at in places]
    tipped = holding.screw_tension(
        near, _inner(foot, wide, deep), outer, push.sideways, foot.height, push.load, push.pull
    )
    arm = holding.spread_arm(max(_arm(at, wide, deep) for at in places), across)
    force = float(tipped.tension.max()) * holding.prying(arm, end)
    strip, plastic = across + 2.0 * EAR_MARGIN, push.over.plastic
    bent = holding.bending_stress(force * arm / 2.0 + tipped.heel, strip, foot.cap)
    if not foot.build.soft_body:  # whose body bends as one, cap and all
        reach = max(math.hypot(*at) for at in places)
        spread, width = (wide, deep) if foot.along == "x" else (deep, wide)
        if foot.holes:
            spread = width = min(wide, deep)  # whichever way the screws lie
        middle = holding.middle_moment(push.pull, reach, spread)
        bent = max(bent, holding.bending_stress(middle, width, foot.cap))
    hole = clearance(foot.attachment, thread, foot.fixing)
    yield "flange bends", plastic * bent / stands.within
    under = plastic * holding.bearing_stress(force, across, hole) / stands.within
    sheared = plastic * holding.punching_stress(force, across, foot.cap) / (SHEAR * stands.across)
    yield "plastic under the screw heads", max(under, sheared)
    if foot.fastening.tapping:
        # the frame's plastic is not known: as the weakest print that is rigid
        stress = holding.thread_stress(force, thread, LEAST_PLASTIC * thread)
        yield "screws hold", plastic * stress / (SHEAR * weakest(flexible=False).across)
    else:
        yield "screws hold", push.over.steel * _steel(force, thread)
    if foot.build.soft_body:
        youngs = softest(filament)
        gives = holding.guided_deflection(force, arm, strip, foot.cap, youngs, youngs / 3.0)
        yield "flange gives", gives / (GIVES * foot.cap)


def _arm(at: tuple[float, float], wide: float, deep: float) -> float:
    """Return how far a screw stands from the body's side [m]."""
    over = (max(abs(at[0]) - wide / 2.0, 0.0), max(abs(at[1]) - deep / 2.0, 0.0))
    return math.hypot(*over)


def _steel(force: float, thread: float) -> float:
    return force / (holding.stress_area(thread, screw(thread).pitch) * YIELD)


def _bore(foot: Foot, thread: float) -> float:
    """Return the outer diameter of what stands on the cap [m]; 0 where that is the frame."""
    bore = _BORES.get(foot.fastening.way)
    return 0.0 if bore is None else bore(foot, thread)


_BORES: dict[str, Callable[[Foot, float], float]] = {
    "socket": lambda foot, thread: max(
        foot.rod + SOCKET_FIT + 2.0 * SOCKET_WALL, (DIRECT_HOLE + 2.0 * DIRECT_WALL) * thread
    ),
    "plug": lambda foot, thread: foot.tube,
    "stud": lambda foot, thread: screw(thread).flats,
    # a profile with that bore is four diameters wide and more; common practice, no source
    "driven": lambda foot, thread: 4.0 * thread,
}


def hidden(foot: Foot, push: Push, stands: Strength, _: str) -> Iterator[Share]:
    """Yield what is felt by what the cap hides, and by plug or socket on it."""
    thread, height = foot.thread, foot.height
    sides = [side / 2.0 for side in foot.widths]
    bore = _bore(foot, thread)
    if bore > 0:
        sides = [min(side, bore / 2.0) for side in sides]
    tipped = holding.screw_tension(
        [(0.0, 0.0)], sides, sides, push.sideways, height - foot.lift, push.load, push.pull
    )
    force, plastic = float(tipped.tension[0]), push.over.plastic
    yield "screws hold", push.over.steel * _steel(force, thread)
    if foot.fixing == "direct":
        stress = holding.thread_stress(force, thread, DIRECT_HELD * thread)
        yield "thread in the plastic", plastic * stress / (SHEAR * stands.across)
        return
    yield "plastic over the screw head", plastic * _over_head(foot, force, thread, stands)
    more = _MORE.get(foot.fastening.way)
    if more is not None:
        yield from more(foot, push, stands, force)


def _over_head(foot: Foot, force: float, thread: float, stands: Strength) -> float:
    """Return stress over strength of the plastic between a hidden head and the frame."""
    across, row = screw(thread).flats, screw(thread)
    if foot.fastening.driven:
        across = head(foot.attachment, thread)[0]
    elif foot.fixing == "insert":
        across = INSERTS[round(thread, 6)].hole
    if foot.fastening.turned:
        force *= 2.0  # it tips about the head: half of the plastic is pulled
    hole = clearance(foot.attachment, row.thread, foot.fixing)
    return max(
        holding.bearing_stress(force, across, hole) / stands.within,
        holding.punching_stress(force, across, FLOOR) / (SHEAR * stands.across),
    )


def _driven(foot: Foot, push: Push, _: Strength, force: float) -> Iterator[Share]:
    stress = holding.thread_stress(force, foot.thread, TAPPED_HELD * foot.thread)
    yield "screws hold", push.over.steel * stress / TAPPED


def _stud(foot: Foot, push: Push, _: Strength, __: float) -> Iterator[Share]:
    pitch = screw(foot.thread).pitch
    bent = holding.screw_bending(push.sideways * foot.height, foot.thread, pitch)
    yield "stud bends", push.over.steel * bent / YIELD


def _plug(foot: Foot, push: Push, stands: Strength, _: float) -> Iterator[Share]:
    long = max(foot.tube, SHORTEST_PLUG)
    moment = push.sideways * (foot.height + long / 2.0)
    pressed = holding.socket_pressure(moment, foot.tube, long)
    yield "plug in its tube", push.over.plastic * pressed / stands.within


def _socket(foot: Foot, push: Push, stands: Strength, force: float) -> Iterator[Share]:
    """Yield what a rod's socket feels: thread, wall and the ends that the rod presses on."""
    thread, outer = foot.thread, _bore(foot, foot.thread)
    floor, long = DIRECT_DEPTH * thread, max(foot.rod, SHORTEST_PLUG)
    stress = holding.thread_stress(force, thread, DIRECT_HELD * thread)
    yield "thread in the plastic", push.over.plastic * stress / (SHEAR * stands.across)
    moment = push.sideways * (foot.height + floor + long / 2.0)
    pressed = holding.socket_pressure(moment, foot.rod, long) / stands.within
    bent = push.sideways * (foot.height + floor)
    split = holding.tube_bending(bent, outer, foot.rod + SOCKET_FIT) / stands.across
    yield "socket on its rod", push.over.plastic * max(pressed, split)


_MORE: dict[str, Callable[[Foot, Push, Strength, float], Iterator[Share]]] = {
    "driven": _driven,
    "stud": _stud,
    "plug": _plug,
    "socket": _socket,
}
"""What is felt besides the screw and the plastic round its head, by the way to hold a foot."""
