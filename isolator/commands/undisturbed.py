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
        raise KeyboardInterrupt
