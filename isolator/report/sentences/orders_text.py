"""What is told of an order map: ridges and their parts, what stands still, speeds, rattle."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from isolator.measuring.alignment import Aligned
from isolator.measuring.evened import Evened
from isolator.measuring.loud_speeds import Levels, Loud
from isolator.measuring.order_map import Map, Ridge
from isolator.measuring.rattle import LEAST_WIDE, LOWEST, Rattle
from isolator.measuring.still import Resonance
from isolator.physics.joints.fits import LOOSE, Deviation, Play
from isolator.recordings.recording import Verdict
from isolator.report.sentences.listed import listed
from isolator.report.sentences.moves_found import clock_words, found_lines, gain_line
from isolator.report.sentences.numbers import number
from isolator.report.sentences.speeds import span

PARTS: Mapping[str, str] = {
    "turn": "a pulley or a motor's shaft that runs out of true",
    "belt tooth": "belt teeth that meet pulleys and idlers",
    "electrical": "a motor whose coil currents have an offset",
    "twice electrical": "a motor whose two coils differ",
    "full step": "the cogging of a motor from step to step",
    "microstep": "the steps of a driver's current",
}
"""The part that likely makes a line; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """All that is told of one recording of the test moves."""

    name: str
    place: str
    band: tuple[float, float]  # [Hz]
    verdict: Verdict
    evened: Evened
    aligned: Aligned
    automatic: bool  # gain that moved by itself is suspected
    map: Map
    ridges: tuple[Ridge, ...]  # the loudest first
    resonances: tuple[Resonance, ...]
    hums: tuple[float, ...]  # [Hz]
    levels: Levels
    avoid: tuple[Loud, ...]
    beats: frozenset[float]  # directions [°] along which two motors turn at one speed
    rattles: tuple[Rattle, ...]
    heard_rattle: bool  # the recording reaches high enough
    play: Play | None  # of round rails in their bearings
    no_bore: float | None = None  # a rail [m] whose bearing's bore is neither given nor known


def orders_lines(told: Told) -> list[str]:
    """Return what is told, what matters most first, and doubts."""
    return [*map_lines(told), *(f"check: {line}" for line in doubts(told))]


def map_lines(told: Told) -> list[str]:
    """Return what the map tells, what matters most first."""
    low, high = (number(each, 2) for each in told.band)
    lines = [
        f"{_loudest(told)}; {low} to {high} Hz, its clock {clock_words(told.aligned.ratio)}",
        "",
    ]
    lines += [f"follows the speed: {ridge_words(each)}" for each in told.ridges]
    lines += [
        f"stands still: {number(each.frequency)} Hz, where lines grow by {each.grown:.0f} dB: a "
        "resonance of frame, feet or desk"
        for each in told.resonances
    ]
    if told.hums:
        tones, ratio = listed([number(each) for each in told.hums]), told.aligned.ratio
        by = listed([number(each / ratio) for each in told.hums])
        own = "" if by == tones else f" ({by} Hz by the recorder's own clock)"
        lines.append(f"never stops: {tones} Hz{own}: fans, mains or the room")
    directions = {direction for _, direction in told.map.keys}
    lines += [_avoid(each, len(directions), told.beats) for each in told.avoid]
    return [*lines, *_rattle(told), *_play(told)]


def doubts(told: Told) -> list[str]:
    """Return what may be wrong with the recording."""
    name = "the recording"
    lines = found_lines(name, told.verdict, told.evened, told.aligned)
    if told.automatic:
        lines.append(f"{gain_line(name)}; how loud speeds are against each other is not sure then")
    return lines


def ridge_words(ridge: Ridge) -> str:
    """Return a ridge's name, its part, and how plainly it stands."""
    stands = f"{ridge.over:.0f} dB over the room in {ridge.steps} steps"
    if ridge.source:
        return f"{ridge.source}, {stands}: likely {PARTS[ridge.source]}"
    every = number(1e3 / ridge.order)
    return (
        f"something every {every} mm of belt, {stands}: none of the motors' lines; look for what "
        "turns or repeats so often: idlers, bearings, a screw"
    )


def ridge_name(ridge: Ridge) -> str:
    """Return what a ridge is called in a picture."""
    return ridge.source or f"every {number(1e3 / ridge.order, 2)} mm"


def _loudest(told: Told) -> str:
    """Return the loudest ridge and the part that likely makes it."""
    if not told.ridges:
        return "nothing plainly follows the speed: broadband noise, or too few speeds"
    first = told.ridges[0]
    name = first.source or f"something every {number(1e3 / first.order)} mm of belt"
    part = f", likely {PARTS[first.source]}" if first.source else ""
    return f"loudest over all steps: {name}{part}"


def _avoid(loud: Loud, directions: int, beats: frozenset[float]) -> str:
    name = f", most of it {loud.source}" if loud.source else ""
    along = f", along {listed([f'{number(each)}°' for each in loud.directions_deg])}"
    along = "" if len(loud.directions_deg) == directions else along
    unsure = "; not sure, two motors at one speed add up or cancel there"
    unsure = unsure if beats.issuperset(loud.directions_deg) else ""
    return (
        f"avoid {span(loud.low, loud.high)}{along}: {loud.over:.0f} dB louder than the speeds "
        f"around{name}{unsure}"
    )


def _rattle(told: Told) -> list[str]:
    if not told.heard_rattle:
        top = number(LEAST_WIDE * LOWEST)
        return [f"check: rattle cannot be heard in it: that takes a recording good for {top} Hz"]
    if not told.rattles:
        return []
    speeds = sorted({each.speed for each in told.rattles})
    names = list(dict.fromkeys(each.source for each in told.rattles))
    at = listed([number(1e3 * each) for each in speeds])
    return [
        f"rattles at {at} mm/s: bursts that come back with every {listed(names)}; feet do nothing "
        "for it"
    ]


def _play(told: Told) -> list[str]:
    if told.no_bore is not None:
        rail = number(1e3 * told.no_bore, 4)
        return [
            f"no play is told: measure the bore of the bearing for a rail of {rail} mm (--bore)"
        ]
    if told.play is None:
        if told.rattles:
            return ["measure rail and bearing (--rail, --bore) to see whether they are loose"]
        return []
    play = told.play
    usual = [f"{name} {_microns(each)}" for name, each in play.usual.items()]
    beside = f"; rails of the usual fits leave {listed(usual)}" if usual else ""
    bearing = (
        f"usual bearings for {number(1e3 * play.nominal)} mm"
        if play.bore is None
        else f"a bore of {number(1e3 * play.bore, 4)} mm"
    )
    size = f"a rail of {number(1e3 * play.rail, 4)} mm in {bearing} leaves {_microns(play.found)}"
    size += beside
    if play.found.high < 0.0:
        return [f"{size}: such a rail cannot go in; measure both again"]
    if not play.loose:
        return [size if not told.rattles else f"{size}: likely not what rattles, unless worn"]
    why = "that is likely what rattles" if told.rattles else "it may rattle, most at slow moves"
    return [f"{size}: more than the {LOOSE:.0f} µm of a sliding fit; {why}; change the rail"]


def _microns(each: Deviation) -> str:
    """Return a clearance's two ends.

    >>> _microns(Deviation(-9.0, 9.0)), _microns(Deviation(61.0, 61.0))
    ('−9 to 9 µm', '61 µm')
    """
    ends = [f"{round(end) + 0:d}".replace("-", "−") for end in each]
    return f"{ends[0]} µm" if ends[0] == ends[1] else f"{ends[0]} to {ends[1]} µm"
