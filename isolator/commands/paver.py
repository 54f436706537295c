"""A paver under the printer: its keys of the brief, and the best feet under it."""

from __future__ import annotations

import contextlib
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from isolator.brief import Brief
from isolator.brief.slab import DENSITY
from isolator.cards import Material
from isolator.commands.alternatives import described
from isolator.commands.search import best_feet, offered_feet
from isolator.commands.trial import Search, candidate_stand, failing, place_of
from isolator.design import Foot
from isolator.design.axes import Triple
from isolator.feet.checks import QUIETER
from isolator.feet.kinds import KEEP, SLAB
from isolator.feet.listening import MANY, listening_grid
from isolator.feet.task import build_feet_task
from isolator.reading.changes import Change
from isolator.reading.faults import InputError
from isolator.reading.units import format_quantity
from isolator.report.findings import Alternative, Paver
from isolator.vibration.band import Band
from isolator.vibration.compared import least_gain, quick_comparison
from isolator.vibration.installation import build_installation
from isolator.vibration.stand import build_now_stand, feet_stand
from isolator.vibration.verdict import verdict

THICKNESS = 0.04
"""Of a usual garden paver [m]; common practice, no source."""
WHOLE = 0.01
"""To which its sides are rounded up from the printer's footprint [m]."""
HEAVIEST = 60.0
"""Nothing heavier is proposed on a desk [kg]; as much as `slab.mass` usually is."""
ASKED = "a concrete paver as large as the printer, as --pick slab asks"

Reread = Callable[[Sequence[Change]], Brief]
"""Reads the same brief again with changes beside those that it was read with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderPaver:
    """The best feet under a paver, and what they gain over those without one."""

    told: Alternative
    failing: tuple[str, ...]  # checks that bind and do not hold
    change: tuple[Band, ...]  # at each speed, against the feet chosen without it [dB(A)]


def paver_of(footprint: Sequence[float], thickness: float = THICKNESS) -> Paver | None:
    """Return a paver for a printer of outside (width, depth, …) [m], None where it is too heavy."""
    width, depth = (math.ceil(side / WHOLE - 1e-9) * WHOLE for side in footprint[:2])
    size: Triple = (round(width, 9), round(depth, 9), thickness)
    mass = float(f"{DENSITY * math.prod(size):.3g}")
    return None if mass > HEAVIEST else Paver(size=size, mass=mass)


def paver_keys(paver: Paver, why: str = ASKED) -> tuple[Change, ...]:
    """Return a paver as the keys of a brief that tell it."""
    size = [format_quantity(side, "mm") for side in paver.size]
    return (
        Change(key="slab.size", value=size, why=f"{' x '.join(size)}: {why}"),
        Change(
            key="slab.mass",
            value=format_quantity(paver.mass, "kg"),
            why=f"{format_quantity(paver.mass, 'kg')}, of concrete; weigh it",
        ),
    )


def is_poor(failed: Sequence[str], heard: Sequence[Band]) -> bool:
    """Return whether feet leave something to wish: a check fails, or a speed is not quiet."""
    return bool(failed) or any(verdict(change) != "quiet" for change in heard)


def with_paver(brief: Brief, reread: Reread | None) -> Brief | None:
    """Return a brief without a slab with a paver under its printer; None where none can be."""
    paver = None if brief.slab is not None else paver_of(brief.printer.size)
    if reread is None or paver is None:
        return None
    with contextlib.suppress(InputError):  # such as feet told beside it
        return reread(paver_keys(paver))
    return None


def under_paver(
    brief: Brief, cards: dict[str, Material], wanted: str, without: tuple[Foot, ...]
) -> UnderPaver | None:
    """Return the best feet under the slab of a brief, None where its stock has none.

    `wanted` is the only kind of feet to look for, if one is. `without` are the feet that were
    chosen without a slab; empty: what stands there now.
    """
    assert brief.slab is not None
    prefer = "" if wanted == KEEP else wanted
    task, installation = build_feet_task(brief), build_installation(brief, cards)
    try:
        offered = offered_feet(task, cards, brief.source_file, prefer)
    except InputError:
        return None
    baseline = build_now_stand(brief, cards) or installation.bumpers
    search = Search(
        task=task, installation=installation, offered=offered, baseline=baseline, prefer=prefer
    )
    found = best_feet(search, lambda what, done, total: None)
    choice, limits = found.choice, installation.limits
    stand = candidate_stand(search, found.screened, choice.index)
    grid = listening_grid(installation.excitation, MANY)
    heard = quick_comparison(installation, baseline, grid)(stand)
    change = tuple(each.desk for each in heard)
    if without:
        bare = replace(brief, slab=None)
        there = feet_stand(brief.room, without, cards[without[0].pad.material])
        there = replace(there, printer=build_installation(bare, cards).printer)
        change = tuple(each.desk for each in quick_comparison(installation, there, grid)(stand))
    loud = heard and least_gain(heard) < limits.least_gain_db
    batch, row = place_of(search, found.screened, choice.index)
    why = ("with a paver under the printer", limits.sway)
    told = described(batch, row, why, heard, choice.held.sway.worst)
    return UnderPaver(
        told=replace(told, kind=SLAB, paver=Paver(size=brief.slab.size, mass=brief.slab.mass)),
        failing=(*failing(choice.checks), *((QUIETER,) if loud else ())),
        change=change,
    )


def also(paver: Callable[[], UnderPaver | None] | None) -> tuple[Alternative, ...]:
    """Return feet under a paver as one of the answers, once they are worked out.

    None where any check fails; a speed that may be louder is told with all others.
    """
    found = None if paver is None else paver()
    return () if found is None or set(found.failing) - {QUIETER} else (found.told,)
