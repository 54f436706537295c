"""`isolator tap`: what recordings of taps tell."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import DEFAULT_OUT, Json, Quiet, app, examples
from isolator.cli.recorded import Columns, Rate, TimeUnit, Unit, frequency, read_options
from isolator.cli.tell import path, tell_lines


@app.command(
    short_help="Tell natural frequencies and damping from recordings of taps.",
    epilog=examples(
        "isolator tap taps.csv",
        "isolator tap along-x.csv along-y.csv along-z.csv --out out",
        "isolator tap taps.csv --brief my-printer.toml --out out",
        "isolator tap desk.csv --desk",
        'isolator tap taps.csv --columns "t,z,y,x" --unit g --known-tone "50 Hz"',
    ),
)
def tap(
    files: Annotated[list[Path], typer.Argument(metavar="FILE…", help="CSV or WAV.")],
    brief: Annotated[
        Path | None,
        typer.Option(
            "--brief",
            metavar="FILE",
            help="Brief of the printer: modes are matched with the model's; --out takes a copy "
            "with feet and frame corrected.",
        ),
    ] = None,
    desk: Annotated[bool, typer.Option("--desk", help="The desk alone was tapped.")] = False,
    hard: Annotated[
        bool,
        typer.Option("--hard", help="The printer was tapped standing hard on a floor, no feet."),
    ] = False,
    highest: Annotated[
        str | None,
        typer.Option("--highest", metavar="FREQUENCY", help="Up to which modes are looked for."),
    ] = None,
    known_tone: Annotated[
        str | None,
        typer.Option(
            "--known-tone",
            metavar="FREQUENCY",
            help="True frequency of a steady tone in the recording, by which its clock is put "
            "right.",
        ),
    ] = None,
    rate: Rate = None,
    unit: Unit = "",
    time_unit: TimeUnit = "",
    columns: Columns = "",
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="FOLDER", help="Folder for picture and result; else none."),
    ] = None,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell natural frequencies and damping from recordings of taps.

    Fix an accelerometer, or a phone, to what you tap. Motors and fans off; a quiet second, a tap
    with a knuckle, three quiet seconds; five times along each of x, y and z.
    """
    from isolator.commands import tap as job
    from isolator.report.json.tap import tap_json
    from isolator.report.sentences.tap_text import tap_lines

    question = job.TapQuestion(
        of=job.what_was_tapped(desk=desk, hard=hard, brief=brief is not None),
        highest=job.HIGHEST if highest is None else frequency("--highest", highest),
        known_tone=None if known_tone is None else frequency("--known-tone", known_tone),
    )
    found = job.tap(files, read_options(rate, unit, time_unit, columns), question)
    if brief is not None:
        found = job.with_brief(found, brief, out or DEFAULT_OUT)
    lines = tap_lines(found)
    if out is not None:
        folder, why = job.publish_tap(found, out, files[0], brief)
        if why:
            lines.append(f"no corrected copy, it would be refused: {why}")
        elif found.corrected is not None and found.corrected.changes:
            lines.append(f"corrected copy of the brief: {path(folder, job.COPY)}")
        lines.append(f"picture: {path(folder, job.PICTURE)}")
    tell_lines({"tap": tap_json(found)}, lines, as_json, quiet)
