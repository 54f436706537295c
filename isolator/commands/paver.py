"""A paver under the printer: its keys of the brief, and the best feet under it."""

from __future__ import annotations

import contextlib
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from isolator.brief import Brief
from isolator.brief.slab import DENSITY, OWN_INSET, USUAL_FEET
from isolator.cards import Material
from isolator.commands.alternatives import described
from isolator.commands.search import best_feet, offered_feet
from isolator.commands.trial import Search, judged, place_of
from isolator.design import Foot
from isolator.design.axes import Pair, Triple
from isolator.feet.checks import QUIETER
from isolator.feet.kinds import KEEP, SLAB
from isolator.feet.task import build_feet_task
from isolator.reading.changes import Change
from isolator.reading.faults import InputError
from isolator.reading.units import format_quantity
from isolator.report.findings import Alternative, Paver
from isolator.vibration.band import Band
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.verdict import verdict

SIDES, THICK = (0.3, 0.4, 0.5, 0.6), (0.04, 0.05)
"""Square concrete pavers that shops keep: sides and thicknesses [m]; common practice, no source."""
OVERHANG = OWN_INSET - USUAL_FEET.first / 2.0
"""By which a printer may reach beyond its paver at a side [m]: as far as its feet stand inside."""
LIGHTEST = 3
"""Lightest paver that is looked at [kg]."""
ASKED = "the smallest sold paver that carries the printer's feet, as --pick slab asks"

