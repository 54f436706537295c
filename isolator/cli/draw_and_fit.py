"""`isolator draw` and `isolator fit`: a sheet drawn again, a coupon measured."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import DEFAULT_OUT, Json, Out, Quiet, app, examples
from isolator.cli.progress import progress
from isolator.cli.tell import echo, next_command, path, tell_copies, tell_lines


@app.command(
    short_help="Draw a design again, edited or not.",
    epilog=examples("isolator draw out/my-printer/design.toml"),
)
def draw(
    sheet: Annotated[Path, typer.Argument(metavar="DESIGN", help="A design.toml, edited or not.")],
    out: Out = DEFAULT_OUT,
    quiet: Quiet = False,
) -> None:
    """Draw a design again."""
    from isolator.commands.draw import draw as job

    with progress(quiet) as tell:
        drawn = job(sheet, out, tell)
    if not quiet:
        echo(f"parts: {path(drawn.folder, 'parts')}")
        for line in drawn.told:
            echo(f"check: {line}")
        tell_copies(drawn.folder, drawn.copies)


@app.command(
    context_settings={"ignore_unknown_options": True},
    short_help="Draw the fit coupon, or take what you measured on it.",
    epilog=examples(
        "isolator fit my-printer.toml",
        "isolator fit my-printer.toml A=3.21mm B=5.04mm",
        "isolator fit my-printer.toml --filament asa",
    ),
)
def fit(
    brief: Annotated[Path, typer.Argument(help="Brief; readings are stored in its [fit].")],
    readings: Annotated[
        list[str] | None, typer.Argument(help="Such as A=3.21mm; without any the coupon is drawn.")
    ] = None,
    filament: Annotated[
        str | None,
        typer.Option("--filament", help="That the coupon is printed in; else that of rigid parts."),
    ] = None,
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Draw the fit coupon, or take what you measured on it: holes then come out true."""
    from isolator.commands import fit as job
    from isolator.report.json.fit import coupon_json, taken_json
    from isolator.report.sentences import fit_text as words

    if not readings:
        folder, manifest = job.draw_coupon(brief, out, filament)
        tell_lines(
            {"coupon": coupon_json(folder, manifest)},
            [
                *words.coupon_text(brief, manifest["coupon"]["material"]),
                "",
                f"coupon: {path(folder)}",
            ],
            as_json,
            quiet,
        )
        return
    taken = job.take(brief, readings, filament)
    told = (taken.readings, taken.fit, taken.print)
    warnings = [*taken.warnings, *words.doubts(*told)]
    lines = [
        f"measured in {taken.filament}:",
        *words.taken_text(*told),
        *(f"check: {line}" for line in warnings),
    ]
    lines.append(f"stored in {path(brief)}; next: {next_command(brief)}")
    tell_lines(
        {"fit": {"filament": taken.filament, **taken_json(*told, warnings)}}, lines, as_json, quiet
    )
