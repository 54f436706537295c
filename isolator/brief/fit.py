"""Reading [fit], what was measured on the fit coupon, and what follows from it for printing.

Holes come out small, hexagons too, pegs large, and the first layer spreads: each by about as much
whatever its size (common practice, no source). So one figure is taken of each, the mean, which is
the least-squares offset; a reading far from the others is left out of it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from statistics import fmean, median, stdev
from typing import Any

from isolator.design.coupon import ABSURD, BED_WIDTH, BY_LETTER, FEATURES, HEXAGON, HOLE, PEG, WIDTH
from isolator.design.filaments import FILAMENTS, RIGID_MEANINGS
from isolator.reading.files import parse_toml
from isolator.reading.keys import Key, maybe
from isolator.reading.notes import Notes, note_unknown, shown
from isolator.reading.number_keys import quantity
from isolator.reading.table import Table, Within
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice

NORMAL = 1.4826
"""Standard deviation over median deviation of a normal distribution."""
FAR = 3.0 * NORMAL
"""In median deviations from the median: what is further off is taken for a slip."""
NEAR = 0.15e-3
"""No reading nearer to the median than this is left out [m]: holes of unequal size differ by it."""
STEP_DIGITS = 5
"""Figures are kept to 0.01 mm, what callipers tell."""
LEAST_SPREAD = 0.02e-3
"""A first layer wider by less is not told from a straight edge with callipers [m]."""
SWAPPED = -0.05e-3
"""A first layer that seems narrower by more is no fact but two letters swapped [m]."""
MOST_CHAMFER = 0.8e-3
"""No larger chamfer is taken: thin plates would lose their edge [m]."""
WHY = "from your fit coupon"

Readings = Mapping[str, float]
"""Lengths [m] by the coupon's letters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offset:
    """What features of one kind are off by [m]: the mean, and the standard deviation about it.

    `scatter` is None for a single reading; `left_out` names letters that are not in the mean.
    """

    mean: float
    scatter: float | None
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """What readings tell [m]; None where nothing of the kind was measured.

    `holes`, `hexagons`: nominal minus measured; `pegs`, `width`: measured minus nominal; `spread`:
    of the first layer on every side.
    """

    holes: Offset | None
    hexagons: Offset | None
    pegs: Offset | None
    width: float | None
    spread: float | None

    @property
    def hole_compensation(self) -> float | None:
        """Return what is to be added to every hole's diameter [m], never below nothing."""
        return None if self.holes is None else max(0.0, round(self.holes.mean, STEP_DIGITS)) + 0.0

    def first_layer_chamfer(self, layer: float) -> float | None:
        """Return the chamfer at 45 degrees that takes the first layer's spread back [m].

        The first layer is cut from the part at half of its height, `layer` [m], where the chamfer
        has drawn it in by that much less than at the bed. None where nothing sensible was read.
        """
        if self.spread is None or self.spread < SWAPPED - 1e-9:
            return None
        if self.spread < LEAST_SPREAD - 1e-9:
            return 0.0
        return min(MOST_CHAMFER, round(self.spread + layer / 2.0, STEP_DIGITS))


class ReadingsTable(Table):
    """A key for every letter of the coupon."""

    locals().update(
        {
            letter: maybe(quantity("m", example="3.21 mm" if letter == "A" else None))
            for letter in BY_LETTER
        }
    )

    @cached_property
    def readings(self) -> dict[str, float]:
        """Return the readings by letter [m], those at fault left out."""
        found: dict[str, float] = {}
        for letter in BY_LETTER:
            value: float | None = getattr(self, letter)
            if value is None or math.isnan(value):
                continue
            wrong = absurd(letter, value)
            if wrong is not None:
                self.fault(letter, *wrong)
            else:
                found[letter] = value
        return found


class FilamentReadingsTable(ReadingsTable):
    """[fit.asa] and so on: the coupon printed in another filament."""

    @classmethod
    def declared(cls) -> dict[str, Key[Any] | Within[Any]]:
        """Return the letters."""
        return ReadingsTable.declared()


