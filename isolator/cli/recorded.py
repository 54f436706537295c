"""Options of every command that reads recordings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from isolator.cli.tell import quantities_of

if TYPE_CHECKING:
    from isolator.recordings.options import ReadOptions

Rate = Annotated[
    str | None,
    typer.Option(
        "--rate", metavar="RATE", help="Of evenly spaced samples, such as 400; else by their times."
    ),
]
Unit = Annotated[
    str,
    typer.Option(
        "--unit",
        metavar="UNIT",
        help='What a reading of 1 is worth: g, mg, m/s^2, mm/s^2, "0.061 mg", "1/16384 g"; '
        "or counts.",
    ),
]
TimeUnit = Annotated[
    str, typer.Option("--time-unit", metavar="UNIT", help="Of the column of time: s, ms, us, ns.")
]
Columns = Annotated[
    str,
    typer.Option(
        "--columns",
        metavar="NAMES",
        help='In the file\'s order, such as "t,z,y,x" with "-" for one to pass over; or '
        '"t=time,x=ax".',
    ),
]


def read_options(rate: str | None, unit: str, time_unit: str, columns: str) -> ReadOptions:
    """Return what was said of how recordings are to be read; raises InputError."""
    from isolator.recordings.options import ReadOptions

    hertz = None if rate is None else frequency("--rate", rate)
    return ReadOptions(rate=hertz, unit=unit, time_unit=time_unit, columns=columns)


def frequency(option: str, text: str) -> float:
    """Return what was typed [Hz]; a bare number is in Hz."""
    bare = text.strip().replace(".", "", 1).isdigit()
    return quantities_of(option, [f"{text} Hz" if bare else text], "Hz")[0]
