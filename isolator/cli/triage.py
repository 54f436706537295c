"""`isolator triage`: is it the feet at all?"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import Json, Quiet, Set, app, examples
from isolator.cli.tell import echo, print_json, terminal_width

YES, NO = ("y", "yes"), ("n", "no")


@app.command(
    short_help="Tell whether it is the feet, and what to try first.",
    epilog=examples(
        "isolator triage my-printer.toml",
        "isolator triage my-printer.toml --yes fans-only --no on-towel",
        "isolator triage my-printer.toml --recording motors-off.wav",
    ),
)
def triage(
    brief: Annotated[Path, typer.Argument(help="Brief; answers may stand under its [noise].")],
    yes: Annotated[
        list[str] | None,
        typer.Option("--yes", metavar="QUESTION", help="Answered yes; may be repeated."),
    ] = None,
    no: Annotated[
        list[str] | None,
        typer.Option("--no", metavar="QUESTION", help="Answered no; may be repeated."),
    ] = None,
    recording: Annotated[
        Path | None,
        typer.Option("--recording", metavar="FILE", help="CSV or WAV made with the motors off."),
    ] = None,
    changes: Set = None,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell whether feet will help with what is heard, and what to try first.

    A few questions, on a terminal one by one; what nobody answers is left open.
    """
    from isolator.commands.triage import left_open, read_answers, triaged
    from isolator.reading.changes import read_changes
    from isolator.report.json.triage import triage_json
    from isolator.report.terminal.triage import triage_lines

    answers, made = read_answers(yes or (), no or ()), read_changes(changes or ())
    if not (answers or recording or as_json or quiet) and sys.stdin.isatty():
        answers = _ask(left_open(brief, made))
    told = triaged(brief, answers, recording=recording, changes=made)
    if as_json:
        print_json({"triage": triage_json(told)})
    elif not quiet:
        for line in triage_lines(told, terminal_width()):
            echo(line)


def _ask(questions: dict[str, str]) -> dict[str, bool]:
    """Ask one question after the other; what is neither yes nor no is left open."""
    found: dict[str, bool] = {}
    for key, question in questions.items():
        try:
            typed = input(f"{question} (y, n, Enter: leave open) ").strip().lower()
        except EOFError:
            break
        if typed in YES or typed in NO:
            found[key] = typed in YES
    return found
