"""A cover holds every pair in few rows, and what is beyond it is marked and not left out."""

from __future__ import annotations

from itertools import combinations, product

from pairwise import cover, spread
from sheets import EVERY_FOOT


def test_a_cover_holds_every_pair_of_every_two_columns() -> None:
    few = cover(EVERY_FOOT)
    for one, other in combinations(range(4), 2):
        assert {(row[one], row[other]) for row in few} == {
            (row[one], row[other]) for row in EVERY_FOOT
        }
    assert len(few) < len(EVERY_FOOT) / 4


def test_what_is_beyond_the_cover_is_marked_and_not_left_out() -> None:
    rows = list(product([("a", 1), ("b", 2)], "cd", "ef"))
    found = spread(rows)
    assert [each.values for each in found] == [(*one, *others) for one, *others in rows]
    marked = [[mark.name for mark in each.marks] for each in found]
    assert marked == [[] if row in cover(rows) else ["slow"] for row in rows]
    assert 4 <= marked.count([]) < len(rows)
