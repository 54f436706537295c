"""What taps told, in words."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.measuring.tap_found import DESK, FEET, HARD, Corrected, TapFound
from isolator.measuring.tap_match import Matched
from isolator.measuring.tapped import FEWEST, TappedMode
from isolator.physics.signals.decay import swings_to_half
from isolator.report.sentences.numbers import number
from isolator.report.sentences.recorded import recording_line, verdict_notes
from isolator.vibration.band import Band

TITLES = {
    DESK: "The desk alone",
    HARD: "The printer on a hard floor",
    FEET: "The printer on its feet",
}
MODES = {
    "sway x": "sways along x",
    "sway y": "sways along y",
    "bounce": "bounces up and down",
    "rocking x": "rocks about x",
    "rocking y": "rocks about y",
    "twist": "turns about z",
    "frame x": "frame leans along x",
    "frame y": "frame leans along y",
    "frame twist": "frame twists about z",
}
"""What a printer does in each mode."""
WAYS = ("along x", "along y", "in twist")
STILL = 0.1
"""What folds down below so much cannot be told from standing still [Hz]."""
FEW = 4
"""Taps below which a band rests on little."""
NOISY = 0.2
"""Share of the energy that no swing explains from which it is told."""
POOR = 0.04
"""Share by which a corrected frequency may miss the tapped one without a word."""


def tap_lines(found: TapFound) -> list[str]:
    """Return what a terminal shows."""
    tapped = found.tapped
    lines = [
        f"{TITLES[found.of]}: {_count(len(tapped.modes), 'mode')} from "
        f"{_count(tapped.taps, 'tap')}, up to {number(found.highest)} Hz"
    ]
    for mode, names in zip(tapped.modes, found.names_of_modes, strict=True):
        lines.append(f"  {_mode_line(mode, names)}")
    if not tapped.modes:
        lines.append("  none is sure enough to be told: tap more often, or harder")
    for name, recording in zip(found.names, found.recordings, strict=True):
        lines.append(recording_line(name, recording))
        lines += [f"  {each}" for each in verdict_notes(recording.verdict)]
    if found.clock_ratio is not None:
        lines.append(
            f"clock: {found.clock_ratio:.4f} of its seconds are one true second by the known tone; "
            "frequencies are put right"
        )
    if found.corrected is not None:
        lines += _corrected_lines(found, found.corrected)
    return [*lines, *(f"note: {each}" for each in cautions(found))]


def _corrected_lines(found: TapFound, told: Corrected) -> list[str]:
    """Return what follows for the brief."""
    matched = told.matched
    lines = []
    if matched is not None:
        lines.append(f"{told.feet_of}, by these taps:")
        for pair in matched.pairs:
            tapped = found.tapped.modes[pair.tapped].frequency.nominal
            lines.append(
                f"  {_moves(pair.names)}: {number(tapped, 4)} Hz tapped, "
                f"{number(pair.before, 4)} Hz in the model, {number(pair.after, 4)} Hz corrected"
            )
        lines.append(
            f"  stiffness: {_band(matched.sideways, 3)} times the model's sideways, "
            f"{_band(matched.upright, 3)} times upright"
        )
        if matched.feet_damping is not None:
            lines.append(f"  loss factor: {_band(matched.feet_damping, 3)} times the model's")
        below = [
            f"{number(each.frequency)} Hz ({MODES[each.name]})"
            for each in matched.untapped
            if each.frequency <= found.highest
        ]
        if below:
            lines.append(f"  in the corrected model, but not tapped: {', '.join(below)}")
    for name, band in zip(WAYS, told.frame, strict=False):
        lines.append(f"frame {name}, standing hard: {_band(band)} Hz")
    for name, band in zip(WAYS[len(told.frame) :], told.follows, strict=False):
        lines.append(
            f"frame {name}, standing hard, follows from these modes: {_band(band)} Hz; it is not "
            f"in the copy: {to_tap(() if matched is None else matched.bent)}"
        )
    return lines


def to_tap(bent: Sequence[bool]) -> str:
    """Return what would put the frame into the copy, of whether a mode was tapped that bends it
    along x, along y, in twist.

    >>> to_tap((True, False, False)), to_tap((True, True, False))
    ('it takes both directions, tap along y as well', 'tap it with --hard')
    """
    lacking = [way for way, tapped in zip(WAYS[:2], bent, strict=False) if not tapped]
    if len(lacking) == 1:
        return f"it takes both directions, tap {lacking[0]} as well"
    return "tap it with --hard"


def _count(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _moves(names: Sequence[str]) -> str:
    """Return what a printer does in a mode, or in those that it may be."""
    told = [MODES[name] for name in names]
    start, _, axis = told[0].rpartition(" ")
    alike = all(each.startswith(f"{start} ") for each in told)
    rest = [each.rpartition(" ")[2] if alike else each for each in told[1:]]
    return " or ".join([f"{start} {axis}", *rest])


def _mode_line(mode: TappedMode, names: Sequence[str]) -> str:
    half = float(swings_to_half(mode.damping.nominal))
    what = f", {_moves(names)}" if names else ""
    return (
        f"{_band(mode.frequency)} Hz{what}, damping {_band(mode.damping, 3)} of critical ("
        f"{number(half, 2)} swings to half), in {_count(mode.taps, 'tap')}"
    )


def _band(band: Band, digits: int = 4) -> str:
    nominal, low, high = (number(each, digits) for each in (band.nominal, band.low, band.high))
    return nominal if low == high else f"{nominal} ({low} to {high})"


def cautions(found: TapFound) -> list[str]:
    """Return what to mind, a sentence each."""
    told = [
        "A swing that no tap starts is not in the list: tap along x, y and z, one hit each time."
    ]
    told += [
        f"{name}: no tap in it rings out."
        for name, taps in zip(found.names, found.taps, strict=True)
        if not taps.pieces
    ]
    if found.clock_ratio is None:
        told.append(
            "Frequencies are as true as the recorder's clock: one that is 4 % off shifts all of "
            "them by 4 %, and nothing in a recording tells but a known tone (--known-tone)."
        )
    if found.tapped.taps < FEW:
        told.append(f"So few taps leave bands that rest on little: {FEW} and more are better.")
    else:
        few = [mode for mode in found.tapped.modes if mode.taps < FEWEST]
        if few:
            tones = ", ".join(number(mode.frequency.nominal) for mode in few)
            told.append(
                f"{tones} Hz: in fewer than {FEWEST} taps, which leaves a band that rests on "
                "little. Tap more often where that sounds."
            )
    cut = sum(each.cut for each in found.taps)
    if cut:
        told.append(
            f"{_count(cut, 'tap')} went beyond the sensor's range and "
            f"{'was' if cut == 1 else 'were'} looked at only after that."
        )
    if found.tapped.modes and found.tapped.left > NOISY:
        told.append(
            f"{found.tapped.left:.0%} of what was recorded after taps is no ringing: noise, fans "
            "or a rattle."
        )
    told += _of_brief(found)
    return told + _of_gain(found)


def _of_gain(found: TapFound) -> list[str]:
    """Return what the noise about taps tells of automatic gain."""
    gains = [each.gain for each in found.taps if each.pieces]
    ratios = [gain.ratio for gain in gains if gain.automatic]
    if ratios:
        return [
            f"Noise after a tap is {number(min(ratios), 2)} of that before it: the recorder sets "
            "its gain by itself, and damping is told too low. Bands are wider for it. Switch it "
            "off and tap again."
        ]
    if any(math.isnan(gain.ratio) for gain in gains):
        return [
            "Whether the recorder sets its gain by itself cannot be told here: that takes noise in "
            "a quiet second before each of three taps. If it does, damping is told too low."
        ]
    return []


def _of_brief(found: TapFound) -> list[str]:
    """Return what to mind of a brief that taps correct."""
    told, corrected = [], found.corrected
    if corrected is not None and found.of == HARD and not corrected.frame:
        told.append(
            "The frame is not corrected: that takes channels x and y, and a mode along each."
        )
    if corrected is not None and corrected.rigid and corrected.frame:
        told.append(
            "The brief takes the frame as rigid, so there is no copy: set frame.kind to what it is "
            "and run this again."
        )
    if corrected is not None and found.of != HARD and corrected.matched is None:
        told.append(
            "Nothing is corrected: fewer than two of these modes lie within a quarter of the "
            "model's. Check mass, size and feet in the brief."
        )
    if corrected is not None and corrected.matched is not None:
        told.append(
            "The corrected copy gives the tapped feet as [[feet.given]], as they act when they "
            "are shaken. That table holds no band: it stands beside each key as a comment, and "
            "what is worked out from the copy leaves it out. Take the table out to design new "
            "feet."
        )
    if corrected is not None and corrected.matched is not None:
        told += _poor(found, corrected.matched)
    if found.folds:
        first = found.folds[0]
        more = len(found.folds) - 1
        seen = (
            f"folds down to {number(first.seen)} Hz"
            if first.seen >= STILL
            else "cannot be told from standing still"
        )
        told.append(
            f"With the motors running this recording is too slow for {_count(more + 1, 'tone')}: "
            f"at {number(first.speed * 1e3)} mm/s the {first.source} line of "
            f"{number(first.frequency)} Hz {seen}, unless the sensor has a filter."
        )
    return told


def _poor(found: TapFound, matched: Matched) -> list[str]:
    """Return where the corrected model still misses what was tapped."""
    told, modes = [], found.tapped.modes
    off = [
        (abs(pair.after / modes[pair.tapped].frequency.nominal - 1.0), pair)
        for pair in matched.pairs
    ]
    worst, pair = max(off, key=lambda each: each[0])
    if worst > POOR:
        told.append(
            f"The match is poor: {number(modes[pair.tapped].frequency.nominal)} Hz tapped is "
            f"{number(pair.after)} Hz even in the corrected model. Check mass, size and centre of "
            "mass in the brief before you use the copy."
        )
    alone = [m for n, m in enumerate(modes) if n not in {pair.tapped for pair in matched.pairs}]
    if alone:
        tones = ", ".join(number(mode.frequency.nominal) for mode in alone)
        told.append(f"Tapped, but none of the model's modes: {tones} Hz. The desk may have them.")
    return told
