"""The commands: each parses its words, calls one function, tells what came of it.

Nothing heavy is loaded for --help.
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.tell import (
    echo,
    example,
    kind_of,
    next_command,
    path,
    print_json,
    progress,
    quantities_of,
    show,
    tell_copies,
    tell_findings,
    tell_lines,
)

app = typer.Typer(
    name="isolator",
    help="Designs vibration-isolating feet and motor spacers for belt-driven desktop 3D printers.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

Out = Annotated[Path, typer.Option("--out", help="Folder that output goes into.")]
Json = Annotated[bool, typer.Option("--json", help="Print the result as JSON.")]
Quiet = Annotated[bool, typer.Option("--quiet", help="Print nothing but errors and JSON.")]

DEFAULT_OUT = Path("out")
NO_FIT = 1
"""Exit code where no design meets the limits."""


@app.command()
def start(
    file: Annotated[Path, typer.Argument(help="Brief to write; never overwritten.")],
    quiet: Quiet = False,
) -> None:
    """Write a commented starter brief."""
    from isolator.brief.starter import starter_text
    from isolator.commands.written import WRITTEN
    from isolator.reading.faults import refused

    try:
        with file.open("x", encoding="utf-8") as stream:
            stream.write(starter_text())
    except OSError as error:
        exists = isinstance(error, FileExistsError)
        raise refused(
            str(file),
            "",
            "a file that is there already" if exists else (error.strerror or "an error").lower(),
            "a new file",
            "choose another name",
        ) from None
    WRITTEN.append(str(file))
    if not quiet:
        echo(f"wrote {path(file)}; edit it, then run: {next_command(file)}")


@app.command()
def design(
    brief: Annotated[
        Path | None, typer.Argument(help="Brief; without one, the shipped example.")
    ] = None,
    pick: Annotated[
        str | None,
        typer.Option(
            "--pick", help="Feet of one kind: rubber, foam, printed, half-ball, or keep today's."
        ),
    ] = None,
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Design feet and motor spacers, draw the parts, write the report."""
    from isolator.commands.design import design as job

    with progress(quiet or as_json) as tell:
        made = job(brief or example(), out, tell, kind_of(pick))
    tell_findings(made.findings, as_json, quiet)
    if not quiet and not as_json:
        echo(f"\nreport: {path(made.folder, 'report.html')}")
        echo(f"parts:  {path(made.folder, 'parts')}")
        tell_copies(made.folder, made.copies)
    raise typer.Exit(0 if made.findings.passed else NO_FIT)


@app.command()
def check(
    brief: Annotated[Path, typer.Argument(help="Brief with feet given, designed or there now.")],
    speed: Annotated[
        list[str] | None, typer.Option("--speed", help='Such as "60 mm/s"; may be repeated.')
    ] = None,
    frequency: Annotated[
        list[str] | None, typer.Option("--frequency", help='Such as "25 Hz"; may be repeated.')
    ] = None,
    direction: Annotated[
        list[str] | None,
        typer.Option("--direction", help='Of a move, such as "30 deg"; may be repeated.'),
    ] = None,
    now: Annotated[
        bool, typer.Option("--now", help="Judge the feet there now, designed or not.")
    ] = False,
    beside: Annotated[
        list[Path] | None,
        typer.Option("--with", help="Another brief, or a design, beside it; may be repeated."),
    ] = None,
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell the transmissibility of feet at given speeds and frequencies; draws nothing."""
    from isolator.commands.check import check as job

    speeds = quantities_of("--speed", speed or [], "m/s")
    frequencies = quantities_of("--frequency", frequency or [], "Hz")
    directions = quantities_of("--direction", direction or [], "rad")
    first, *others = job(brief, out, speeds, frequencies, directions, now=now, others=beside or ())
    tell_findings(first, as_json, quiet, others)


@app.command()
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


@app.command(context_settings={"ignore_unknown_options": True})
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


@app.command(context_settings={"ignore_unknown_options": True})
def pad(
    material: Annotated[
        str, typer.Argument(help="A card's id, a card's file, or a modulus such as \"2 MPa\".")
    ],
    shape: Annotated[str, typer.Argument(help="disc, ring, rectangle or square-with-hole.")],
    size: Annotated[list[str], typer.Argument(help="Sizes, the thickness last: 30mm 10mm.")],
    load: Annotated[str, typer.Option("--load", help="Load it carries.")] = "0 N",
    bonded: Annotated[
        bool, typer.Option("--bonded/--slipping", help="Faces glued, or free to slip.")
    ] = True,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Tell the stiffness of one pad."""
    from isolator.commands import pad_and_cards

    figures = pad_and_cards.pad(material, shape, size, load, bonded=bonded)
    if as_json:
        print_json({"pad": pad_and_cards.pad_json(figures)})
    elif not quiet:
        from isolator.report.terminal.summary import pad_table

        show(
            pad_table(
                pad_and_cards.pad_title(material, shape, size, load, bonded),
                pad_and_cards.pad_rows(figures),
            )
        )


@app.command()
def materials(
    ident: Annotated[
        str | None, typer.Argument(metavar="[ID]", help="One card; without, all are listed.")
    ] = None,
    cards: Annotated[Path | None, typer.Option("--cards", help="Folder of your own cards.")] = None,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """List the material cards, or show one with its sources."""
    from isolator.commands import pad_and_cards

    found = pad_and_cards.cards(ident, cards)
    if as_json:
        print_json(pad_and_cards.cards_json(found, whole=ident is not None))
    elif not quiet:
        show(pad_and_cards.cards_shown(found, whole=ident is not None))
