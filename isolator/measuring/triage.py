"""Is it the feet: what the answers point at, what feet do for it, what to try first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, NamedTuple

from isolator.measuring.heard_still import Still

YES, PARTLY, NO, UNKNOWN = "yes", "partly", "no", "unknown"
"""Verdicts."""


class Cause(NamedTuple):
    """One cause: the answers that point at it, what feet do for it, what to try first.

    `points` and `denies` are keys of `QUESTIONS`: yes to all of the first and to none of the second
    points at it.
    """

    name: str
    points: tuple[str, ...]
    feet: str  # YES, PARTLY or NO: whether feet cure it
    why: str
    first: str  # what to try first
    denies: tuple[str, ...] = ()
    beside: bool = False  # heard with motors off: says nothing of what they add


CAUSES: Final[tuple[Cause, ...]] = (
    Cause(
        "fans",
        ("fans_only",),
        NO,
        "their sound goes through the air, and it is there with the motors off",
        "stop one fan after the other with power off; then a larger or slower one, or soft washers "
        "under it",
        beside=True,
    ),
    Cause(
        "hiss of the drivers",
        ("motors_still",),
        NO,
        "motors that hold still sing at the rate at which their drivers chop the current",
        "less holding current, or the drivers' quiet mode",
    ),
    Cause(
        "dry carriages or belts that rub",
        ("pushed_by_hand",),
        NO,
        "it is made where things slide, and heard with the motors off",
        "clean and oil the rails, see that belts run in the middle of their idlers",
    ),
    Cause(
        "loose carriages",
        ("slow_rattle",),
        NO,
        "a bearing with too much room on its rail is knocked to and fro by every step",
        "measure the rails: 7.94 mm where 8.00 belongs rattles in any bearing",
        ("pushed_by_hand",),
    ),
    Cause(
        "a loose panel or cover",
        ("held_panel",),
        NO,
        "it answers some tone of its own and stops under a hand",
        "tighten it, or felt tape behind it",
    ),
    Cause(
        "a loose pulley, coupler or belt",
        ("at_turns",),
        NO,
        "play is taken up with a knock at every turn",
        "tighten set screws on the shaft's flat, then the belts",
    ),
    Cause(
        "the desk sounds with it",
        ("on_towel",),
        YES,
        "what a towel takes away comes through the desk, and feet take more of it",
        "feet: run `isolator design` on this brief",
    ),
    Cause(
        "a tone meets a mode",
        ("one_speed",),
        PARTLY,
        "some speeds drive printer, frame or desk at a frequency of their own",
        "print at other speeds; feet move the printer's own modes, motor dampers take the tone "
        "from the frame",
        ("hiss",),
    ),
    Cause(
        "a whistle in the air",
        ("hiss",),
        NO,
        "above 2 kHz hardly anything comes through feet and desk",
        "finer microsteps or the drivers' quiet mode; fans if it stays with motors off",
        ("motors_still",),
    ),
)
"""All causes, told in this order; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """A speed at which a tone of the motors meets a mode."""

    mode: str
    frequency: float  # [Hz]
    source: str
    speed: float  # of a move along an axis [m/s]
    asked: bool  # among the speeds of the brief, not below them


@dataclass(frozen=True, slots=True, kw_only=True)
class Triage:
    """What the answers, and a recording with motors off, come to."""

    verdict: str  # YES, PARTLY, NO or UNKNOWN
    answers: Mapping[str, bool]
    causes: tuple[Cause, ...]
    meetings: tuple[Meeting, ...]
    feet: str  # under which the modes are told
    still: Still | None = None  # of a recording with motors off


def triage(answers: Mapping[str, bool]) -> tuple[str, tuple[Cause, ...]]:
    """Return the verdict and the causes that answers point at.

    >>> triage({"fans_only": True})[0], triage({"on_towel": True, "fans_only": False})[0]
    ('unknown', 'yes')
    """
    found = tuple(
        cause
        for cause in CAUSES
        if all(answers.get(key) is True for key in cause.points)
        and not any(answers.get(key) is True for key in cause.denies)
    )
    sorts = {cause.feet for cause in found}
    if answers.get("on_towel") is False:  # what a towel leaves, feet leave
        return (PARTLY if PARTLY in sorts else NO), found
    if all(cause.beside for cause in found):
        return UNKNOWN, found
    if sorts == {NO}:
        return NO, found
    return (YES if sorts == {YES} or sorts == {YES, PARTLY} else PARTLY), found
