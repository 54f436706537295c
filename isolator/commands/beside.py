"""Work in a second process while this one does something else."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import Protocol, TypeVar

T = TypeVar("T")


class Begin(Protocol):
    """Begins work, and returns what waits for it and gives what it returned."""

    def __call__(self, work: Callable[..., T], *given: object) -> Callable[[], T]:
        """Begin `work(*given)`: a function of a module, and what can be pickled."""


def processors() -> int:
    """Return how many processors there are."""
    return os.cpu_count() or 1


def here(work: Callable[..., T], *given: object) -> Callable[[], T]:
    """Leave work until it is waited for, and do it in this process."""
    return lambda: work(*given)


@contextmanager
def beside() -> Iterator[Begin]:
    """Yield what begins work in a process of its own, one after another.

    Where no second process can be had, or it dies, the work is done here. What nobody waits for is
    dropped.
    """
    if processors() < 2:
        yield here
        return
    # a fork would take this one's threads along in whatever state they are
    context = multiprocessing.get_context("spawn")
    pool = ProcessPoolExecutor(max_workers=1, mp_context=context, initializer=_deaf)

    def begin(work: Callable[..., T], *given: object) -> Callable[[], T]:
        try:
            begun: Future[T] = pool.submit(work, *given)
        except (OSError, RuntimeError):
            return here(work, *given)  # no process, no memory, no place for its queue

        def wait() -> T:
            try:
                return begun.result()
            except BrokenProcessPool:
                return work(*given)

        return wait

    try:
        yield begin
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _deaf() -> None:
    """Leave Ctrl-C to the process that waits."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
