"""`isolator sweep`, `compare` and `orders`: test moves, and recordings of them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from isolator.cli.app import DEFAULT_OUT, Json, Out, Quiet, Set, Speeds, app, examples
from isolator.cli.recorded import Columns, Rate, TimeUnit, Unit, read_options
from isolator.cli.tell import path, quantities_of, tell_lines

if TYPE_CHECKING:
    from isolator.commands.compare import Compared
    from isolator.commands.orders import Mapped

ZEROS = ("corner", "middle")
Schedule = Annotated[
    Path, typer.Option("--schedule", metavar="FILE", help="The schedule.json of the moves.")
]
Place = Annotated[
    str | None,
    typer.Option(
        "--place",
        metavar="PLACE",
        help="Where the recorder was: air, desk, printer. Else air for sound, desk for the rest.",
    ),
]


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
    from isolator.report.sentences.moves_found import kept_lines
    from isolator.report.sentences.sweep_text import told_lines

    made = job(
        brief,
        out,
        speeds_of(speed or []),
        quantities_of("--direction", direction or [], "rad"),
        quantities_of("--hold", [hold], "s")[0],
        middle=word("--zero", zero, ZEROS) == "middle",
        changes=read_changes(changes or ()),
    )
    files = [f"moves: {path(made.folder, MOVES)}", f"schedule: {path(made.folder, SCHEDULE)}"]
    files += kept_lines("moves", made.copies)
    tell_lines({"sweep": made.json}, told_lines(made.told, files), as_json, quiet)


@app.command(
    short_help="Compare two recordings of the test moves, before and after.",
    epilog=examples(
        "isolator compare before.wav after.wav --schedule schedule.json",
        "isolator compare before.csv after.csv --schedule schedule.json --brief my-printer.toml",
    ),
)
def compare(
    before: Annotated[Path, typer.Argument(help="Recording on the old feet: WAV or CSV.")],
    after: Annotated[Path, typer.Argument(help="Recording on the new feet.")],
    schedule: Schedule,
    brief: Annotated[
        Path | None,
        typer.Option("--brief", metavar="FILE", help="Brief: what it predicts stands beside."),
    ] = None,
    place: Place = None,
    rate: Rate = None,
    unit: Unit = "",
    time_unit: TimeUnit = "",
    columns: Columns = "",
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell how much louder each speed is after a change of feet, with its confidence.

    The moves are found in both recordings by their pauses; the room's noise is taken off.
    """
    from isolator.commands.compare import compare as job
    from isolator.report.sentences.compare_text import compare_lines

    made = job(
        before,
        after,
        schedule,
        out,
        brief,
        read_options(rate, unit, time_unit, columns),
        _place(place),
    )
    lines = [*compare_lines(made.told), *_where(made, "changes.svg")]
    tell_lines({"compare": made.json}, lines, as_json, quiet)


@app.command(
    short_help="Map a recording of the test moves: what follows speed, what stands still.",
    epilog=examples(
        "isolator orders before.wav --schedule schedule.json --brief my-printer.toml",
        'isolator orders a.wav --schedule schedule.json --brief my-printer.toml --rail "7.94 mm"',
    ),
)
def orders(
    file: Annotated[Path, typer.Argument(help="Recording of the test moves: WAV or CSV.")],
    schedule: Schedule,
    brief: Annotated[
        Path, typer.Option("--brief", metavar="FILE", help="Brief: the tones that it may have.")
    ],
    rail: Annotated[
        str | None,
        typer.Option("--rail", metavar="SIZE", help="Of round rails, measured; else the brief's."),
    ] = None,
    bore: Annotated[
        str | None, typer.Option("--bore", metavar="SIZE", help="Of their bearings, measured.")
    ] = None,
    place: Place = None,
    rate: Rate = None,
    unit: Unit = "",
    time_unit: TimeUnit = "",
    columns: Columns = "",
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell what in a recording follows the speed, and the part that likely makes it.

    Besides: resonances, tones that never stop, speeds to avoid, and rattle.
    """
    from isolator.commands.orders import orders as job
    from isolator.report.sentences.orders_text import orders_lines

    made = job(
        file,
        schedule,
        out,
        brief,
        read_options(rate, unit, time_unit, columns),
        _place(place),
        rail=_length("--rail", rail),
        bore=_length("--bore", bore),
    )
    lines = [*orders_lines(made.told), *_where(made, "order-map.svg")]
    tell_lines({"orders": made.json}, lines, as_json, quiet)


def _length(option: str, text: str | None) -> float | None:
    return None if text is None else quantities_of(option, [text], "m")[0]


def _place(typed: str | None) -> str:
    """Return where the recorder was; empty where nobody says."""
    from isolator.commands.moves_found import PLACES
    from isolator.reading.command_words import word

    return "" if typed is None else word("--place", typed, PLACES)


def _where(made: Compared | Mapped, picture: str) -> list[str]:
    """Return where the picture lies, and what other recordings told there before."""
    from isolator.report.sentences.moves_found import kept_lines

    return [f"picture: {path(made.folder, picture)}", *kept_lines("results", made.copies)]
