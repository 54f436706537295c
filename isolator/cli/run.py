"""Runs a command: every fault becomes one line and an exit code, never a traceback."""

from __future__ import annotations

import signal
import sys
import threading
from typing import TYPE_CHECKING, NoReturn

from isolator.cli.commands import app
from isolator.cli.tell import echo

if TYPE_CHECKING:
    from types import FrameType

WRONG_INPUT, CANNOT_DRAW, BUG, INTERRUPTED = 2, 3, 70, 130
AGAIN = 0.05
"""After how long is looked again whether a module still loads [s]."""
LOADER = "<frozen importlib._bootstrap>"
"""The file that the interpreter names for what loads modules."""


def main() -> None:
    """Run the command line; every fault becomes one line and an exit code, never a traceback."""
    from isolator.commands.libraries import few_collections, quiet_libraries
    from isolator.commands.written import WRITTEN
    from isolator.reading.faults import InputError
    from isolator.report.terminal.stream import PrintError, open_streams, shut

    few_collections()
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
            echo("\n".join(printable(each) for each in line.split("\n")), err=True)
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

    Both clean up in the same way. An interrupt waits while a library loads: some swallow it there,
    and the drawing kernel makes an ImportError of it.
    """
    seen: list[bool] = []

    def stop(number: int, frame: FrameType | None) -> None:
        if _loads(frame):
            again = threading.Timer(AGAIN, signal.raise_signal, (number,))
            again.daemon = True
            again.start()
            return
        seen.append(True)
        raise KeyboardInterrupt

    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGINT, stop)
        signal.signal(signal.SIGTERM, stop)
    return seen


def _loads(frame: FrameType | None) -> bool:
    """Return whether a module is being loaded where a signal came."""
    while frame is not None:
        if frame.f_code.co_filename == LOADER:
            return True
        frame = frame.f_back
    return False


def _is_refusal(error: Exception) -> bool:
    """Return whether a part cannot be drawn as asked, without loading the drawing kernel."""
    drawing = sys.modules.get("geometry.solids.part")
    return drawing is not None and isinstance(error, drawing.CannotDraw)
