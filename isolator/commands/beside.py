"""Work in a second process while this one does something else."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import TypeVar

T = TypeVar("T")


@contextmanager
def beside(work: Callable[..., T], *given: object) -> Iterator[Callable[[], T]]:
    """Begin `work(*given)` in a process of its own; yield what waits for it and returns it.

    `work` is a function of a module, and what it is given can be pickled. Where no second process
    can be had, or it dies, the work is done here. What nobody waits for is dropped.
    """
    if (os.cpu_count() or 1) < 2:
        yield lambda: work(*given)
        return
    # a fork would take this one's threads along in whatever state they are
    context = multiprocessing.get_context("spawn")
    pool = ProcessPoolExecutor(max_workers=1, mp_context=context, initializer=_deaf)
    begun: Future[T] | None = None
    try:
        try:
            begun = pool.submit(work, *given)
        except (OSError, RuntimeError):
            begun = None  # no process, no memory, no place for its queue

        def wait() -> T:
            try:
                return work(*given) if begun is None else begun.result()
            except BrokenProcessPool:
                return work(*given)

        yield wait
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _deaf() -> None:
    """Leave Ctrl-C to the process that waits."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
