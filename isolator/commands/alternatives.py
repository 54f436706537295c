"""The best feet of each kind and of each sway limit, beside the chosen ones."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from isolator.commands.search import SWAYS, FoundFeet, best_place
from isolator.commands.trial import Search, candidate_stand, place_of
from isolator.feet.batch import CandidateBatch
from isolator.feet.kinds import KEEP, kind_of
from isolator.feet.listening import MANY, listening_grid
from isolator.report.findings import Alternative
from isolator.vibration.compared import quick_comparison
from isolator.vibration.heard import UNCHANGED
from isolator.vibration.results import Heard
from isolator.vibration.stand import Stand

CHOSEN = "chosen"


def alternatives(
    search: Search, found: FoundFeet, keep: Alternative | None
) -> tuple[Alternative, ...]:
    """Return the chosen feet, then the best of each kind and of each sway limit.

    `keep` is what stands there now, if that is told and holds its checks. Feet that were told
    before are not told again.
    """
    at = [int(index) for index in found.ranked.index]
    wanted: dict[int, tuple[str, float]] = {}
    if found.choice.index in at:
        limit = search.installation.limits.sway
        wanted[at.index(found.choice.index)] = (CHOSEN, limit)
    for place, why, limit in (*_of_kinds(search, found), *_of_sways(search, found)):
        wanted.setdefault(place, (why, limit))
    installation = search.installation
    grid = listening_grid(installation.excitation, MANY)
    heard = quick_comparison(installation, search.baseline, grid)
    told = [_told(search, found, place, why, heard) for place, why in wanted.items()]
    return (*told, *(() if keep is None else (keep,)))


def _of_kinds(search: Search, found: FoundFeet) -> Iterator[tuple[int, str, float]]:
    """Yield the best of each kind: its place in the ranking, what it is, under which limit."""
    limit = search.installation.limits.sway
    kinds = dict.fromkeys(kind_of(batch) for batch in search.offered)
    for kind in kinds:
        place = best_place(replace(search, prefer=kind), found.screened, found.ranked, limit)
        if place is not None:
            yield place, f"best {kind}", limit


def _of_sways(search: Search, found: FoundFeet) -> Iterator[tuple[int, str, float]]:
    for limit in SWAYS:
        place = best_place(search, found.screened, found.ranked, limit)
        if place is not None:
            yield place, f"best with {limit * 1e3:g} mm of sway", limit


def _told(
    search: Search,
    found: FoundFeet,
    place: int,
    why: tuple[str, float],
    heard: Callable[[Stand], tuple[Heard, ...]],
) -> Alternative:
    ranked, index = found.ranked, int(found.ranked.index[place])
    batch, row = place_of(search, found.screened, index)
    stand = candidate_stand(search, found.screened, index)
    return described(batch, row, why, heard(stand), float(ranked.sway[place]))


def described(
    batch: CandidateBatch, row: int, why: tuple[str, float], heard: Sequence[Heard], sway: float
) -> Alternative:
    """Return one candidate as it is told: why and under which limit on sway [m], how it is heard
    at each speed, how far it sways [m]."""
    along, across = batch.widths
    return Alternative(
        kind=kind_of(batch),
        why=why[0],
        material=batch.material.name,
        shape=batch.shape,
        size=(float(along[row]), float(across[row]), float(batch.thickness[row])),
        layers=int(batch.layers[row]),
        feet=len(batch.positions),
        heard=tuple(each.desk for each in heard),
        sway=sway,
        sway_limit=why[1],
        where=batch.material.supply.found,
        chosen=why[0] == CHOSEN,
    )


def kept(sway: float, sway_limit: float, speeds: int, feet: int) -> Alternative:
    """Return what stands there now as one of the answers."""
    return Alternative(
        kind=KEEP,
        why="what stands there now",
        material="",
        shape="",
        size=(0.0, 0.0, 0.0),
        layers=0,
        feet=feet,
        heard=(UNCHANGED,) * speeds,
        sway=sway,
        sway_limit=sway_limit,
        where="",
        chosen=False,
    )
