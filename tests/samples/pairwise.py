"""Combinations of values that hardly act on each other: every pair of them in few rows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import chain, combinations
from typing import Any

import pytest
from _pytest.mark import ParameterSet

Row = tuple[Any, ...]


def cover(rows: Iterable[Row], of: int = 2) -> list[Row]:
    """Return few of the rows that hold every pair of values that any row holds.

    `of` 1: every value; 3: every three of them. Values are used about equally often.

    >>> from itertools import product
    >>> len(cover(product("abcd", range(3), (True, False))))
    12
    >>> cover(product("abc", (1, 2)), of=1)
    [('a', 1), ('b', 2), ('c', 1)]
    """
    sets = {row: frozenset(combinations(enumerate(row), of)) for row in rows}
    left = set().union(*sets.values())
    used: Counter[tuple[int, Any]] = Counter()
    found = []
    while left:
        best = max(
            sets,
            key=lambda row: (len(left & sets[row]), -sum(used[each] for each in enumerate(row))),
        )
        found.append(best)
        left -= sets[best]
        used.update(enumerate(best))
    return found


def spread(rows: Iterable[Row], of: int = 2) -> list[ParameterSet]:
    """Return rows for `parametrize`: those of a cover, and the others marked slow.

    A tuple in a row counts as one value, and is several of the test's.
    """
    every = list(rows)
    plain = set(cover(every, of))
    return [
        pytest.param(
            *chain.from_iterable(each if isinstance(each, tuple) else (each,) for each in row),
            marks=() if row in plain else pytest.mark.slow,
        )
        for row in every
    ]


def slowly(*rows: Row) -> list[ParameterSet]:
    """Return rows for `parametrize`, all marked slow."""
    return [pytest.param(*row, marks=pytest.mark.slow) for row in rows]
