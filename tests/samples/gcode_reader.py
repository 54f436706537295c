"""An interpreter of G-code of its own: where the tool is when, in small steps of time."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

STEP = 1e-3


@dataclass
class Followed:
    """A file followed from homing on; time is that of the file, from the first dwell on."""

    time: NDArray[np.float64]  # (n,) [s]
    place: NDArray[np.float64]  # (n, 3) [mm]
    words: set[str]
    feeds: list[float]  # [mm/s] of moves in the plane

    @property
    def speed(self) -> NDArray[np.float64]:
        """Return the speed [mm/s] over the bed at `time`."""
        moved = np.gradient(self.place[:, :2], self.time, axis=0)
        return np.asarray(np.hypot(*moved.T))


def follow(text: str, acceleration: float, home: tuple[float, float, float]) -> Followed:
    """Follow a file, [mm, s]; every move begins and ends at rest."""
    at, feed = np.array(home, dtype=float), 0.0
    clock: float | None = None
    times: list[NDArray[np.floating[Any]]] = []
    places: list[NDArray[np.float64]] = []
    words: set[str] = set()
    feeds: list[float] = []
    absolute = metric = False
    for line in text.splitlines():
        code = line.split(";")[0].strip()
        if not code:
            continue
        name, *rest = code.split()
        words.add(name)
        said = {each[0]: float(each[1:]) for each in rest}
        assert re.fullmatch(r"[GM]\d+", name), line
        absolute, metric = absolute or name == "G90", metric or name == "G21"
        if name == "G4":
            clock = 0.0 if clock is None else clock
            count = round(said["P"] / 1e3 / STEP)
            times.append(clock + np.arange(count) * STEP)
            places.append(np.repeat(at[None], count, axis=0))
            clock += said["P"] / 1e3
        if name not in ("G0", "G1"):
            continue
        assert absolute, "a move before G90"
        assert metric, "a move before G21"
        feed = said.pop("F", feed) / (60.0 if "F" in code else 1.0)
        to = np.array([said.get(axis, old) for axis, old in zip("XYZ", at, strict=True)])
        length = float(np.linalg.norm(to - at))
        if "X" in said:
            feeds.append(feed)
        way, long = _ramped(length, feed, acceleration)
        if clock is None:
            assert to[2] >= at[2], "down before time begins"
        else:
            at_times = np.arange(0.0, long, STEP)
            times.append(clock + at_times)
            places.append(at + np.outer(way(at_times) / max(length, 1e-12), to - at))
            clock += long
        at = to
    assert clock is not None
    even = np.arange(0.0, clock, STEP)
    found, placed = np.concatenate(times), np.concatenate(places)
    place = np.column_stack([np.interp(even, found, each) for each in placed.T])
    return Followed(even, place, words, feeds)


Way = Callable[[NDArray[np.float64]], NDArray[np.float64]]


def _ramped(length: float, feed: float, acceleration: float) -> tuple[Way, float]:
    """Return the way over time of a move from rest to rest, and its time, by stepping speed."""
    ramp = min(feed / acceleration, np.sqrt(length / acceleration))
    top = acceleration * ramp
    cruise = (length - top * ramp) / top if top else 0.0
    long = 2.0 * ramp + cruise

    def way(time: NDArray[np.float64]) -> NDArray[np.float64]:
        up = np.minimum(time, ramp)
        down = np.maximum(time - ramp - cruise, 0.0)
        flat = np.clip(time - ramp, 0.0, cruise)
        gone = acceleration * up**2 / 2.0 + top * flat + top * down - acceleration * down**2 / 2.0
        return np.asarray(gone)

    return way, long
