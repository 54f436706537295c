"""What taps change of a brief."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from isolator.brief import Brief, read_brief
from isolator.brief.frame import RIGID
from isolator.commands.designed import design_file, designed_stand
from isolator.commands.known_cards import known_cards
from isolator.design.read import read_design
from isolator.measuring.chance import NINE_OF_TEN
from isolator.measuring.tap_found import HARD, Corrected, TapFound, TappedFoot
from isolator.measuring.tap_frame import hard_modes, held_frequencies, scaled
from isolator.measuring.tap_match import Matched, Spreads, match
from isolator.reading.faults import refused
from isolator.reading.printable import printable
from isolator.vibration.band import Band
from isolator.vibration.own_feet import build_now_stand, stood_on_slab
from isolator.vibration.printer import MassCase, build_printer
from isolator.vibration.stand import Stand, given_stand
from isolator.vibration.supports import FeetBatch

GIVEN_SPREAD = 1.3
"""Factor either way on stiffnesses that a brief gives; estimated."""
UNTOLD = Band(low=1.0, nominal=1.0, high=1.0)
"""Factor on what no tap tells of."""
FRAME_SPREAD = 1.96
"""Standard deviations that a frame's own factor either way is."""


def correct(path: Path, found: TapFound, out: Path) -> tuple[Brief, Corrected]:
    """Return the brief in `path` and what taps change of it.

    Its designed feet are looked for in `out`. Raises InputError where it tells no feet.
    """
    brief = read_brief(path)
    if found.of == HARD:
        modes = hard_modes(found.tapped.modes, found.recordings[0].channels)
        return brief, Corrected(
            feet_of="",
            matched=None,
            feet=(),
            frame=tuple(mode.frequency for mode in modes),
            frame_damping=tuple(mode.damping for mode in modes),
            rigid=brief.frame.kind == RIGID,
        )
    cards = known_cards(brief)
    stand = _stand(brief, out)
    case = (stand.printer or stood_on_slab(brief, cards, build_printer(brief))).nominal
    if case.on_slab is not None:
        raise refused(
            brief.source_file,
            "slab.between",
            "a printer on feet of its own on a slab",
            "a printer on one set of feet",
            "tap it without the slab",
        )
    feet, _ = stand.settled(case, "nominal")
    matched = match(found.tapped.modes, case, feet, _spreads(brief, stand, case))
    if matched is None:
        return brief, Corrected(
            feet_of=stand.title, matched=None, feet=(), frame=(), frame_damping=()
        )
    frame: tuple[Band, ...] = ()
    follows: tuple[Band, ...] = ()
    damping: tuple[Band, ...] = ()
    bending = build_printer(
        replace(brief, printer=replace(brief.printer, extras=()))
    ).nominal.bending
    if matched.frame is not None and bending is not None:
        told = tuple(scaled(float(hertz), matched.frame) for hertz in held_frequencies(bending))
        # x alone is not written: one frequency would stand for y as well
        count = 0 if not all(matched.bent[:2]) else 3 if matched.bent[2] else 2
        frame, follows = told[:count], told[count:]
        factor, old = matched.frame_damping or UNTOLD, brief.frame.damping
        damping = tuple(scaled(each, factor) for each in (old[:count] if len(old) > 1 else old))
    return brief, Corrected(
        feet_of=stand.title,
        matched=matched,
        feet=_feet(feet, matched),
        frame=frame,
        frame_damping=damping,
        follows=follows,
    )


def _stand(brief: Brief, out: Path) -> Stand:
    """Return the feet that were tapped: those given, those designed, else those there now."""
    if brief.feet.given:
        return given_stand(brief.feet.given)
    cards, file = known_cards(brief), design_file(brief, out)
    if file is not None:
        return designed_stand(brief, cards, read_design(file))[0]
    now = build_now_stand(brief, cards)
    if now is None:
        raise refused(
            brief.source_file,
            "feet",
            f"no feet that were tapped, and no design of this brief in {printable(str(out))}",
            "[[feet.given]], feet.design, or [feet.now]",
            "add one of them, run `isolator design` first, or let --out name the folder it is in",
        )
    return now


def _spreads(brief: Brief, stand: Stand, case: MassCase) -> Spreads:
    ends = [stand.settled(case, end)[0].linear[..., 2].sum() for end in ("soft", "stiff")]
    apart = math.log(ends[1] / ends[0]) / (2.0 * NINE_OF_TEN)
    return Spreads(
        feet=max(apart, math.log(GIVEN_SPREAD) / NINE_OF_TEN),
        frame=math.log(1.0 if brief.frame.kind == RIGID else brief.frame.spread) / FRAME_SPREAD,
    )


def _feet(feet: FeetBatch, matched: Matched) -> tuple[TappedFoot, ...]:
    """Return the feet as they act dynamically, about the middle of the frequencies tapped."""
    middle = float(np.exp(np.mean(np.log([pair.after for pair in matched.pairs]))))
    risen = float(feet.ratio[0] * (middle / feet.reference[0]) ** feet.alpha[0])
    side, up = matched.sideways, matched.upright
    lossy = matched.feet_damping
    return tuple(
        TappedFoot(
            position=_triple(feet.centres[0, n]),
            stiffness=_bands(risen * feet.linear[0, n], (side, side, up)),
            angular=_bands(risen * feet.angular[0, n], (up, up, side)),
            loss_factor=scaled(float(feet.loss[0, n]), lossy or UNTOLD),
            loss_tapped=lossy is not None,
        )
        for n in range(feet.linear.shape[1])
    )


def _bands(values: Any, by: tuple[Band, Band, Band]) -> tuple[Band, Band, Band]:
    x, y, z = (scaled(float(each), factor) for each, factor in zip(values, by, strict=True))
    return x, y, z


def _triple(values: Any) -> tuple[float, float, float]:
    x, y, z = (float(each) for each in values)
    return x, y, z
