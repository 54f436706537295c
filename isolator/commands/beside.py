"""Work in a second process while this one does something else."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from importlib import import_module
from multiprocessing.connection import wait as wait_for
from typing import Any, Protocol, TypeVar

from isolator.commands.libraries import few_collections, hush, keep_memory
from isolator.commands.progress import Progress, silent
from isolator.commands.undisturbed import heard, undisturbed, unheard

T = TypeVar("T")
Item = TypeVar("Item")
LOOK = 0.1
"""How often is looked at what the other process tells while it is waited for [s]."""

BEGUN = 10.0
"""For how long is waited for a process that is to be stopped to begin [s]."""

_teller: Any = None
"""Where a second process puts what it is at; None in the first."""


class Begin(Protocol):
    """Begins work, and returns what waits for it and gives what it returned."""

    def __call__(self, work: Callable[..., T], *given: object) -> Callable[[], T]:
        """Begin `work(*given)`: a function of a module, and what can be pickled."""

    def each(self, work: Callable[[Item], T], items: Sequence[Item]) -> list[T]:
        """Return what `work` makes of each item, in their order; both may do some of it."""

    def stop(self) -> None:
        """Stop what is being done: nothing that was begun writes a file after this."""


class Here:
    """Leaves work until it is waited for, and does it in this process."""

    def __call__(self, work: Callable[..., T], *given: object) -> Callable[[], T]:
        """Return what does `work(*given)`."""
        return lambda: work(*given)

    def each(self, work: Callable[[Item], T], items: Sequence[Item]) -> list[T]:
        """Return what `work` makes of each item."""
        return [work(item) for item in items]

    def stop(self) -> None:
        """Do nothing: nothing is being done."""


here = Here()


class Second:
    """Begins work in a second process, one piece after another."""

    def __init__(self, progress: Progress, idle: Sequence[str] = ()) -> None:
        # a fork would take this one's threads along in whatever state they are
        context = multiprocessing.get_context("spawn")
        self.progress, self.told = progress, context.SimpleQueue()
        self.idle = list(idle)
        self.pool = ProcessPoolExecutor(
            1, mp_context=context, initializer=_begin, initargs=(self.told,)
        )
        self.number: Future[int] | None = None

    def __call__(self, work: Callable[..., T], *given: object) -> Callable[[], T]:
        """Begin `work(*given)`, after what was begun before."""
        with undisturbed():
            begun = self._submit(work, *given)
        if begun is None:
            return here(work, *given)

        return lambda: self._come_back(begun, work, *given)

    def each(self, work: Callable[[Item], T], items: Sequence[Item]) -> list[T]:
        """Return what `work` makes of each item: the other process begins at the first of them,
        this one at the last, until they meet."""
        with undisturbed():
            begun = [self._submit(work, item) for item in items]
        made = [
            work(item) if coming is None or coming.cancel() else self._come_back(coming, work, item)
            for item, coming in zip(reversed(items), reversed(begun), strict=True)
        ]
        return made[::-1]

    def stop(self) -> None:
        """Kill the process, once it is there: cut short while it begins it would complain."""
        if self.number is None:
            return
        with suppress(OSError, RuntimeError):  # it is gone, never came, or takes too long
            os.kill(self.number.result(BEGUN), signal.SIGKILL)
        self.number = None

    def close(self) -> None:
        """Drop what nobody has waited for."""
        self.pool.shutdown(wait=False, cancel_futures=True)

    def _submit(self, work: Callable[..., T], *given: object) -> Future[T] | None:
        """Return work that is begun; None without process, memory or a place for its queue."""
        try:
            with unheard():  # the first that is begun begins the process
                if self.number is None:
                    self.number = self.pool.submit(os.getpid)
                return self.pool.submit(work, *given)
        except (OSError, RuntimeError):
            return None

    def _come_back(self, begun: Future[T], work: Callable[..., T], *given: object) -> T:
        """Return what was begun, done here where the other process has died."""
        try:
            return self._wait(begun)
        except BrokenProcessPool:
            return work(*given)

    def _wait(self, begun: Future[T]) -> T:
        while self.idle and not begun.done():
            import_module(self.idle.pop(0))
        while not wait((begun,), LOOK).done:
            while not self.told.empty():
                self.progress(*self.told.get())
        return begun.result()


def processors() -> int:
    """Return how many processors this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@contextmanager
def beside(progress: Progress = silent, idle: Sequence[str] = ()) -> Iterator[Begin]:
    """Yield what begins work in a process of its own, one after another.

    While this process first waits for something it loads the modules `idle`, one after another.

    What that work tells is shown by `progress` while it is waited for. Where no second process can
    be had, or it dies, the work is done here. What nobody waits for is dropped.
    """
    keep_memory()
    if processors() < 2:
        yield here
        return
    second = Second(progress, idle)
    try:
        yield second
    finally:
        second.stop()  # it would take a while to end by itself
        second.close()


def tell(what: str, done: int, total: int) -> None:
    """Tell whoever waits for this process what it is at."""
    if _teller is not None:
        _teller.put((what, done, total))


def _begin(told: Any) -> None:
    """Begin a second process: Ctrl-C is left to the one that waits, and it ends with that one."""
    global _teller
    _teller = told
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    heard()
    few_collections()
    keep_memory()
    hush()
    threading.Thread(target=_end_with_first, daemon=True).start()


def _end_with_first() -> None:
    first = multiprocessing.parent_process()
    if first is not None:
        wait_for([first.sentinel])
        os._exit(1)