Reread = Callable[[Sequence[Change]], Brief]
"""Reads the same brief again with changes beside those that it was read with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnderPaver:
    """The best feet under a paver."""

    told: Alternative
    failing: tuple[str, ...]  # checks that bind and do not hold
    feet: tuple[Foot, ...]
    brief: Brief  # with the paver
    least_mass: float | None = None  # with which all checks hold on these feet [kg]
    heavier: UnderPaver | None = None  # the best feet under that, where a check fails on these


def paver_of(footprint: Sequence[float], places: Sequence[Pair] = ()) -> Paver | None:
    """Return the smallest sold paver that carries the feet of a printer of outside (width, depth,
    …) [m]; None where none does.

    It reaches to `places` (x, y) [m] of feet that go under it, as far as any does.
    """
    most = SIDES[-1]
    reach = max((2.0 * abs(at) for place in places for at in place), default=0.0)
    least = max(max(footprint[:2]) - 2.0 * OVERHANG, min(reach, most))
    side = next((side for side in SIDES if side >= least - 1e-9), None)
    if side is None:
        return None
    size: Triple = (side, side, THICK[0])
    return Paver(size=size, mass=float(f"{DENSITY * math.prod(size):.3g}"))


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


def typed_keys(paver: Paver) -> tuple[tuple[str, str], ...]:
    """Return the same keys as --set takes them."""
    size = ", ".join(f'"{1e3 * side:g} mm"' for side in paver.size)
    return (("slab.size", f"[{size}]"), ("slab.mass", f"{paver.mass:g} kg"))


def is_poor(failed: Sequence[str], heard: Sequence[Band]) -> bool:
    """Return whether feet leave something to wish: a check fails, or a speed is not quiet."""
    return bool(failed) or any(verdict(change) != "quiet" for change in heard)


def with_paver(brief: Brief, reread: Reread | None) -> Brief | None:
    """Return a brief without a slab with a paver under its printer; None where none can be."""
    if reread is None or brief.slab is not None or brief.feet.given:
        return None
    paver = paver_of(brief.printer.size, brief.feet.positions or ())
    if paver is None:
        return None
    with contextlib.suppress(InputError):  # such as feet told beside it
        return reread(paver_keys(paver))
    return None


def under_paver(
    brief: Brief,
    cards: dict[str, Material],
    wanted: str,
    weigh: bool,
    asked: tuple[float, ...] = (),
) -> UnderPaver | None:
    """Return the best feet under the slab of a brief, None where its stock has none, or where the
    printer would tip off its own feet on it.

    `wanted` is the only kind of feet to look for, if one is; `weigh` asks for the lightest slab.
    Feet are looked for at the brief's own speeds, and told at those `asked` [m/s], if there are.
    """
    try:
        return _under_paver(brief, cards, wanted, weigh, asked)
    except (InputError, ArithmeticError):
        return None


def _under_paver(
    brief: Brief,
    cards: dict[str, Material],
    wanted: str,
    weigh: bool,
    asked: tuple[float, ...],
) -> UnderPaver:
    slab = brief.slab
    assert slab is not None
    search = _search(brief, cards, "" if wanted == KEEP else wanted)
    offered = offered_feet(search.task, cards, brief.source_file, search.prefer)
    search = replace(search, offered=offered)
    found = best_feet(search, lambda what, done, total: None)
    choice, limits = found.choice, search.installation.limits
    batch, row = place_of(search, found.screened, choice.index)
    heard, failed = judged(search, choice.feet, batch.material)
    why = ("with a paver under the printer", limits.sway)
    told = described(batch, row, why, heard, choice.held.sway.worst)
    least = _lightest(brief, cards, choice.feet) if weigh else None
    heavier = None
    if failed and least is not None:
        # searched again, as it is when its keys are typed
        heavier = under_paver(thicker(brief), cards, wanted, weigh=False, asked=asked)
    if asked:
        brief = replace(brief, motion=replace(brief.motion, speeds=asked))
        heard, more = judged(_search(brief, cards), choice.feet, batch.material)
        told = described(batch, row, why, heard, choice.held.sway.worst)
        failed = tuple(dict.fromkeys((*failed, *more)))
    return UnderPaver(
        told=replace(told, kind=SLAB, paver=Paver(size=slab.size, mass=slab.mass)),
        failing=failed,
        feet=choice.feet,
        brief=brief,
        least_mass=least,
        heavier=heavier,
    )


def weighing(brief: Brief, mass: float) -> Brief:
    """Return a brief whose slab is thinner or thicker, in whole millimetres, for a `mass` [kg]."""
    slab = brief.slab
    assert slab is not None
    size = (*slab.size[:2], round(slab.size[2] * mass / slab.mass, 3))
    return replace(brief, slab=replace(slab, size=size, mass=float(mass)))


def thicker(brief: Brief) -> Brief:
    """Return a brief whose slab is as thick as sold ones are at most."""
    slab = brief.slab
    assert slab is not None
    mass = float(f"{slab.mass * THICK[-1] / slab.size[2]:.3g}")
    return replace(brief, slab=replace(slab, size=(*slab.size[:2], THICK[-1]), mass=mass))


def _search(brief: Brief, cards: dict[str, Material], prefer: str = "") -> Search:
    """Return what is searched of a brief, no candidates in it yet."""
    installation = build_installation(brief, cards)
    return Search(
        task=build_feet_task(brief),
        installation=installation,
        offered=[],
        baseline=build_now_stand(brief, cards) or installation.bumpers,
        prefer=prefer,
    )


def _lightest(brief: Brief, cards: dict[str, Material], feet: tuple[Foot, ...]) -> float | None:
    """Return the mass [kg] of the lightest slab on `feet` with which all checks hold.

    As large as the brief's, but thinner or thicker, in whole kilograms from `LIGHTEST` on. Where it
    holds as it is, lighter ones are halved down to the one that just does; where it does not, up to
    the thickest that is sold. None: no such mass.
    """
    slab = brief.slab
    assert slab is not None
    material = cards[feet[0].pad.material]

    def holds(mass: int) -> bool:
        return not judged(_search(weighing(brief, mass), cards), feet, material)[1]

    fails, passes = LIGHTEST, math.ceil(slab.mass)
    if not holds(passes):
        enough = thicker(brief).slab
        assert enough is not None
        if slab.size[2] >= THICK[-1] or not holds(math.ceil(enough.mass)):
            return None
        fails, passes = passes, math.ceil(enough.mass)
    elif holds(LIGHTEST):
        return float(LIGHTEST)
    while passes - fails > 1:
        middle = (passes + fails) // 2
        fails, passes = (fails, middle) if holds(middle) else (middle, passes)
    return float(passes)


def also(found: UnderPaver | None) -> tuple[Alternative, ...]:
    """Return feet under a paver as one of the answers.

    None where any check fails; a speed that may be louder is told with all others.
    """
    return () if found is None or set(found.failing) - {QUIETER} else (found.told,)
