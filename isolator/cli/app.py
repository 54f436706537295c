"""The program as a whole: its name, its version, the options that many commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

app = typer.Typer(
    name="isolator",
    help="Designs feet and motor mounts that keep a desktop 3D printer from droning through its "
    "desk.",
    epilog="First try:  isolator design   (the shipped example, into out/)",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

Out = Annotated[Path, typer.Option("--out", metavar="FOLDER", help="Folder that output goes into.")]
Json = Annotated[bool, typer.Option("--json", help="Print the result as JSON.")]
Quiet = Annotated[bool, typer.Option("--quiet", help="Print nothing but errors and JSON.")]
Details = Annotated[
    bool, typer.Option("--details", help="Print all that was found below the answer.")
]

Imperial = Annotated[
    bool, typer.Option("--imperial", help="Print inches and pounds beside metric figures.")
]
Set = Annotated[
    list[str] | None,
    typer.Option(
        "--set",
        metavar="KEY=VALUE",
        help='A key of the brief, such as printer.mass="12 kg" or motor[2].mass="0.3 kg"; may be '
        "repeated.",
    ),
]
Speeds = Annotated[
    list[str] | None,
    typer.Option(
        "--speed",
        "--speeds",
        metavar="SPEED",
        help='Such as "60 mm/s", a range "20 to 120 mm/s", or 20:120:20 in mm/s; may be repeated.',
    ),
]

DEFAULT_OUT = Path("out")


def examples(*lines: str) -> str:
    """Return the end of a command's help: commands that may be typed as they stand."""
    return "\n".join(("\b", "Examples:", *(f"  {line}" for line in lines)))


def _version(asked: bool) -> None:
    if asked:
        from isolator.cli.tell import echo
        from isolator.design.version import version

        echo(f"isolator {version()}")
        raise typer.Exit


@app.callback()
def whole(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_version, is_eager=True, help="Print the version."),
    ] = False,
) -> None:
    """Take what comes before a command."""
