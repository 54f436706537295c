"""The command line: parses, calls one function, prints. Nothing heavy is loaded for --help."""

from __future__ import annotations

import gc
import json
import os
import signal
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, NoReturn

import typer

if TYPE_CHECKING:
    from types import FrameType

    from isolator.report.findings import Findings

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
NO_FIT, WRONG_INPUT, CANNOT_DRAW, BUG, INTERRUPTED = 1, 2, 3, 70, 130


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
        _echo(f"wrote {_path(file)}; edit it, then run: {_next(file)}")


@app.command()
def design(
    brief: Annotated[
        Path | None, typer.Argument(help="Brief; without one, the shipped example.")
    ] = None,
    out: Out = DEFAULT_OUT,
    as_json: Json = False,
    quiet: Quiet = False,
) -> None:
    """Design feet and motor spacers, draw the parts, write the report."""
    from isolator.commands.design import design as job

    with _progress(quiet or as_json) as tell:
        made = job(brief or _example(), out, tell)
    _tell(made.findings, as_json, quiet)
    if not quiet and not as_json:
        _echo(f"\nreport: {_path(made.folder, 'report.html')}")
        _echo(f"parts:  {_path(made.folder, 'parts')}")
        _tell_copies(made.folder, made.copies)
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

    speeds = _quantities("--speed", speed or [], "m/s")
    frequencies = _quantities("--frequency", frequency or [], "Hz")
    directions = _quantities("--direction", direction or [], "rad")
    first, *others = job(brief, out, speeds, frequencies, directions, now=now, others=beside or ())
    _tell(first, as_json, quiet, others)


