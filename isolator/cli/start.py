"""`isolator start`: a brief to fill in."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import Quiet, app, examples
from isolator.cli.tell import echo, next_command, path


@app.command(
    short_help="Write a brief to fill in.",
    epilog=examples(
        "isolator start my-printer.toml", "isolator start my-printer.toml --layout moving-bed"
    ),
)
def start(
    file: Annotated[Path, typer.Argument(help="Brief to write; never overwritten.")],
    layout: Annotated[
        str,
        typer.Option("--layout", help="How belts run: crossed-belt, motor-per-axis, moving-bed."),
    ] = "crossed-belt",
    quiet: Quiet = False,
) -> None:
    """Write a brief to fill in: ten questions first, every other key below a line."""
    from isolator.brief.motion import LAYOUT_MEANINGS
    from isolator.brief.starter import starter_text
    from isolator.commands.written import WRITTEN
    from isolator.physics.drive.stepper import LAYOUTS
    from isolator.reading.command_words import word
    from isolator.reading.faults import refused

    text = starter_text(word("--layout", layout, LAYOUTS, LAYOUT_MEANINGS))
    try:
        with file.open("x", encoding="utf-8") as stream:
            stream.write(text)
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
