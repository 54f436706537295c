"""What would help most where a check of the feet fails: each thing is tried, the best is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from isolator.cards import Material
from isolator.commands.paver import UnderPaver, typed_keys
from isolator.commands.search import SWAYS, FoundFeet, best_place
from isolator.commands.trial import Search, failing, fails, judged, tried
from isolator.commands.would_pass import SHARES, gentler
from isolator.feet.listening import MANY, listening_grid
from isolator.feet.ranking import EQUAL_DB
from isolator.feet.settings import KEYS
from isolator.report.findings import Paver, Remedy
from isolator.vibration.band import Band, Check, failed
from isolator.vibration.compared import quick_comparison
from isolator.vibration.heard import UNCHANGED
from isolator.vibration.installation import Installation
from isolator.vibration.results import Evaluation
from isolator.vibration.stand import Stand, feet_stand

LEAST_SHARE = 0.5
"""Of the acceleration: softer feet are not bought with less, as prints would take too long."""


def best_remedy(
    checks: tuple[Check, ...], trials: Sequence[Remedy], now: Band | None = None
) -> Remedy | None:
    """Return the best of the trials and of what the checks' own figures tell, None for none.

    What makes every check hold comes before what does not; what leaves the limits as they are
    before a wider one; then what gains most where it is heard most. What neither makes every check
    hold nor gains plainly over `now`, what is heard there of the feet that are told, is no remedy.
    None where no check fails.
    """
    if not failing(checks):
        return None
    useful = [each for each in trials if each.passes or _gains(each, now)]
    return max((*useful, *_of_figures(checks)), key=_rank, default=None)


def _rank(remedy: Remedy) -> tuple[bool, bool, float]:
    relaxed = any(key.startswith("limits.") for key, _ in remedy.keys)
    return remedy.passes, not relaxed, _gain(remedy)


def _gain(remedy: Remedy) -> float:
    return 0.0 if remedy.change is None else -remedy.change.nominal


def _gains(remedy: Remedy, now: Band | None) -> bool:
    """Return whether less is heard than `now`, in the middle of the band and at its loud end."""
    if remedy.change is None:
        return False
    before = UNCHANGED if now is None else now
    quieter = before.nominal - remedy.change.nominal >= EQUAL_DB
    return quieter and (now is None or remedy.change.high <= now.high)


def loudest(found: Evaluation) -> tuple[float | None, Band | None]:
    """Return at which of the speeds asked it is heard most against the baseline [m/s], and how
    much louder or quieter it is there [dB(A)]; None where nothing is heard."""
    heard = [
        (each.heard.desk.high, each.speed, each.heard.desk) for each in found.speeds if each.heard
    ]
    return max(heard, key=lambda each: each[:2])[1:] if heard else (None, None)


def _of_figures(checks: Sequence[Check]) -> Iterator[Remedy]:
    """Yield each value of the brief with which all checks that fail hold, on the same feet."""
    missed = failed(checks)
    for figure, setting in KEYS.items():
        values = [dict(check.figures).get(figure) for check in missed]
        told = [value for value in values if value is not None]
        if len(told) == len(missed):
            value = min(told) if setting.lower else max(told)
            keys = ((setting.name, setting.typed.format(value)),)
            yield Remedy(kind=figure, keys=keys, passes=True)


def of_paver(
    under: UnderPaver | None,
    speed: float | None,
    failed: Sequence[str],
    now: Band | None,
    file: str = "",
) -> Iterator[Remedy]:
    """Yield a paver with its pads as a design with its keys draws them, and what is heard of it at
    `speed` [m/s] against the same feet as all else.

    One as thick as usual, or where a check fails on it a heavier one on which none does. None where
    a check fails that is not among the `failed`, or where some speed may be louder than `now`.
    `file` is the brief to design from, where other feet are told.
    """
    if under is None:
        return
    heavier = under.heavier if under.failing else None
    best = under if heavier is None or heavier.failing else heavier
    slab, speeds = best.brief.slab, best.brief.motion.speeds
    assert slab is not None
    loud = max((each.high for each in best.told.heard), default=0.0)
    worse = now is not None and loud > now.high
    if best.failing and (worse or set(best.failing) - set(failed)):
        return
    paver = Paver(size=slab.size, mass=slab.mass)
    yield Remedy(
        kind="slab",
        keys=typed_keys(paver),
        passes=not best.failing,
        paver=paver,
        least_mass=None if under.failing or file else under.least_mass,
        design_from=file,
        thick=best is not under,
        speed=speed,
        change=None if speed is None else best.told.heard[speeds.index(speed)],
    )


def of_softer_feet(
    search: Search, found: FoundFeet, cards: dict[str, Material], speed: float | None
) -> Iterator[Remedy]:
    """Yield softer feet with a wider limit on sway, and the same feet with gentler moves.

    The least limit of `SWAYS` is told with which all checks hold, else the widest.
    """
    installation = search.installation
    limits, room = installation.limits, installation.surroundings.room
    told: list[Remedy] = []
    for limit in SWAYS:
        place = best_place(search, found.screened, found.ranked, limit)
        if limit <= limits.sway or place is None:
            continue
        wider = replace(installation, limits=replace(limits, sway=limit))
        there = replace(search, installation=wider)
        choice = tried(there, found.screened, int(found.ranked.index[place]))
        material = cards[choice.feet[0].pad.material]
        softer = feet_stand(room, choice.feet, material)
        change = _change(installation, search.baseline, softer, speed)
        _, failed = judged(there, choice.feet, material)
        told = [
            Remedy(
                kind="sway",
                keys=(("limits.sway", f"{1e3 * limit:g} mm"),),
                passes=not failed,
                softer=True,
                speed=speed,
                change=change,
            )
        ]
        if failed:
            continue
        for share in SHARES[: SHARES.index(LEAST_SHARE) + 1]:
            slower = gentler(installation, share)
            # what is heard does not change with it
            if not fails(replace(search, installation=slower), choice.feet, material):
                value = round(1e3 * slower.excitation.motion.acceleration)
                keys = (("motion.acceleration", f"{value:g} mm/s^2"),)
                told.append(replace(told[0], kind="acceleration", keys=keys))
                break
        break
    yield from reversed(told)


def _change(
    installation: Installation, before: Stand, after: Stand, speed: float | None
) -> Band | None:
    """Return how much louder it is on `after` than on `before` at one of its speeds [dB(A)]."""
    if speed is None:
        return None
    excitation = installation.excitation
    heard = quick_comparison(installation, before, listening_grid(excitation, MANY))(after)
    return heard[excitation.motion.speeds.index(speed)].desk
