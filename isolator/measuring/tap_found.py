"""All that recordings of taps told."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.measuring.tap_windows import Taps
from isolator.measuring.tapped import Tapped
from isolator.recordings.recording import Recording

DESK, HARD, FEET = "desk", "hard", "feet"
"""What was tapped: the desk alone; the printer on a hard floor, without feet; the printer on its
feet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TapFound:
    """What recordings of taps told, and of what they are."""

    of: str  # DESK, HARD or FEET
    names: tuple[str, ...]  # of the files
    recordings: tuple[Recording, ...]
    taps: tuple[Taps, ...]  # of each recording
    tapped: Tapped
    highest: float  # frequency that was looked for [Hz]
    clock_ratio: float | None  # of the first recording, where a known tone told it