@app.command()
def draw(
    sheet: Annotated[Path, typer.Argument(metavar="DESIGN", help="A design.toml, edited or not.")],
    out: Out = DEFAULT_OUT,
    quiet: Quiet = False,
) -> None:
    """Draw a design again."""
    from isolator.commands.draw import draw as job

    with _progress(quiet) as tell:
        drawn = job(sheet, out, tell)
    if not quiet:
        _echo(f"parts: {_path(drawn.folder, 'parts')}")
        for line in drawn.told:
            _echo(f"check: {line}")
        _tell_copies(drawn.folder, drawn.copies)


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
        _tell_lines(
            {"coupon": coupon_json(folder, manifest)},
            [
                *words.coupon_text(brief, manifest["coupon"]["material"]),
                "",
                f"coupon: {_path(folder)}",
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
    lines.append(f"stored in {_path(brief)}; next: {_next(brief)}")
    _tell_lines(
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
        _print_json({"pad": pad_and_cards.pad_json(figures)})
    elif not quiet:
        from isolator.report.terminal.summary import pad_table

        _show(
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
        _print_json(pad_and_cards.cards_json(found, whole=ident is not None))
    elif not quiet:
        _show(pad_and_cards.cards_shown(found, whole=ident is not None))


def _path(folder: Path, *parts: str) -> str:
    """Return a path as it is told."""
    from isolator.reading.printable import printable

    return printable(str(folder.joinpath(*parts)))


def _next(brief: Path) -> str:
    """Return the command that designs a brief, as a shell takes it."""
    import shlex

    from isolator.reading.printable import printable

    text = str(brief)
    # a sign that a terminal acts on is written as its code between $'…'
    if printable(text) != text:
        signs = "".join(sign if sign.isascii() and sign.isalnum() else _code(sign) for sign in text)
        return f"isolator design $'{signs}'"
    return f"isolator design {shlex.quote(text)}"


def _code(sign: str) -> str:
    return "".join(f"\\x{byte:02x}" for byte in os.fsencode(sign))


def _example() -> Path:
    from importlib.resources import files

    return Path(str(files("isolator.examples") / "reading-room.toml"))


def _quantities(option: str, texts: list[str], unit: str) -> tuple[float, ...]:
    from isolator.reading.command_words import quantities

    return quantities([option] * len(texts), texts, unit)


def _tell_copies(folder: Path, copies: tuple[str, ...]) -> None:
    for name in copies:
        _echo(f"what you had edited is kept as {folder / name}")


def _tell(findings: Findings, as_json: bool, quiet: bool, others: Sequence[Findings] = ()) -> None:
    """Print findings; `others` stand beside them in one table, or in a list of the JSON."""
    if as_json:
        from isolator.report.json.result import to_json

        told = to_json(findings)
        if others:
            told["beside"] = [to_json(each) for each in others]
        _print_json(told)
    elif not quiet:
        from isolator.report.terminal.beside import beside_table
        from isolator.report.terminal.summary import summary

        _show(summary(findings))
        if others:
            _show(beside_table((findings, *others)))


def _tell_lines(told: Any, lines: list[str], as_json: bool, quiet: bool) -> None:
    if as_json:
        _print_json(told)
    elif not quiet:
        _echo("\n".join(lines))


def _print_json(told: Any) -> None:
    from isolator.report.terminal.stream import is_unicode

    ascii_only = not is_unicode(sys.stdout)
    _echo(json.dumps(told, indent=2, ensure_ascii=ascii_only, allow_nan=False))


def _echo(text: str, err: bool = False) -> None:
    # not the command-line library's own, which goes round the streams that spell letters out
    print(text, file=sys.stderr if err else sys.stdout, flush=True)


def _show(printable: Any) -> None:
    from rich.console import Console

    Console().print(printable)


@contextmanager
def _progress(quiet: bool) -> Iterator[Any]:
    """Show what is being done, on a terminal's error stream only."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    console = Console(stderr=True)
    if quiet or not console.is_terminal:
        yield lambda what, done, total: None
        return
    columns = (TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn())
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task("starting", total=None)

        def tell(what: str, done: int, total: int) -> None:
            bar.update(task, description=what, completed=done, total=total)

        yield tell


def main() -> None:
    """Run the command line; every fault becomes one line and an exit code, never a traceback."""
    from isolator.commands.libraries import quiet_libraries
    from isolator.commands.written import WRITTEN
    from isolator.reading.faults import InputError
    from isolator.report.terminal.stream import PrintError, open_streams, shut

    # a command lives for seconds and makes many small objects: looking for cycles among them as
    # often as usual would take a tenth of its time
    gc.set_threshold(100_000, 20, 50)
    interrupted = _note_interrupt()
    WRITTEN.clear()
    open_streams()
    try:
        with quiet_libraries():
            app(standalone_mode=True)
    except InputError as error:
        _leave(WRONG_INPUT, *(fault.line() for fault in error.faults))
    except PrintError as error:
        shut(1)
        _leave(
            WRONG_INPUT,
            f"stdout: found {error}; wanted a place that can be printed to; "
            f"print to a file, or ask for --quiet{_said_of_files()}",
        )
    except Exception as error:
        if interrupted:
            sys.exit(INTERRUPTED)
        if _is_refusal(error):
            _leave(CANNOT_DRAW, str(error))
        if isinstance(error, OSError) and error.filename is not None:
            _leave(WRONG_INPUT, _unusable(error))
        _leave(
            BUG,
            f"isolator: a bug of this program, not of your input "
            f"({type(error).__name__}: {error}){_said_of_files() or '; nothing was written'}",
        )


def _leave(code: int, *lines: str) -> NoReturn:
    """Tell on standard error what went wrong, if it takes anything, and end."""
    from isolator.reading.printable import printable
    from isolator.report.terminal.stream import PrintError, shut

    try:
        for line in lines:
            _echo("\n".join(printable(each) for each in line.split("\n")), err=True)
    except PrintError:
        shut(2)
    sys.exit(code)


def _said_of_files() -> str:
    """Return what this run has written, to be told after something else."""
    from isolator.commands.written import WRITTEN

    return f"; written and whole: {', '.join(WRITTEN)}" if WRITTEN else ""


def _unusable(error: OSError) -> str:
    """Return the fault of a file or folder that the system does not let us use."""
    from isolator.reading.faults import Fault

    return Fault(
        file=str(error.filename),
        key="",
        got=(error.strerror or "an error of the disk").lower(),
        wanted="a file or folder that can be used",
        suggestion="check the path and its rights",
    ).line()


def _note_interrupt() -> list[bool]:
    """Return a list that gets an entry when the user presses Ctrl-C, or ends the run politely.

    Both clean up in the same way. The drawing kernel turns an interrupt that falls into its
    loading into an ImportError.
    """
    seen: list[bool] = []

    def stop(number: int, frame: FrameType | None) -> None:
        seen.append(True)
        raise KeyboardInterrupt

    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGINT, stop)
        signal.signal(signal.SIGTERM, stop)
    return seen


def _is_refusal(error: Exception) -> bool:
    """Return whether a part cannot be drawn as asked, without loading the drawing kernel."""
    drawing = sys.modules.get("geometry.solids.part")
    return drawing is not None and isinstance(error, drawing.CannotDraw)
