"""The cards that a brief can name, and what is said of one that nobody has."""

from __future__ import annotations

from collections.abc import Mapping

from isolator.brief import Brief
from isolator.cards import Material, load_cards, nearest_ids
from isolator.cards.data_sheet import mount_material
from isolator.reading.faults import Fault, InputError, refused


def known_cards(brief: Brief) -> dict[str, Material]:
    """Return all cards that a brief can name, its own among them.

    Raises InputError where it names one that nobody has.
    """
    cards = all_cards(brief)
    require_cards(brief, cards)
    return cards


def all_cards(brief: Brief | None) -> dict[str, Material]:
    """Return all cards, those of a brief's folder and its ready-made mounts among them.

    Raises InputError where two have one name.
    """
    if brief is None:
        return load_cards()
    cards, file = load_cards(brief.stock.cards), brief.source_file
    for number, mount in enumerate(brief.stock.mounts, 1):
        if mount.id in cards:
            key, twice = f"stock.mount[{number}].name", f'"{mount.name}" a second time'
            raise refused(file, key, twice, "a name of its own", "rename one")
        cards[mount.id] = mount_material(
            mount.id,
            mount.name,
            mount.size,
            (mount.loads, mount.sags),
            across=mount.across,
            highest=mount.highest,
            loss=(mount.loss_factor, mount.loss_told),
            ratio=(mount.dynamic_ratio, mount.ratio_told),
            found=mount.found,
        )
    return cards


def require_cards(brief: Brief, cards: dict[str, Material]) -> None:
    """Raise InputError for every card that the brief names and nobody has."""
    named = [(f"stock.materials[{i}]", ident) for i, ident in enumerate(brief.stock.materials, 1)]
    balls = [
        (f"stock.ball[{i}].material", ball.material) for i, ball in enumerate(brief.stock.balls, 1)
    ]
    named += balls
    damped = [
        (f"damper.materials[{i}]", ident) for i, ident in enumerate(brief.damper.materials, 1)
    ]
    named += damped
    if brief.feet.now is not None:
        named.append(("feet.now.material", brief.feet.now.material))
    faults = [
        unknown_card(brief.source_file, key, ident, cards)
        for key, ident in named
        if ident not in cards
    ]
    faults += [
        Fault(
            file=brief.source_file,
            key=key,
            got=f'"{ident}", {cards[ident].family}',
            wanted="a rubber",
            suggestion="see `isolator materials` for those of rubber",
        )
        for key, ident in balls
        if ident in cards and cards[ident].family != "rubber"
    ]
    if brief.damper.cast:
        faults += [
            not_poured(brief.source_file, key, cards[ident], cards)
            for key, ident in damped
            if ident in cards and not cards[ident].cast
        ]
    if faults:
        raise InputError(faults)


def not_poured(file: str, key: str, card: Material, cards: Mapping[str, Material]) -> Fault:
    """Return the fault of a cast damper of a material that nobody can pour."""
    offered = ", ".join(ident for ident, each in cards.items() if each.cast)
    return Fault(
        file=file,
        key=key,
        got=f'"{card.id}", which cannot be poured',
        wanted="a card that tells what it is cast from",
        suggestion=f"take {offered}, or cut the rubber from sheet",
    )


def unknown_card(file: str, key: str, ident: str, cards: dict[str, Material]) -> Fault:
    """Return the fault of a material that has no card."""
    near = nearest_ids(ident, cards)
    return Fault(
        file=file,
        key=key,
        got=f'"{ident}"',
        wanted="the id of a material card",
        suggestion=f"did you mean {', '.join(near)}?" if near else "see `isolator materials`",
    )
