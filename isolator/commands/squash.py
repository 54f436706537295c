"""`isolator squash`: readings of a squash test become a material card of one's own."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from isolator.cards import Material, load_cards
from isolator.cards.library import nearest_ids
from isolator.cards.reader import read_card
from isolator.cards.write import card_text
from isolator.commands.card_files import PLOT, refuse_others, write_card
from isolator.commands.own_card import feet_change
from isolator.measuring.squash_card import card_of, nearest_rubber, usual_card
from isolator.measuring.squash_doubts import doubts
from isolator.measuring.squash_fit import fit_squash
from isolator.measuring.squash_runs import Runs, read_runs
from isolator.measuring.squashed import Squashed
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import refused
from isolator.recordings.specimen import PRINTED, RUBBER, Specimen
from isolator.recordings.squash_file import Readings, read_squash

CARDS = "cards"
"""Folder below the output's that cards go into."""


def squash(
    path: Path,
    options: Mapping[str, Any],
    out: Path,
    *,
    card: Path | None = None,
    brief: Path | None = None,
) -> Squashed:
    """Fit the readings in `path` and write a card, with a plot beside it.

    `options` are keys of the specimen as typed. The card goes to `card`, else into `out`/cards;
    with a `brief` what it makes of the feet designed from that is worked out too. Raises
    InputError with nothing written.
    """
    specimen, readings = read_squash(path, options)
    runs, cards = read_runs(specimen, readings), load_cards()
    base = _base(specimen, runs, cards, readings)
    fit = fit_squash(specimen, base, runs, readings)
    if specimen.family == RUBBER and not specimen.like:
        base = nearest_rubber(fit.solid, cards)
    file = _place(specimen, out, card, cards)
    text = card_text(card_of(specimen, base, fit, runs, readings))
    found = read_card(text, card_id=specimen.id, file=str(file), shared={})
    feet = None if brief is None else feet_change(brief, out, found)
    told = Squashed(
        specimen=specimen,
        readings=readings,
        runs=runs,
        fit=fit,
        base=base,
        card=found,
        doubts=doubts(specimen, base, runs, readings, fit),
        file=file,
        plot=file.with_suffix(PLOT),
        feet=feet,
    )
    from isolator.report.figures.squash_curve import squash_curve

    write_card(file, text, squash_curve(fit, found.name))
    return told


def _base(
    specimen: Specimen, runs: Runs, cards: Mapping[str, Material], readings: Readings
) -> Material:
    """Return the card that lends what the test does not tell; raises InputError."""
    file, key = readings.file, "like"
    if not specimen.like:
        if specimen.family == PRINTED:
            raise refused(
                file,
                key,
                "nothing",
                "the card of a print with the infill and walls of the piece",
                "say it with --like, such as --like tpu-85-gyroid-25",
            )
        return usual_card(specimen, runs, cards)
    base = cards.get(specimen.like)
    if base is None:
        near = nearest_ids(specimen.like, cards)
        advice = f"did you mean {', '.join(near)}?" if near else "see `isolator materials`"
        raise refused(file, key, f'"{specimen.like}"', "the id of a material card", advice)
    if base.family != specimen.family or base.supply.ready:
        got = f'"{base.id}", {"a buffer" if base.supply.ready else base.family}'
        wanted = f"a card of {specimen.family}"
        raise refused(file, key, got, wanted, "see `isolator materials`")
    return base


def _place(
    specimen: Specimen, out: Path, asked: Path | None, cards: Mapping[str, Material]
) -> Path:
    """Return the card's file; refuse one of another name, and one that stands for else."""
    if specimen.id in cards:
        got = f'"{specimen.id}", which is shipped'
        raise refused(COMMAND_LINE, "--id", got, "an id of its own", "such as my-" + specimen.id)
    file = asked or out / CARDS / f"{specimen.id}.toml"
    if file.name != f"{specimen.id}.toml":
        got, wanted = f'"{file.name}"', f"{specimen.id}.toml, after the card's id"
        raise refused(COMMAND_LINE, "--card", got, wanted, "rename one of them")
    refuse_others(file)
    return file
