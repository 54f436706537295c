"""What is being done, shown while it is done: on a terminal's error stream, and nowhere else."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID


class Shown:
    """A bar that tells what is being done; without one it takes every word and shows nothing."""

    def __init__(self, bar: Progress | None = None, task: TaskID | None = None) -> None:
        self._bar, self._task = bar, task

    def __call__(self, what: str, done: int, total: int) -> None:
        """Show what is being done, how much is done, of how much."""
        if self._bar is not None and self._task is not None:
            self._bar.update(self._task, description=what, completed=done, total=total)

    @contextmanager
    def aside(self) -> Iterator[None]:
        """Take the bar away while something is printed."""
        if self._bar is None:
            yield
            return
        self._bar.stop()
        try:
            yield
        finally:
            self._bar.start()


@contextmanager
def progress(quiet: bool) -> Iterator[Shown]:
    """Show a bar where standard error is a terminal, unless `quiet`."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    console = Console(stderr=True)
    if quiet or not console.is_terminal:
        yield Shown()
        return
    columns = (TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn())
    # standard output keeps to itself: it may go into a file while the bar is shown
    with Progress(
        *columns, console=console, transient=True, redirect_stdout=False, redirect_stderr=False
    ) as bar:
        yield Shown(bar, bar.add_task("starting", total=None))
