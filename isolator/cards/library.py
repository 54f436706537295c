"""The shipped cards, a user's own beside them, and a rubber known by its modulus alone."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Iterable, Iterator
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

from isolator.cards.card import FAMILIES, Figure, Material
from isolator.cards.entries import Entries
from isolator.cards.reader import parse_card, read_card, read_sources
from isolator.reading.faults import Fault, InputError, refused
from isolator.reading.files import UnreadableError, read_file
from isolator.reading.printable import printable

SHARED_SOURCES = "sources.toml"
BUFFERS = "buffers.toml"
LARGEST_FILE = 1_000_000
CARD, CHECK = "a material card", "check the path"
_GOT = {
    "missing": "none to read (No such file or directory)",
    "folder": "none to read (Is a directory)",
    "special": "a pipe or a device",
    "large": "a file of over 1 MB",
    "bytes": "no UTF-8 text",
}
_ID = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,38}[a-z0-9])?")


def load_cards(folder: Path | None = None) -> dict[str, Material]:
    """Return all cards by id: the shipped ones, then those of a user's own `folder`.

    A user's id that is shipped already is refused. Raises `InputError` with every fault of every
    file.
    """
    cards = dict(_shipped())
    if folder is None:
        return cards
    if not folder.is_dir():
        raise refused(str(folder), "", "no folder", "a folder of material cards", CHECK)
    faults: list[Fault] = []
    for path in sorted(folder.rglob("*.toml")):
        try:
            card = load_card(path)
            if card.id in cards:
                twice = f'the id "{card.id}" a second time'
                raise refused(str(path), "", twice, "an id of its own", "rename the file")
            cards[card.id] = card
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)
    return cards


def load_card(path: Path) -> Material:
    """Return one user's card; its id is the file's name without the ending."""
    if not _ID.fullmatch(path.stem):
        raise refused(
            str(path),
            "",
            f'the name "{path.stem}"',
            "a card's id: small letters, digits and hyphens, 40 at most",
            'rename the file, such as "my-foam.toml"',
        )
    try:
        text = read_file(path, LARGEST_FILE)
    except UnreadableError as error:
        got = _GOT.get(error.kind, f"none to read ({error.got})")
        raise refused(printable(str(path)), "", got, CARD, CHECK) from None
    return read_card(text, card_id=path.stem, file=str(path), shared=_shared_sources())


def nearest_ids(text: str, ids: Iterable[str] | None = None, *, count: int = 3) -> list[str]:
    """Return up to `count` ids nearest to what was typed, best first.

    >>> nearest_ids("nr50")[0]
    'nr-50'
    """
    known = list(_shipped() if ids is None else ids)
    typed = text.strip().lower().replace(" ", "-").replace("_", "-")
    return difflib.get_close_matches(typed, known, n=count, cutoff=0.4)


def ideal_rubber(youngs_modulus: float) -> Material:
    """Return an ideal incompressible rubber of Young's modulus [Pa]: E = 3G, k = 1, no spread.

    What a modulus does not tell (damping, creep, density) is filled with plain guesses of kind
    "estimated"; the dynamic ratio is 1 and neither creep nor temperature change it.
    """
    if not (math.isfinite(youngs_modulus) and youngs_modulus > 0):
        raise refused(
            "material",
            "",
            f"a Young's modulus of {youngs_modulus:g} Pa",
            "one above 0",
            'write it like "2 MPa"',
        )

    def ideal(value: float, conditions: str = "ideal rubber") -> Figure:
        return Figure(
            value=value, spread=1.0, kind="estimated", source="ideal", conditions=conditions
        )

    return Material(
        id="ideal-rubber",
        name="Ideal rubber",
        family="rubber",
        note="Incompressible, linear in shear, known by its modulus alone.",
        youngs_modulus=ideal(youngs_modulus, "as given"),
        shear_modulus=ideal(youngs_modulus / 3.0, "E = 3G"),
        poisson=ideal(0.5),
        loss_factor=ideal(0.1, "a guess"),
        dynamic_ratio=ideal(1.0),
        strain_dependence=ideal(1.0),
        reference_frequency=10.0,
        creep=ideal(0.0),
        temperature=ideal(0.0),
        strain_limit=ideal(0.15, "convention"),
        density=ideal(1100.0, "a guess"),
        stiffness_spread=1.0,
        sources=(("ideal", "Ideal incompressible rubber: E = 3G, hardness factor 1"),),
    )


def _walk(folder: Traversable, where: str) -> Iterator[tuple[str, Traversable]]:
    for entry in sorted(folder.iterdir(), key=lambda item: item.name):
        if entry.is_dir():
            yield from _walk(entry, f"{where}/{entry.name}")
        elif entry.name.endswith(".toml"):
            yield f"{where}/{entry.name}", entry


@cache
def _shared_sources() -> dict[str, str]:
    entries = Entries(f"materials/{SHARED_SOURCES}")
    text = resources.files("materials").joinpath(SHARED_SOURCES).read_text(encoding="utf-8")
    found = read_sources(parse_card(text, entries), entries)
    if entries.faults:
        raise InputError(entries.faults)
    return found


@cache
def _shipped() -> dict[str, Material]:
    cards = [
        read_card(
            entry.read_text(encoding="utf-8"),
            card_id=entry.name.removesuffix(".toml"),
            file=where,
            shared=_shared_sources(),
        )
        for where, entry in _walk(resources.files("materials"), "materials")
        if entry.name not in (SHARED_SOURCES, BUFFERS)
    ]
    cards.sort(key=lambda card: (FAMILIES.index(card.family), card.id))
    return {card.id: card for card in cards}
