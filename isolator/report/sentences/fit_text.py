"""What `isolator fit` tells: how to measure the coupon, what readings mean."""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Mapping
from pathlib import Path

from isolator.brief import Print
from isolator.brief.fit import MOST_CHAMFER, NEAR, SWAPPED, Fit, Offset
from isolator.design.attachment import HEX_FIT
from isolator.design.coupon import BY_LETTER, FEATURES, HOLE
from isolator.reading.units import format_quantity

SCATTER = 0.1e-3
"""Holes that scatter by more are told to be measured again [m]."""
TIGHT, LOOSE = 0.05e-3, 0.4e-3
"""Play of a nut in its hexagon below which it jams, above which it may turn [m]; common practice,
no source."""


def coupon_text(path: Path, filament: str) -> list[str]:
    """Return the lines that go with the coupon: letters, sizes, how to measure, what to type."""
    rows = [
        f"{each.letter}  {each.what:<20}  {_mm(each.nominal):>6}  {each.how}" for each in FEATURES
    ]
    return [
        f"Print the coupon as it lies, in {filament}, with the settings of your parts of it:",
        "filaments shrink and spread unlike each other, so each has a coupon of its own;",
        "let it cool, pull off strings, and measure with callipers, from above:",
        "",
        *rows,
        "",
        "Broad jaws read a small hole low: the shank of the largest drill that goes in tells it",
        "as well. Any of them will do, one hole at least; then type what you read, as in",
        "",
        f"  isolator fit {shlex.quote(str(path))} A=3.21mm B=4.33mm K=35.04mm L=35.38mm "
        f"--filament {filament}",
    ]


def taken_text(readings: Mapping[str, float], fit: Fit, own: Print) -> list[str]:
    """Return what was read and what follows from it, line by line; `own` is how parts print now."""
    rows = [
        f"{letter}  {feature.what:<20}  {_mm(feature.nominal):>6}  {_mm(readings[letter]):>8}  "
        f"{(readings[letter] - feature.nominal) * 1e3:+.2f} mm"
        for letter, feature in BY_LETTER.items()
        if letter in readings
    ]
    return [*rows, "", *_follows(fit, own)]


def _follows(fit: Fit, own: Print) -> Iterator[str]:
    if fit.holes is not None:
        yield (
            f"holes come out {_off(fit.holes, 'small', 'large')}: "
            f"hole_compensation = {_mm(own.hole_compensation)}"
        )
    if fit.hexagons is not None:
        yield (
            f"hexagons come out {_off(fit.hexagons, 'small', 'large')}: "
            f"a nut gets {_mm(nut_play(fit.hexagons, own))} of play"
        )
    if fit.pegs is not None:
        yield f"pegs come out {_off(fit.pegs, 'large', 'small')}: no setting follows from it"
    if fit.width is not None:
        way = "long" if fit.width >= 0 else "short"
        yield f"the bar comes out {_mm(abs(fit.width))} {way}: no setting follows from it"
    if fit.spread is not None and fit.first_layer_chamfer(own.layer) is not None:
        yield (
            f"the first layer spreads by {_mm(fit.spread)} on every side: "
            f"first_layer_chamfer = {_mm(own.first_layer_chamfer)}"
        )


def doubts(readings: Mapping[str, float], fit: Fit, own: Print) -> list[str]:
    """Return what looks wrong with readings, one line each."""
    return [*_hole_doubts(readings, fit), *_nut_doubts(fit, own), *_spread_doubts(fit)]


def nut_play(hexagons: Offset, own: Print) -> float:
    """Return the play across flats that a nut of greatest size gets in a drawn hexagon [m]."""
    return HEX_FIT + own.hole_compensation - hexagons.mean


def _hole_doubts(readings: Mapping[str, float], fit: Fit) -> Iterator[str]:
    if fit.holes is None:
        return
    for letter in fit.holes.left_out:
        off = abs(BY_LETTER[letter].nominal - readings[letter] - fit.holes.mean)
        yield (
            f"{letter} is {_mm(off)} away from what the other holes tell, and is left out; "
            "measure it again"
        )
    holes = [each for each in FEATURES if each.kind == HOLE and each.letter in readings]
    if len(holes) == 2:
        first, second = holes
        apart = abs(
            (first.nominal - readings[first.letter]) - (second.nominal - readings[second.letter])
        )
        if apart > NEAR:
            yield (
                f"{first.letter} and {second.letter} disagree by {_mm(apart)}, and nobody knows "
                "which is wrong; measure a third hole"
            )
    elif fit.holes.scatter is not None and fit.holes.scatter > SCATTER:
        yield f"the holes scatter by {_mm(fit.holes.scatter)}; clean them and measure again"
    if fit.holes.mean < 0:
        yield "holes come out large, and nothing is taken from them; lower the flow in your slicer"


def _nut_doubts(fit: Fit, own: Print) -> Iterator[str]:
    if fit.hexagons is None:
        return
    play = nut_play(fit.hexagons, own)
    if play < TIGHT:
        yield f"a nut gets {_mm(play)} of play and will jam; press it in warm"
    elif play > LOOSE:
        yield f"a nut gets {_mm(play)} of play and may turn; fix it with a drop of glue"


def _spread_doubts(fit: Fit) -> Iterator[str]:
    if fit.spread is None:
        return
    if fit.spread < SWAPPED - 1e-9:
        yield "L is smaller than K, which no first layer does; are they swapped? Both are left out"
    if fit.spread > MOST_CHAMFER:
        yield (
            f"a spread of {_mm(fit.spread)} is more than a chamfer takes back; "
            "set the nozzle higher over the bed"
        )


def _off(offset: Offset, over: str, under: str) -> str:
    scatter = "" if offset.scatter is None else f" (± {_mm(offset.scatter)})"
    return f"{_mm(abs(offset.mean))} {over if offset.mean >= 0 else under}{scatter}"


def _mm(length: float) -> str:
    return format_quantity(round(length, 5) + 0.0, "mm")
