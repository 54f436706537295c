"""`isolator start`: a brief to fill in."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from isolator.cli.app import Quiet, app, examples
from isolator.cli.tell import echo, next_command, path


@app.command(
    short_help="Write a brief to fill in.",
    epilog=examples("isolator start my-printer.toml"),
)
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
