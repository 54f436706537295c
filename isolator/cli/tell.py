"""What commands tell: on the terminal, as JSON, and while they work."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from isolator.commands.publish_design import Made
    from isolator.report.findings import Findings


def path(folder: Path, *parts: str) -> str:
    """Return a path as it is told."""
    from isolator.reading.printable import printable

    return printable(str(folder.joinpath(*parts)))


def next_command(brief: Path) -> str:
    """Return the command that designs a brief, as a shell takes it."""
    import shlex

    from isolator.reading.printable import printable

    text = str(brief)
    # a sign that a terminal acts on is written as its code between $'…'
    if printable(text) != text:
        signs = "".join(sign if sign.isascii() and sign.isalnum() else _code(sign) for sign in text)
        return f"isolator design $'{signs}'"
    return f"isolator design {shlex.quote(text)}"


def _code(sign: str) -> str:
    return "".join(f"\\x{byte:02x}" for byte in os.fsencode(sign))


def example() -> Path:
    """Return the shipped brief that is designed where none is named."""
    from importlib.resources import files

    return Path(str(files("isolator.examples") / "reading-room.toml"))


def kind_of(pick: str | None) -> str:
    """Return the kind of feet that is asked for, empty where none is; raises InputError."""
    if pick is None:
        return ""
    from isolator.brief.stock import PICKS
    from isolator.reading.command_words import word

    return word("--pick", pick, PICKS)


def quantities_of(option: str, texts: list[str], unit: str) -> tuple[float, ...]:
    """Return what was typed after an option, in `unit`; raises InputError."""
    from isolator.reading.command_words import quantities

    return quantities([option] * len(texts), texts, unit)


def tell_copies(folder: Path, copies: tuple[str, ...]) -> None:
    """Tell where what somebody had edited is kept."""
    for name in copies:
        echo(f"what you had edited is kept as {folder / name}")


def tell_answer(findings: Findings, details: bool, imperial: bool) -> None:
    """Print the answer of a design, and all that was found where `details` are asked for."""
    from isolator.report.terminal.answer import answer_lines

    say = _say(imperial)
    _show_lines(answer_lines(findings, terminal_width(), say))
    if details:
        _show_details(findings, say)


def tell_files(made: Made) -> None:
    """Print where everything lies, and what drawing has found."""
    from isolator.report.terminal.answer import file_lines

    for line in file_lines(path(made.folder), made.told, terminal_width()):
        echo(line)
    tell_copies(made.folder, made.copies)


def tell_check(found: Sequence[Findings], details: bool, imperial: bool, as_json: bool) -> None:
    """Print what a check found; the first one's, the others beside it in one table."""
    first, *others = found
    if as_json:
        from isolator.report.json.result import to_json

        told = to_json(first)
        if others:
            told["beside"] = [to_json(each) for each in others]
        print_json(told)
        return
    from isolator.report.terminal.beside import beside_table
    from isolator.report.terminal.checked import checked_lines
    from isolator.report.terminal.tables import spoken

    say = _say(imperial)
    _show_lines(checked_lines(first, terminal_width(), say))
    if others:
        show(spoken(beside_table(found), say))
    if details:
        _show_details(first, say)


def _show_details(findings: Findings, say: Callable[[str], str]) -> None:
    from isolator.report.terminal.summary import summary
    from isolator.report.terminal.tables import spoken

    show(spoken(summary(findings), say))


def terminal_width() -> int:
    """Return the columns of the terminal."""
    from rich.console import Console

    return Console().width


def _say(imperial: bool) -> Callable[[str], str]:
    """Return what is done to every text: the other units beside, letters that the stream has."""
    from isolator.report.sentences.imperial import with_imperial
    from isolator.report.terminal.stream import HANDLER

    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"

    def say(text: str) -> str:
        told = with_imperial(text) if imperial else text
        return told.encode(encoding, HANDLER).decode(encoding)

    return say


def _show_lines(lines: Sequence[str]) -> None:
    """Print lines as they stand, the first in bold on a terminal."""
    from rich.console import Console
    from rich.text import Text

    first, *more = lines
    Console().print(Text(first, style="bold"), soft_wrap=True)
    for line in more:
        echo(line)


def tell_lines(told: Any, lines: list[str], as_json: bool, quiet: bool) -> None:
    """Print what is told, as JSON or as lines."""
    if as_json:
        print_json(told)
    elif not quiet:
        echo("\n".join(lines))


def print_json(told: Any) -> None:
    """Print JSON, spelt out in ASCII where the stream takes no more."""
    from isolator.report.terminal.stream import is_unicode

    ascii_only = not is_unicode(sys.stdout)
    echo(json.dumps(told, indent=2, ensure_ascii=ascii_only, allow_nan=False))


def echo(text: str, err: bool = False) -> None:
    """Print a line to standard output, or to standard error."""
    # not the command-line library's own, which goes round the streams that spell letters out
    print(text, file=sys.stderr if err else sys.stdout, flush=True)


def show(printable: Any) -> None:
    """Print tables and panels as wide as the terminal."""
    from rich.console import Console

    Console().print(printable)
