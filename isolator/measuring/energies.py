"""Energies of the steps of one recording and of its room, gain taken out where it moved."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from isolator.measuring.alignment import Aligned
from isolator.measuring.evened import Evened
from isolator.measuring.gain import Gain, gain_of
from isolator.measuring.steps import Moved, Rested, in_band, lines_of, moved, rested, room_pieces
from isolator.physics.arrays import Array
from isolator.physics.signals.pieces import Mean, Pieces, mean_of
from isolator.physics.signals.third_octaves import energy_between
from isolator.physics.sound.weighting import a_energy
from isolator.recordings.schedule import Schedule

STANDS_OUT = 4.0
"""What holds so many times the room's energy, 6 dB, stands out of it."""
BESIDE = 12
"""Lines of the spectrum either way that a line stands out of."""
SURE = 3.0
"""Errors of a mean that chance hardly reaches."""
REACH = 1.5
"""Lines of a spectrum that a tone reaches either way: a Hann window is as wide."""
Key = tuple[float, float]
"""Speed [m/s] and direction [°] of steps that are looked at together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """One recording with the moves found in it."""

    evened: Evened
    aligned: Aligned
    steps: list[Moved]
    rests: list[Rested]
    band: tuple[float, float]  # looked at [Hz]
    ear: bool  # A-weighted
    planned: frozenset[Key]  # steps of the schedule, recorded or not

    def weight(self, found: Pieces) -> Array:
        """Return what each line (f,) of spectra counts, as heard or as shaken."""
        lines = lines_of(found)
        return a_energy(np.maximum(lines, 1.0)) if self.ear else np.ones(len(lines))

    def weigh(self, found: Pieces) -> Array:
        """Return the energy (p,) of pieces."""
        return in_band(found, self.band, self.weight(found))

    def gain(self) -> Gain:
        """Return what the pauses tell of the recorder's gain."""
        return gain_of(self.rests, self.evened.rate, self.weigh)

    def room(self, length: int) -> Pieces | None:
        """Return the room's spectra in pieces of `length` samples."""
        return room_pieces(self.rests, self.evened.rate, length, self.aligned.ratio)


def take(
    evened: Evened, aligned: Aligned, schedule: Schedule, band: tuple[float, float], ear: bool
) -> Take:
    """Return a recording with the moves found in it."""
    return Take(
        evened=evened,
        aligned=aligned,
        steps=moved(evened, aligned, schedule),
        rests=rested(evened, aligned, schedule),
        band=band,
        ear=ear,
        planned=frozenset((step.speed, step.direction_deg) for step in schedule.steps),
    )


class Energies:
    """Energies of the steps of one recording, by speed and direction, and of its room.

    `by_room`: each step is told against the room's level in the pause behind it, and steps without
    one are left out.
    """

    def __init__(self, own: Take, gain: Gain, by_room: bool) -> None:
        self.own, self.by_room = own, by_room
        self.gain: dict[int, tuple[float, float]] = {}
        self.keys: dict[Key, list[Moved]] = {}
        for step in own.steps:
            stopped = gain.behind(step.step) if by_room else None
            if by_room and stopped is None:
                continue
            if stopped is not None:
                self.gain[id(step)] = math.exp(-stopped.level), stopped.error
            key = (step.step.speed, step.step.direction_deg)
            self.keys.setdefault(key, []).append(step)
        self._rooms: dict[int, Pieces | None] = {}
        floor = self.room(own.steps[0].length) if own.steps else None
        self.floor = 0.0 if floor is None else float(own.weigh(floor).mean())

    def room(self, length: int) -> Pieces | None:
        """Return the room's spectra in pieces of `length` samples."""
        if length not in self._rooms:
            self._rooms[length] = self.own.room(length)
        return self._rooms[length]

    def of(self, key: Key, cut: Callable[[Pieces], Array]) -> tuple[Mean, Mean | None]:
        """Return the means of a step's energies and of the room's, as `cut` makes them."""
        steps = self.keys[key]
        found = mean_of(np.concatenate([self._told(each, cut(each.found)) for each in steps]))
        if self.by_room:
            # what is wrong with a pause's level is wrong with all of its step
            errors = [self.gain[id(each)][1] for each in steps]
            more = found.value * math.hypot(*errors) / len(errors)
            found = found._replace(error=np.hypot(found.error, more))
        quiet = self._quiet(steps[0].length, cut)
        return found, None if quiet is None or len(quiet) < 2 else mean_of(quiet)

    def standing_out(self, key: Key) -> list[tuple[float, float]]:
        """Return where [Hz] a step holds `STANDS_OUT` times the room and the lines beside.

        As far as lines reach, and by more than chance does: `SURE` errors of the mean. Of noise no
        lines are picked that happen to be loud in one recording: their change would come out wrong.
        """
        from scipy.ndimage import median_filter

        steps = self.keys[key]
        step = steps[0].found.step

        def density(found: Pieces) -> Array:
            return found.density

        quiet = self._quiet(steps[0].length, density)
        if quiet is None:
            return []
        # steps of one speed and direction have strokes of one length, but for what gaps leave
        alike = [one for one in steps if one.length == steps[0].length]
        found = mean_of(np.concatenate([self._told(one, one.found.density) for one in alike]))
        beside = median_filter(found.value, 2 * BESIDE + 1, mode="nearest")
        least = STANDS_OUT * np.maximum(quiet.mean(axis=0), beside)
        loud = found.value - SURE * found.error > least
        at = np.flatnonzero(loud) * step
        low, high = self.own.band
        return [(f - REACH * step, f + REACH * step) for f in at if low <= f <= high]

    def _told(self, step: Moved, energies: Array) -> Array:
        """Return energies of a step without the recorder's gain."""
        return energies * self.gain.get(id(step), (1.0, 0.0))[0]

    def _quiet(self, length: int, cut: Callable[[Pieces], Array]) -> Array | None:
        """Return energies (p, ...) of the room, as those of steps are told."""
        room = self.room(length)
        if room is None:
            return None
        return cut(room) / self.own.weigh(room).mean() if self.by_room else cut(room)


class Cut:
    """Makes energies of pieces: all of them weighed (p,), or bands between two edges each."""

    def __init__(self, own: Take, edges: tuple[Array, Array] | None = None) -> None:
        self.own, self.edges = own, edges

    def __call__(self, found: Pieces) -> Array:
        """Return energies (p,) of the whole band, or (p, b) between edges (b,) [Hz]."""
        if self.edges is None:
            return self.own.weigh(found)
        return energy_between(found.density, found.step, *self.edges)


class LinesCut:
    """Makes energies (p,) of pieces: what lies in spans [Hz] that do not overlap, weighed."""

    def __init__(self, own: Take, spans: Sequence[tuple[float, float]]) -> None:
        self.own = own
        self.edges = np.array([low for low, _ in spans]), np.array([high for _, high in spans])

    def __call__(self, found: Pieces) -> Array:
        """Return energies (p,)."""
        density = found.density * self.own.weight(found)
        return np.asarray(energy_between(density, found.step, *self.edges).sum(axis=1))
