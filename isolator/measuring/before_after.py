"""What two recordings of the same test moves tell: how much louder each step is after a change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from isolator.measuring.beats import Beats
from isolator.measuring.change import Change, above_room, added, change_of, decibel, repeated
from isolator.measuring.energies import REACH, STANDS_OUT, Cut, Energies, Key, LinesCut, Take
from isolator.measuring.tones import Tone
from isolator.physics.signals.pieces import Mean
from isolator.physics.signals.third_octaves import centres, edges, nominal

LEAST_LINES = 2.0
"""A third octave is told where it is so many lines of a spectrum wide."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToneChange(Change):
    """The change of one line of the motors in one step."""

    source: str
    frequency: float  # [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepChange(Change):
    """The change at one speed along one line, and how loud both were."""

    speed: float  # [m/s]
    direction_deg: float
    before: float  # mean square in the recording's unit, the room's taken off where it can be
    after: float
    by_lines: bool  # told by the lines that stand out of the room, not by all that is recorded
    beats: bool  # two motors turn at one speed: the band holds that they add up or cancel
    tones: tuple[ToneChange, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BandChange(Change):
    """The change in one third octave, all steps together."""

    centre: float  # nominal [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """All that two recordings tell."""

    whole: Change  # of all steps added up
    steps: tuple[StepChange, ...]
    bands: tuple[BandChange, ...]
    lost: int  # steps that are not in both
    floor: float  # the room's level after less that before [dB]
    automatic: tuple[bool, bool]  # gain suspected before, after
    by_room: bool  # told against the room's noise, as gain moved


Told = tuple[Mean, Mean | None]
"""What was recorded, and the room."""


class _Step(NamedTuple):
    step: StepChange
    before: Told
    after: Told


def changes(
    before: Take,
    after: Take,
    tones: dict[Key, tuple[Tone, ...]] | None = None,
    beats: frozenset[Key] = frozenset(),
) -> Changes:
    """Return how much louder each step and each third octave is after than before.

    `tones` are those to look for in each step, `beats` the steps in which two motors turn at one
    speed. Raises ValueError where no step is in both.
    """
    gains = before.gain(), after.gain()
    by_room = any(each.automatic for each in gains)
    one, other = (
        Energies(each, gain, by_room) for each, gain in zip((before, after), gains, strict=True)
    )
    keys = [key for key in one.keys if key in other.keys]
    if not keys:
        raise ValueError("no step is in both")
    told = [_step(key, one, other, (tones or {}).get(key, ()), beats) for key in keys]
    pairs = ([each.before for each in told], [each.after for each in told])
    whole = change_of(*_sum(pairs[0]), *_sum(pairs[1]))
    own = (np.array([float(above_room(*each)) for each in pair]) for pair in pairs)
    phases = Beats(keys, beats)
    return Changes(
        whole=phases.widened(whole, *own),
        steps=tuple(each.step for each in told),
        bands=_bands(one, other, keys, phases),
        lost=len(before.planned | after.planned) - len(keys),
        floor=decibel(other.floor / one.floor) if one.floor > 0.0 else 0.0,
        automatic=(gains[0].automatic, gains[1].automatic),
        by_room=by_room,
    )


def _step(
    key: Key, one: Energies, other: Energies, tones: Sequence[Tone], beats: frozenset[Key]
) -> _Step:
    """Return the change of one step, by the lines that stand out of the room in one of both.

    Where none do, by all that is recorded.
    """
    spans = joined([*one.standing_out(key), *other.standing_out(key)])
    before, after = (
        taken.of(key, LinesCut(taken.own, spans) if spans else Cut(taken.own))
        for taken in (one, other)
    )
    alone, one_step = Beats([key], beats), np.ones(1)
    told = alone.widened(change_of(*before, *after), one_step, one_step)
    step = StepChange(
        change=told.change,
        near_room=told.near_room,
        speed=key[0],
        direction_deg=key[1],
        before=float(above_room(*before)),
        after=float(above_room(*after)),
        by_lines=bool(spans),
        beats=alone.any,
        tones=_tones(key, one, other, tones, alone),
    )
    return _Step(step, before, after)


def joined(spans: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return spans as those that do not overlap.

    >>> joined([(5.0, 7.0), (1.0, 2.0), (6.0, 9.0)])
    [(1.0, 2.0), (5.0, 9.0)]
    """
    found: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def _tones(
    key: Key, one: Energies, other: Energies, tones: Sequence[Tone], phases: Beats
) -> tuple[ToneChange, ...]:
    """Return the changes of the tones that stand out in one of the recordings at least."""
    if not tones:
        return ()
    wide = REACH * max(taken.keys[key][0].found.step for taken in (one, other))
    at = np.array([tone.frequency for tone in tones])
    bands = tuple((at + low * wide, at + high * wide) for low, high in ((-1, 1), (-4, -2), (2, 4)))
    found = []
    for taken in (one, other):
        own, below, above = (taken.of(key, Cut(taken.own, band)) for band in bands)
        # as wide as the tone's own band
        beside = 0.5 * (below[0].value + above[0].value)
        found.append((*own, own[0].value > STANDS_OUT * beside))
    told = []
    for number, tone in enumerate(tones):
        if not any(bool(stands[number]) for _, _, stands in found):
            continue
        (before, quiet, _), (after, later, _) = found
        made = change_of(*(_one(mean, number) for mean in (before, quiet, after, later)))
        made = phases.widened(made, np.ones(1), np.ones(1))
        told.append(
            ToneChange(
                change=made.change,
                near_room=made.near_room,
                source=tone.source,
                frequency=tone.frequency,
            )
        )
    return tuple(told)


def _bands(
    one: Energies, other: Energies, keys: Sequence[Key], phases: Beats
) -> tuple[BandChange, ...]:
    """Return the changes of third octaves, the energies of all steps added up."""
    steps = [each for key in keys for taken in (one, other) for each in taken.keys[key]]
    low, high = one.own.band
    middle = centres(low, high)
    bottom, top = edges(middle)
    middle = middle[top - bottom >= LEAST_LINES * max(each.found.step for each in steps)]
    if not len(middle):
        return ()
    cuts = edges(middle)
    pairs = [[taken.of(key, Cut(taken.own, cuts)) for key in keys] for taken in (one, other)]
    before, after = (_sum(pair) for pair in pairs)
    own = [np.array([above_room(*each) for each in pair]) for pair in pairs]  # (k, b) each
    told = []
    for number, centre in enumerate(middle):
        made = change_of(*(_one(mean, number) for mean in (*before, *after)))
        made = phases.widened(made, *(each[:, number] for each in own))
        told.append(
            BandChange(change=made.change, near_room=made.near_room, centre=nominal(float(centre)))
        )
    return tuple(told)


def _sum(each: Sequence[Told]) -> Told:
    """Return the sums of steps and of the room, which is one estimate for all of them."""
    return added([step for step, _ in each]), repeated([room for _, room in each])


def _one(mean: Mean | None, number: int) -> Mean | None:
    """Return one of several means."""
    if mean is None:
        return None
    return Mean(mean.value[number], mean.error[number], mean.freedom)
