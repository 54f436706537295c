"""Work against a reference, both timed in one run: their ratio holds on any machine.

Processor time is compared, as other work on the machine moves it least. Work and reference take
turns, so that whatever slows the machine slows both, and the least time of each counts: that is the
nearest to the work itself. Each bound is some 1.6 times what was measured, on two cores under loads
from 1 to 9, where the ratios moved by 5 %: work that takes twice as long breaks it.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).parents[2]
KERNEL = "import cadquery"
"""What every program that draws has to load first."""


class Spent(NamedTuple):
    """Processor time, and the same by the clock [s]."""

    work: float
    clock: float


class Paired(NamedTuple):
    """The least times of some work and of its reference."""

    own: Spent
    reference: Spent

    def hold(
        self, most: float, name: str, reference: str, capsys: pytest.CaptureFixture[str]
    ) -> None:
        """Print what was measured, and hold the ratio of processor times below `most`."""
        ratio = self.own.work / self.reference.work
        clock = self.own.clock / self.reference.clock
        with capsys.disabled():
            print(
                f"\n{name}: {self.own.work:.3g} s of work, {self.own.clock:.3g} s by the clock; "
                f"{ratio:.2f} times {reference} ({self.reference.work:.3g} s), {most:g} allowed; "
                f"{clock:.2f} times by the clock"
            )
        assert ratio < most


def spent(work: Callable[[], object]) -> Spent:
    """Return what some work takes, all its threads and child processes among it."""
    before, start = processor(), time.perf_counter()
    work()
    return Spent(processor() - before, time.perf_counter() - start)


def processor() -> float:
    """Return the processor time [s] of this process and of the children that have ended."""
    every = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(each.ru_utime + each.ru_stime for each in every)


def paired(rounds: int, own: Callable[[], object], reference: Callable[[], object]) -> Paired:
    """Run some work and its reference in turns, and return the least times of each."""
    turns = [(spent(own), spent(reference)) for _ in range(rounds)]
    return Paired(*(Spent(*map(min, zip(*each, strict=True))) for each in zip(*turns, strict=True)))


def python(folder: Path, code: str, *words: str) -> str:
    """Run code in an interpreter of its own, and return what it printed."""
    ran = subprocess.run(
        [sys.executable, "-c", code, *words],
        capture_output=True,
        text=True,
        check=False,
        cwd=folder,
        env={"PYTHONPATH": str(ROOT), "HOME": str(folder), "PATH": ""},
    )
    assert ran.returncode == 0, ran.stderr
    return ran.stdout
