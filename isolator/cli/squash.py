"""`isolator squash`: a material card from weights and heights."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated, Any

import typer

from isolator.cli.app import DEFAULT_OUT, Json, Out, Quiet, app, examples
from isolator.cli.tell import echo, path, print_json, terminal_width


@app.command(
    short_help="Make a material card of your own from weights and heights.",
    epilog=examples(
        "isolator squash --plan my-printer.toml",
        "isolator squash foam.toml",
        "isolator squash foam.csv --family foam --shape disc --size 40mm --thickness 20mm "
        "--id my-foam",
        "isolator squash rubber.csv --family rubber --shape rectangle --size 30mm --size 20mm "
        "--thickness 10mm --bonded --id my-rubber --brief my-printer.toml",
    ),
)
def squash(
    file: Annotated[
        Path | None,
        typer.Argument(help="CSV with mass and height in columns, units in the header; or TOML."),
    ] = None,
    plan: Annotated[
        Path | None,
        typer.Option("--plan", metavar="BRIEF", help="Tell what to squash for feet designed."),
    ] = None,
    shape: Annotated[
        str | None,
        typer.Option("--shape", help="disc, ring, rectangle or square-with-hole."),
    ] = None,
    size: Annotated[
        list[str] | None,
        typer.Option("--size", metavar="LENGTH", help="Across; twice for two sizes, outer first."),
    ] = None,
    thickness: Annotated[
        str | None, typer.Option("--thickness", metavar="LENGTH", help="Of one layer.")
    ] = None,
    layers: Annotated[int | None, typer.Option("--layers", help="Stacked on one another.")] = None,
    bonded: Annotated[
        bool | None,
        typer.Option("--bonded/--slipping", help="Faces glued or on sandpaper, or greased."),
    ] = None,
    temperature: Annotated[
        str | None, typer.Option("--temperature", metavar="TEMPERATURE", help='Such as "21 degC".')
    ] = None,
    family: Annotated[str | None, typer.Option("--family", help="rubber, foam or printed.")] = None,
    ident: Annotated[str | None, typer.Option("--id", help="Of the card, such as my-foam.")] = None,
    name: Annotated[str | None, typer.Option("--name", help="Of the card, in words.")] = None,
    like: Annotated[
        str | None,
        typer.Option("--like", metavar="ID", help="Card that lends damping and the rest."),
    ] = None,
    size_error: Annotated[
        str | None, typer.Option("--size-error", metavar="LENGTH", help="How well sizes are known.")
    ] = None,
    scale: Annotated[
        str | None, typer.Option("--scale", metavar="MASS", help="Step of the scale.")
    ] = None,
    gauge: Annotated[
        str | None, typer.Option("--gauge", metavar="LENGTH", help="Step of what reads heights.")
    ] = None,
    card: Annotated[
        Path | None, typer.Option("--card", metavar="FILE", help="Card to write; else OUT/cards.")
    ] = None,
    brief: Annotated[
        Path | None,
        typer.Option("--brief", metavar="BRIEF", help="Tell what the card makes of its feet."),
    ] = None,
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Fit a material's law to a squash test and write a card of your own.

    Several runs up and down tell more than one; the piece's shape and how its faces were held are
    taken out of the stiffness.
    """
    if plan is not None or file is None:
        _tell_plan(plan, out, as_json, quiet)
        return
    from isolator.commands.squash import squash as job
    from isolator.report.json.squash import squash_json
    from isolator.report.terminal.squash import squash_lines

    typed: dict[str, Any] = {
        "shape": shape,
        "size": size,
        "thickness": thickness,
        "layers": layers,
        "faces": None if bonded is None else "bonded" if bonded else "slipping",
        "temperature": temperature,
        "family": family,
        "id": ident,
        "name": name,
        "like": like,
        "size_error": size_error,
        "scale_step": scale,
        "gauge_step": gauge,
    }
    told = job(
        file,
        {key: value for key, value in typed.items() if value is not None},
        out,
        card=card,
        brief=brief,
    )
    if as_json:
        print_json({"squash": squash_json(told)})
    elif not quiet:
        # a brief tells its folder of cards from where it lies itself
        stock = os.path.relpath(told.file.parent, brief.parent) if brief else told.file.parent
        for line in squash_lines(told, terminal_width(), path(Path(stock))):
            echo(line)
        echo(f"card: {path(told.file)}")
        echo(f"plot: {path(told.plot)}")


def _tell_plan(brief: Path | None, out: Path, as_json: bool, quiet: bool) -> None:
    """Tell the protocol of a squash test for the feet designed from a brief."""
    from isolator.commands.squash_plan import told_plan
    from isolator.reading.command_words import COMMAND_LINE
    from isolator.reading.faults import refused
    from isolator.report.terminal.squash import plan_lines

    if brief is None:
        wanted, mend = "a file of readings", "name it, or ask for a protocol with --plan BRIEF"
        raise refused(COMMAND_LINE, "FILE", "nothing", wanted, mend)
    title, steps = told_plan(brief, out)
    if as_json:
        print_json({"squash": {"plan": {"title": title, "steps": steps}}})
    elif not quiet:
        for line in plan_lines(title, steps, terminal_width()):
            echo(line)
