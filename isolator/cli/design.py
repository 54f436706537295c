"""`isolator design`: the main job."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import DEFAULT_OUT, Details, Imperial, Json, Out, Quiet, Set, app, examples
from isolator.cli.progress import Shown, progress
from isolator.cli.tell import example, kind_of, print_json, tell_answer, tell_files

NO_FIT = 1
"""Exit code where no design meets the limits."""


@app.command(
    short_help="Design feet and motor mounts; draw them; write the report.",
    epilog=examples(
        "isolator design",
        "isolator design my-printer.toml",
        "isolator design my-printer.toml --pick foam --details",
        'isolator design my-printer.toml --set limits.sway="0.8 mm"',
    ),
)
def design(
    brief: Annotated[
        Path | None, typer.Argument(help="Brief; without one, the shipped example.")
    ] = None,
    pick: Annotated[
        str | None,
        typer.Option(
            "--pick",
            metavar="KIND",
            help="Feet of one kind: rubber, foam, printed, half-ball, bought, or keep today's; or "
            "slab: pads under a paver.",
        ),
    ] = None,
    changes: Set = None,
    out: Out = DEFAULT_OUT,
    details: Details = False,
    imperial: Imperial = False,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Design feet and motor mounts, draw the parts, write the report.

    The answer is printed as soon as it is known; drawing goes on after it.
    """
    from isolator.commands.beside import beside
    from isolator.commands.design import design as job
    from isolator.reading.changes import read_changes
    from isolator.report.findings import Findings
    from isolator.report.terminal.stream import PrintError

    silent = quiet or as_json
    lost: list[PrintError] = []

    def announce(found: Findings, shown: Shown) -> None:
        if silent:
            return
        try:
            with shown.aside():
                tell_answer(found, details, imperial)
        except PrintError as error:
            lost.append(error)  # the parts are drawn all the same

    with progress(silent) as shown, beside(shown) as begin:
        made = job(
            brief or example(),
            out,
            shown,
            kind_of(pick),
            lambda found: announce(found, shown),
            read_changes(changes or ()),
            begin,
            imperial=imperial,
        )
    if lost:
        raise lost[0]
    if as_json:
        from isolator.report.json.result import to_json

        print_json(to_json(made.findings))
    elif not quiet:
        tell_files(made)
    raise typer.Exit(0 if made.findings.passed else NO_FIT)
