"""Several things in one clause."""

from __future__ import annotations

from collections.abc import Sequence


def listed(items: Sequence[str], word: str = "and") -> str:
    """Return items in a clause.

    >>> listed(["40", "60", "150"]), listed(["40", "60"], "or"), listed(["40"])
    ('40, 60 and 150', '40 or 60', '40')
    """
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {word} {items[-1]}"
