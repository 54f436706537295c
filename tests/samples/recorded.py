"""Recordings as files of many shapes, made from one signal."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from isolator.physics.arrays import Array

G = 9.80665
RATE = 100.0
AXES = ("x", "y", "z")


def shaken(count: int = 400, rate: float = RATE) -> tuple[Array, Array]:
    """Return times (n,) [s] and accelerations (n, 3) [m/s²]: three unlike tones, noise, gravity."""
    time = np.arange(count) / rate
    noise = np.random.default_rng(3).normal(0.0, 0.05, (count, 3))
    tones = [a * np.sin(2 * np.pi * f * time) for a, f in ((1.0, 7.0), (0.6, 11.0), (0.3, 17.0))]
    return time, np.column_stack(tones) + noise + [0.0, 0.0, G]


def lines(
    columns: Iterable[Array | Sequence[str]], separator: str = ",", digits: int = 5
) -> list[str]:
    """Return one line a row; numbers with `digits` decimals, texts as they stand."""

    def cells(each: float | str) -> str:
        return each if isinstance(each, str) else f"{each:.{digits}f}"

    return [separator.join(map(cells, row)) for row in zip(*columns, strict=True)]


def text(*parts: str | Sequence[str]) -> str:
    """Return lines as a text; each part is one line or several."""
    whole = [line for part in parts for line in ([part] if isinstance(part, str) else part)]
    return "\n".join(whole) + "\n"
