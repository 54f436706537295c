"""Card and plot of a squash test: put in place together, and only over their own kind."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Final, NamedTuple

from isolator.commands.output import umask
from isolator.commands.written import WRITTEN
from isolator.reading.faults import InputError, refused
from isolator.reading.printable import printable


class Kind(NamedTuple):
    """One of the two files: its mark is a comment in a line of its own."""

    name: str
    opens: str
    closes: str
    line: int  # that the mark stands in


CARD, PLOT = ".toml", ".svg"
KINDS: Final = {
    CARD: Kind("card", "# Card of", "", 0),
    PLOT: Kind("plot", "<!-- Plot of", " -->", 1),  # XML is declared in the first line
}


def refuse_others(card: Path) -> None:
    """Raise InputError where the card or its plot would replace what no squash test wrote.

    What was edited since is somebody's own too.
    """
    for file in (card, card.with_suffix(PLOT)):
        if not file.exists() and not file.is_symlink():
            continue
        kind = KINDS[file.suffix]
        got = "something that no squash test wrote"
        try:
            text = file.read_text(encoding="utf-8")
            if _mark_of(text, kind).startswith(_opening(kind)):
                if text == signed(_bare(text, kind), file.suffix):
                    continue
                got = f"a {kind.name} that was edited since"
        except (OSError, UnicodeDecodeError):
            pass
        raise _taken(file, got)


def signed(text: str, suffix: str) -> str:
    """Return the text of a card or a plot with a mark that tells whether it is still unchanged."""
    kind = KINDS[suffix]
    lines = text.splitlines(keepends=True)
    known = hashlib.sha256(text.encode("utf-8")).hexdigest()[:16]
    mark = f"{_opening(kind)}{known}) the next one replaces it.{kind.closes}\n"
    return "".join((*lines[: kind.line], mark, *lines[kind.line :]))


def _opening(kind: Kind) -> str:
    return f"{kind.opens} a squash test; as long as it is unchanged (sha256 "


def _mark_of(text: str, kind: Kind) -> str:
    return "".join(text.splitlines(keepends=True)[kind.line : kind.line + 1])


def _bare(text: str, kind: Kind) -> str:
    lines = text.splitlines(keepends=True)
    return "".join((*lines[: kind.line], *lines[kind.line + 1 :]))


def _taken(file: Path, got: str) -> InputError:
    wanted = "a place of its own for the card"
    return refused(printable(str(file)), "", got, wanted, "choose another --id, or move it away")


def write_card(card: Path, text: str, plot: str) -> None:
    """Put a card and its plot in place, both or neither; raises InputError where that fails."""
    texts = {card.with_suffix(PLOT): signed(plot, PLOT), card: signed(text, CARD)}
    try:
        card.parent.mkdir(parents=True, exist_ok=True)
        _put(texts)
    except OSError as error:
        got = (error.strerror or "an error of the disk").lower()
        wanted = "a place that can be written to"
        raise refused(printable(str(card)), "", got, wanted, "choose another --out") from None
    WRITTEN.append(str(card))


def _put(texts: Mapping[Path, str]) -> None:
    """Write all files beside their places, then put them there; one that fails undoes the others.

    A run that is killed between two leaves both old or new, never half of one.
    """
    fresh: dict[Path, Path] = {}
    before: dict[Path, bytes | None] = {}
    try:
        for file, text in texts.items():
            number, name = tempfile.mkstemp(prefix=f".{file.name}-", dir=file.parent)
            fresh[file] = Path(name)
            with os.fdopen(number, "w", encoding="utf-8") as stream:
                stream.write(text)
            Path(name).chmod(0o666 & ~umask())
        for file, made in fresh.items():
            old = file.read_bytes() if file.exists() else None
            os.replace(made, file)
            before[file] = old
    except OSError:
        for file, old in before.items():
            if old is None:
                file.unlink()
            else:
                file.write_bytes(old)
        raise
    finally:
        for made in fresh.values():
            made.unlink(missing_ok=True)
