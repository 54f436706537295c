"""What a squash test has found, as it is told."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from isolator.cards import Material
from isolator.measuring.squash_doubts import Doubt
from isolator.measuring.squash_fit import Fit
from isolator.measuring.squash_runs import Runs
from isolator.recordings.specimen import Specimen
from isolator.recordings.squash_file import Readings
from isolator.vibration.band import Band, Check


@dataclass(frozen=True, slots=True, kw_only=True)
class OnCard:
    """Feet on one card."""

    material: str  # the card's id
    bounce: Band  # [Hz]
    strain: float  # the largest of a pad [-]
    sway: float  # at worst at the tool's height [m]
    heard: tuple[Band, ...]  # at each speed [dB(A)]; minus is quieter than before
    checks: tuple[Check, ...]  # that feet have to pass, those that bind


@dataclass(frozen=True, slots=True, kw_only=True)
class FeetChange:
    """Designed feet on the card that they were designed with, and on one's own."""

    file: str
    speeds: tuple[float, ...]  # [m/s]
    before: OnCard
    after: OnCard


@dataclass(frozen=True, slots=True, kw_only=True)
class Squashed:
    """All that one squash test tells."""

    specimen: Specimen
    readings: Readings
    runs: Runs
    fit: Fit
    base: Material  # that lends what the test does not tell
    card: Material
    doubts: tuple[Doubt, ...]
    file: Path  # of the card
    plot: Path
    feet: FeetChange | None
