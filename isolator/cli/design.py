"""`isolator design`: the main job."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from isolator.cli.app import DEFAULT_OUT, Details, Imperial, Json, Out, Quiet, Set, app, examples
from isolator.cli.progress import Shown, progress
from isolator.cli.tell import example, kind_of, print_json, tell_answer, tell_files

if TYPE_CHECKING:
    from isolator.report.findings import Findings

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
    from isolator.brief import read_brief
    from isolator.commands.ahead import FOR_THE_REPORT, load
    from isolator.commands.beside import beside
    from isolator.reading.changes import read_changes
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

    path, kind, changed = brief or example(), kind_of(pick), read_changes(changes or ())
    read_brief(path, changed)  # what is wrong is told before anything begins
    with progress(silent) as shown, beside(shown, FOR_THE_REPORT) as begin:
        begin(load)
        from isolator.commands.design import design as job  # while the other process loads, too

        made = job(
            path,
            out,
            shown,
            kind,
            lambda found: announce(found, shown),
            changed,
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
