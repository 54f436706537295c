"""All that recordings of taps told."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.measuring.folds import Fold
from isolator.measuring.tap_frame import HARD_NAMES, hard_modes
from isolator.measuring.tap_match import Matched
from isolator.measuring.tap_windows import Taps
from isolator.measuring.tapped import Tapped
from isolator.recordings.recording import Recording
from isolator.vibration.band import Band

DESK, HARD, FEET = "desk", "hard", "feet"
"""What was tapped: the desk alone; the printer on a hard floor, without feet; the printer on its
feet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TappedFoot:
    """A foot as it acts by the taps."""

    position: tuple[float, float, float]  # [m]
    stiffness: tuple[Band, Band, Band]  # along x, y, z [N/m]
    angular: tuple[Band, Band, Band]  # [N·m/rad]
    loss_factor: Band
    loss_tapped: bool = True  # False: it is the model's, no tap tells of it


@dataclass(frozen=True, slots=True, kw_only=True)
class Corrected:
    """What taps change of a brief."""

    feet_of: str  # which feet they were
    matched: Matched | None
    feet: tuple[TappedFoot, ...]
    frame: tuple[Band, ...]  # along x, y and in twist [Hz], as many as are known
    frame_damping: tuple[Band, ...]  # of the same
    follows: tuple[Band, ...] = ()  # the rest of x, y and twist, which nobody tapped [Hz]
    rigid: bool = False  # the brief takes the frame as rigid: it takes no frequencies

    @property
    def changes(self) -> bool:
        """Return whether anything in the brief changes."""
        return bool(self.feet or (self.frame and not self.rigid))


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
    corrected: Corrected | None = None  # what follows for a brief; None: none was given
    folds: tuple[Fold, ...] = ()  # tones of the motors that the first recording shows elsewhere

    @property
    def names_of_modes(self) -> tuple[tuple[str, ...], ...]:
        """Return which mode each tapped one is, or may be; none where that is not known.

        Names come from the model, matched by frequency, or from directions where it stood hard.
        """
        modes = self.tapped.modes
        told: list[tuple[str, ...]] = [()] * len(modes)
        if self.of == HARD:
            found = hard_modes(modes, self.recordings[0].channels)
            for name, mode in zip(HARD_NAMES, found, strict=False):
                told[next(n for n, each in enumerate(modes) if each is mode)] = (name,)
        elif self.corrected is not None and self.corrected.matched is not None:
            for pair in self.corrected.matched.pairs:
                told[pair.tapped] = pair.names
        return tuple(told)