class FitTable(ReadingsTable):
    """[fit]: readings of the coupon in one filament, and a table inside for every further one."""

    filament = maybe(
        choice(
            tuple(FILAMENTS),
            meanings=RIGID_MEANINGS,
            example="petg",
            comment="that the coupon was printed in; others go into\n"
            "tables of their own, such as [fit.asa]",
        )
    )

    @classmethod
    def declared(cls) -> dict[str, Key[Any] | Within[Any]]:
        """Return the filament and the letters."""
        return {"filament": cls.filament, **ReadingsTable.declared()}

    @cached_property
    def measured(self) -> dict[str, dict[str, float]]:
        """Return the readings [m] by filament and letter; "" where a filament is not told."""
        found = {}
        if self.readings:
            found[self.filament or ""] = self.readings
        for family in FILAMENTS:
            raw = self.raw(family)
            if raw is None:
                continue
            if not isinstance(raw, dict):
                self.fault(family, shown(raw), "a table", f"write it under [fit.{family}]")
                continue
            inner = FilamentReadingsTable(self.notes, self.path(family), raw, self)
            found[family] = {**found.get(family, {}), **inner.readings}
            inner.done()
        self.done()
        return found

    def done(self) -> None:
        """Note every key that is neither declared nor a filament."""
        known = (*self.declared(), *FILAMENTS)
        note_unknown(self.notes, self.where, [key for key in self._raw if key not in known], known)

    def of(self, filament: str, usual: str) -> Fit:
        """Return what readings in one filament tell; those of no told filament are of `usual`."""
        return fit_of(of_filament(self.measured, filament, usual))


def of_filament(
    measured: Mapping[str, Mapping[str, float]], filament: str, usual: str
) -> dict[str, float]:
    """Return the readings [m] in one filament; those of no told filament are of `usual`."""
    untold = measured.get("", {}) if filament == usual else {}
    return {**untold, **measured.get(filament, {})}


def stored_readings(text: str) -> dict[str, dict[str, float]]:
    """Return the readings [m] by filament and letter in the text of a brief without fault."""
    return FitTable(Notes(""), "fit", parse_toml(text).get("fit", {})).measured


def absurd(letter: str, value: float) -> tuple[str, str, str] | None:
    """Return what a fault says of a reading [m] that is none of this feature, None if it may be."""
    nominal = BY_LETTER[letter].nominal
    if abs(value - nominal) <= ABSURD + 1e-9:
        return None
    return (
        format_quantity(value, "mm"),
        f"a reading within {format_quantity(ABSURD, 'mm')} of {format_quantity(nominal, 'mm')}",
        "measure it again, or check the letter and the unit",
    )


def fit_of(readings: Readings) -> Fit:
    """Return what readings [m] of the coupon tell."""
    above, below = (_one(readings, kind) for kind in (WIDTH, BED_WIDTH))
    return Fit(
        holes=_offset(readings, HOLE, -1.0),
        hexagons=_offset(readings, HEXAGON, -1.0),
        pegs=_offset(readings, PEG, 1.0),
        width=above,
        spread=None if above is None or below is None else (below - above) / 2.0,
    )


def _one(readings: Readings, kind: str) -> float | None:
    """Return by how much the one feature of a kind is too large [m]."""
    letter = next(each.letter for each in FEATURES if each.kind == kind)
    return readings[letter] - BY_LETTER[letter].nominal if letter in readings else None


def _offset(readings: Readings, kind: str, sign: float) -> Offset | None:
    off = {
        each.letter: sign * (readings[each.letter] - each.nominal)
        for each in FEATURES
        if each.kind == kind and each.letter in readings
    }
    if not off:
        return None
    left_out = _far_off(off)
    kept = [value for letter, value in off.items() if letter not in left_out]
    return Offset(
        mean=fmean(kept), scatter=stdev(kept) if len(kept) > 1 else None, left_out=left_out
    )


def _far_off(off: Mapping[str, float]) -> tuple[str, ...]:
    """Return the letters of values far from the median; of two nobody knows which is wrong."""
    if len(off) < 3:
        return ()
    middle = median(off.values())
    apart = {letter: abs(value - middle) for letter, value in off.items()}
    limit = max(NEAR, FAR * median(apart.values()))
    return tuple(letter for letter, value in apart.items() if value > limit + 1e-9)


def letters(kinds: Sequence[str]) -> str:
    """Return the letters of some kinds as a message lists them: "A, B and C"."""
    found = [each.letter for each in FEATURES if each.kind in kinds]
    return f"{', '.join(found[:-1])} and {found[-1]}" if len(found) > 1 else found[0]
