"""The change from one mean energy to another in decibels, the room's taken off, with its band."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.measuring.chance import student
from isolator.physics.arrays import Array
from isolator.physics.signals.pieces import Mean
from isolator.vibration.band import Band

NEAR = 2.0
"""What is no more than twice the room's energy, 3 dB, is not told apart from it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """How much louder something is than before [dB]; ends that nothing holds are infinite."""

    change: Band
    near_room: bool  # in one of the recordings it is within 3 dB of the room


def change_of(
    before: Mean | None, before_room: Mean | None, after: Mean | None, after_room: Mean | None
) -> Change:
    """Return a change with the ends between which nine of ten lie.

    The room's energy is taken off. Where that leaves less than half, the nominal change is that of
    both as recorded, and an end is open where nothing may be left.
    """
    assert before is not None
    assert after is not None
    parts = [_less(before, before_room), _less(after, after_room)]
    near = any(each.near for each in parts)
    b, a = parts
    if near:
        nominal_db = decibel(float(after.value / before.value))
        low = decibel(a.low / b.high) if b.high > 0.0 else -math.inf
        high = decibel(a.high / b.low) if b.low > 0.0 else math.inf
        band = Band(low=min(low, nominal_db), nominal=nominal_db, high=max(high, nominal_db))
        return Change(change=band, near_room=True)
    nominal_db = decibel(a.value / b.value)
    relative = [each.error / each.value for each in parts]
    spread = math.hypot(*relative)
    freedom = spread**4 / sum(r**4 / each.freedom for r, each in zip(relative, parts, strict=True))
    half = 10.0 / math.log(10.0) * student(freedom) * spread
    return Change(
        change=Band(low=nominal_db - half, nominal=nominal_db, high=nominal_db + half),
        near_room=False,
    )


@dataclass(frozen=True, slots=True)
class _Less:
    """An energy less the room's."""

    value: float
    error: float
    freedom: float
    near: bool
    low: float  # of what may be the printer's, zero or more
    high: float


def _less(found: Mean, room: Mean | None) -> _Less:
    value, error = float(found.value), max(float(found.error), 1e-12 * float(found.value))
    freedom = max(found.freedom, 1.0)
    if room is None:
        half = student(freedom) * error
        return _Less(value, error, freedom, False, max(value - half, 0.0), value + half)
    quiet, unsure = float(room.value), float(room.error)
    left, whole = value - quiet, math.hypot(error, unsure)
    # both estimates' degrees of freedom (Welch-Satterthwaite)
    freedom = whole**4 / (error**4 / freedom + unsure**4 / max(room.freedom, 1.0))
    half = student(freedom) * whole
    return _Less(
        left, whole, freedom, value < NEAR * quiet, max(left - half, 0.0), max(left + half, 0.0)
    )


def decibel(ratio: float) -> float:
    """Return a ratio of energies in decibels."""
    return 10.0 * math.log10(ratio) if ratio > 0.0 else -math.inf


def above_room(found: Mean, room: Mean | None) -> Array:
    """Return energies (...) less the room's, as recorded where that would leave less than half."""
    if room is None:
        return found.value
    near = found.value <= NEAR * room.value
    return np.asarray(np.where(near, found.value, found.value - room.value))


def added(means: Sequence[Mean]) -> Mean:
    """Return the sum of independent means."""
    error = np.sqrt(sum(each.error**2 for each in means))
    value = np.asarray(sum(each.value for each in means))
    return Mean(value, np.asarray(error), sum(each.freedom for each in means))


def repeated(rooms: Sequence[Mean | None]) -> Mean | None:
    """Return the sum of what one estimate tells of several steps; None where it is not known.

    Its error is in all of them alike: the errors add up, and no degree of freedom is won.
    """
    known = [each for each in rooms if each is not None]
    if len(known) < len(rooms):
        return None
    value, error = (np.asarray(sum(each[at] for each in known)) for at in (0, 1))
    return Mean(value, error, min(each.freedom for each in known))
