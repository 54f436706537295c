"""`isolator squash`: readings of a squash test become a material card of one's own."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from isolator.cards import Material, load_cards
from isolator.cards.library import nearest_ids
from isolator.cards.reader import read_card
from isolator.cards.write import card_text
from isolator.commands.own_card import feet_change
from isolator.commands.written import WRITTEN
from isolator.measuring.squash_card import card_of, nearest_rubber, usual_card
from isolator.measuring.squash_doubts import doubts
from isolator.measuring.squash_fit import fit_squash
from isolator.measuring.squash_runs import Runs, read_runs
from isolator.measuring.squashed import Squashed
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import InputError, refused
from isolator.reading.printable import printable
from isolator.recordings.specimen import PRINTED, RUBBER, Specimen
from isolator.recordings.squash_file import Readings, read_squash

CARDS = "cards"
"""Folder below the output's that cards go into."""
PLOT = ".svg"
MARK = "# Card of a squash test; as long as it is unchanged (sha256 "


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
    _write(told, text)
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
    plot = file.with_suffix(PLOT)
    if file.exists() or file.is_symlink():
        _refuse_other(file)
    elif plot.exists() or plot.is_symlink():
        raise _taken(plot, "a file without a card beside it")
    return file


def _refuse_other(file: Path) -> None:
    """Refuse to replace what no squash test wrote, and what was edited since."""
    got = "something that no squash test wrote"
    try:
        head, _, rest = file.read_text(encoding="utf-8").partition("\n")
        if head.startswith(MARK):
            if head == _mark(rest):
                return
            got = "a card that was edited since"
    except (OSError, UnicodeDecodeError):
        pass
    raise _taken(file, got)


def _taken(file: Path, got: str) -> InputError:
    wanted = "a place of its own for the card"
    return refused(printable(str(file)), "", got, wanted, "choose another --id, or move it away")


def _mark(text: str) -> str:
    return (
        f"{MARK}{hashlib.sha256(text.encode('utf-8')).hexdigest()[:16]}) the next one replaces it."
    )


def _write(told: Squashed, text: str) -> None:
    from isolator.report.figures.squash_curve import squash_curve

    plot = squash_curve(told.fit, told.card.name)
    try:
        told.file.parent.mkdir(parents=True, exist_ok=True)
        _put(told.plot, plot)
        _put(told.file, f"{_mark(text)}\n{text}")
    except OSError as error:
        got = (error.strerror or "an error of the disk").lower()
        wanted = "a place that can be written to"
        raise refused(printable(str(told.file)), "", got, wanted, "choose another --out") from None
    WRITTEN.append(str(told.file))


def _put(file: Path, text: str) -> None:
    """Write a file beside its place, then put it there."""
    number, name = tempfile.mkstemp(prefix=f".{file.name}-", dir=file.parent)
    try:
        with os.fdopen(number, "w", encoding="utf-8") as stream:
            stream.write(text)
        Path(name).chmod(0o666 & ~_umask())
        os.replace(name, file)
    finally:
        Path(name).unlink(missing_ok=True)


def _umask() -> int:
    found = os.umask(0o077)
    os.umask(found)
    return found
