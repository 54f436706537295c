"""`isolator check`: how feet isolate, without drawing anything."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import (
    DEFAULT_OUT,
    Details,
    Imperial,
    Json,
    Out,
    Quiet,
    Set,
    Speeds,
    app,
    examples,
)
from isolator.cli.tell import quantities_of, tell_check


@app.command(
    short_help="Tell what feet let through, tone by tone; draws nothing.",
    epilog=examples(
        "isolator check my-printer.toml",
        'isolator check my-printer.toml --speed "60 mm/s" --speed "120 mm/s"',
        'isolator check my-printer.toml --speeds "20 to 120 mm/s"',
        "isolator check my-printer.toml --speeds 20:120:20 --now",
        'isolator check my-printer.toml --set printer.mass="12 kg"',
        'isolator check my-printer.toml --frequency "25 Hz" --direction "45 deg"',
    ),
)
def check(
    brief: Annotated[Path, typer.Argument(help="Brief with feet given, designed or there now.")],
    speed: Speeds = None,
    frequency: Annotated[
        list[str] | None,
        typer.Option("--frequency", metavar="FREQUENCY", help='Such as "25 Hz"; may be repeated.'),
    ] = None,
    direction: Annotated[
        list[str] | None,
        typer.Option(
            "--direction", metavar="ANGLE", help='Of a move, such as "30 deg"; may be repeated.'
        ),
    ] = None,
    now: Annotated[
        bool, typer.Option("--now", help="Judge the feet there now, designed or not.")
    ] = False,
    beside: Annotated[
        list[Path] | None,
        typer.Option(
            "--with", metavar="FILE", help="Another brief, or a design, beside it; may be repeated."
        ),
    ] = None,
    changes: Set = None,
    out: Out = DEFAULT_OUT,
    details: Details = False,
    imperial: Imperial = False,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell the transmissibility of feet at given speeds and frequencies; draws nothing.

    It judges the feet given in the brief, else those designed from it, else those there now, and
    says which.
    """
    from isolator.commands.beside import beside as second_process
    from isolator.commands.check import check as job
    from isolator.reading.changes import read_changes
    from isolator.reading.ranges import speeds_of

    speeds = speeds_of(speed or [])
    frequencies = quantities_of("--frequency", frequency or [], "Hz")
    directions = quantities_of("--direction", direction or [], "rad")
    with second_process() as begin:
        found = job(
            brief,
            out,
            speeds,
            frequencies,
            directions,
            now=now,
            others=beside or (),
            changes=read_changes(changes or ()),
            begin=begin,
        )
    if not quiet or as_json:
        tell_check(found, details, imperial, as_json)
