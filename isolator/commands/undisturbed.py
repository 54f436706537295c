"""What an interrupt must not cut in two: a kernel that loads, a process that begins."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def undisturbed() -> Iterator[None]:
    """Let Ctrl-C and a polite kill wait until what is done here is done."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    waiting: list[int] = []
    before = {
        each: signal.signal(each, lambda number, frame: waiting.append(number))
        for each in (signal.SIGINT, signal.SIGTERM)
    }
    try:
        yield
    finally:
        for each, handler in before.items():
            signal.signal(each, handler or signal.SIG_DFL)
        if waiting:
            raise KeyboardInterrupt  # whatever else went wrong


@contextmanager
def unheard() -> Iterator[None]:
    """Let a process that begins here not hear Ctrl-C, which a terminal sends to all at once.

    It would end with a traceback. It ignores what has come, as soon as it is told to, and then
    calls `heard`; this process hears what has come at the end of this.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, (signal.SIGINT,))
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def heard() -> None:
    """Let this process hear Ctrl-C again: it began in `unheard`."""
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, (signal.SIGINT,))
