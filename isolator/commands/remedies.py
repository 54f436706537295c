"""What would help most where a check of the feet fails: each thing is tried, the best is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from isolator.cards import Material
from isolator.commands.paver import UnderPaver, typed_keys, weighing
from isolator.commands.search import SWAYS, FoundFeet, best_place
from isolator.commands.trial import Search, failing, fails, judged, tried
from isolator.commands.would_pass import SHARES, gentler
from isolator.feet.listening import MANY, listening_grid
from isolator.feet.ranking import EQUAL_DB
from isolator.feet.settings import KEYS
from isolator.report.findings import Paver, Remedy
from isolator.vibration.band import Band, Check
from isolator.vibration.compared import quick_comparison
from isolator.vibration.installation import Installation, build_installation
from isolator.vibration.results import Evaluation
from isolator.vibration.stand import Stand, feet_stand

LEAST_SHARE = 0.5
"""Of the acceleration: softer feet are not bought with less, as prints would take too long."""


def best_remedy(checks: tuple[Check, ...], trials: Sequence[Remedy]) -> Remedy | None:
    """Return the best of the trials and of what the checks' own figures tell, None for none.

    What makes every check hold comes before what does not; what leaves the limits as they are
    before a wider one; then what gains most where it is heard most. What does nothing is no
    remedy. None where no check fails.
    """
    if not failing(checks):
        return None
    useful = [each for each in trials if each.passes or _gain(each) >= EQUAL_DB]
    return max((*useful, *_of_figures(checks)), key=_rank, default=None)


def _rank(remedy: Remedy) -> tuple[bool, bool, float]:
    relaxed = any(key.startswith("limits.") for key, _ in remedy.keys)
    return remedy.passes, not relaxed, _gain(remedy)


def _gain(remedy: Remedy) -> float:
    return 0.0 if remedy.change is None else -remedy.change.nominal


def loudest(found: Evaluation) -> float | None:
    """Return at which of the speeds asked it is heard most against the baseline [m/s], if any."""
    heard = [(each.heard.desk.high, each.speed) for each in found.speeds if each.heard]
    return max(heard)[1] if heard else None


def _of_figures(checks: Sequence[Check]) -> Iterator[Remedy]:
    """Yield each value of the brief with which all checks that fail hold, on the same feet."""
    failed = [check for check in checks if check.binding and not check.passed]
    for figure, setting in KEYS.items():
        values = [dict(check.figures).get(figure) for check in failed]
        told = [value for value in values if value is not None]
        if len(told) == len(failed):
            value = min(told) if setting.lower else max(told)
            keys = ((setting.name, setting.typed.format(value)),)
            yield Remedy(kind=figure, keys=keys, passes=True)


def of_paver(
    under: UnderPaver | None,
    cards: dict[str, Material],
    stand: Stand,
    installation: Installation,
    speed: float | None,
) -> Iterator[Remedy]:
    """Yield a paver with its pads, against what stands there without it at `speed` [m/s].

    One as thick as usual, or where a check fails on it the first heavier one on which none does.
    `stand` is what is told, under the printer of `installation`.
    """
    if under is None:
        return
    heavier = under.least_mass if under.failing else None
    brief = under.brief if heavier is None else weighing(under.brief, heavier)
    assert brief.slab is not None
    paver = Paver(size=brief.slab.size, mass=brief.slab.mass)
    feet = feet_stand(brief.room, under.feet, cards[under.feet[0].pad.material])
    without = replace(stand, printer=stand.printer or installation.printer)
    yield Remedy(
        kind="slab",
        keys=typed_keys(paver),
        passes=not under.failing or heavier is not None,
        paver=paver,
        least_mass=None if under.failing else under.least_mass,
        speed=speed,
        change=_change(build_installation(brief, cards), without, feet, speed),
    )


def of_softer_feet(
    search: Search, found: FoundFeet, stand: Stand, cards: dict[str, Material], speed: float | None
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
        change = _change(installation, stand, softer, speed)
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
