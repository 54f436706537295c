"""`isolator sweep`: test moves at home."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import DEFAULT_OUT, Json, Out, Quiet, Set, Speeds, app, examples
from isolator.cli.tell import path, quantities_of, tell_lines

ZEROS = ("corner", "middle")


@app.command(
    short_help="Write test moves without heat, and their schedule.",
    epilog=examples(
        "isolator sweep my-printer.toml",
        'isolator sweep my-printer.toml --speeds "20 to 120 mm/s" --hold "8 s"',
    ),
)
def sweep(
    brief: Annotated[Path, typer.Argument(help="Brief: its bed, speeds and acceleration.")],
    speed: Speeds = None,
    direction: Annotated[
        list[str] | None,
        typer.Option(
            "--direction",
            metavar="ANGLE",
            help='Of the strokes, such as "30 deg"; may be repeated. Else 0, 45, 90, 30 degrees.',
        ),
    ] = None,
    hold: Annotated[
        str, typer.Option("--hold", metavar="TIME", help="Constant speed of each step.")
    ] = "5 s",
    zero: Annotated[
        str,
        typer.Option("--zero", metavar="PLACE", help="Where X0 Y0 of the bed is: corner, middle."),
    ] = "corner",
    changes: Set = None,
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Write test moves as G-code, and beside them a schedule of what moves when.

    Strokes to and fro over the empty bed, at speeds in steps, with pauses that mark a recording.
    Nothing is heated.
    """
    from isolator.commands.sweep import MOVES, SCHEDULE
    from isolator.commands.sweep import sweep as job
    from isolator.reading.changes import read_changes
    from isolator.reading.command_words import word
    from isolator.reading.ranges import speeds_of
    from isolator.report.sentences.sweep_text import told_lines

    made = job(
        brief,
        out,
        speeds_of("--speed", speed or []),
        quantities_of("--direction", direction or [], "rad"),
        quantities_of("--hold", [hold], "s")[0],
        middle=word("--zero", zero, ZEROS) == "middle",
        changes=read_changes(changes or ()),
    )
    files = [f"moves: {path(made.folder, MOVES)}", f"schedule: {path(made.folder, SCHEDULE)}"]
    tell_lines({"sweep": made.json}, told_lines(made.told, files), as_json, quiet)
