"""One of a few words: which one was meant, by its spelling or by its meaning."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence

from isolator.reading.units import is_everyday

ALIKE = 0.75
"""How alike two spellings must be, as `difflib` counts; below it lie other words."""
_SHORTEST = 4
"""Letters of a word that may be a slip of another; of shorter ones each letter tells."""
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def same_word(typed: str, options: Sequence[str]) -> str:
    """Return the option that `typed` is a slip of; empty where it is none, or has other digits.

    >>> same_word("Crossed belt", ("crossed-belt",)), same_word("slot-40", ("slot-20", "slot-30"))
    ('crossed-belt', '')
    """
    word = re.sub("[ _]+", "-", typed[:40].strip().casefold())
    for option in options:
        if option in (word, word.removesuffix("s")) or option == f"{word}s":
            return option
    if len(word) < _SHORTEST:
        return ""
    near = difflib.get_close_matches(word, options, n=1, cutoff=ALIKE)
    return near[0] if near and _digits(near[0]) == _digits(word) else ""


def by_meaning(typed: str, options: Sequence[str], meanings: Mapping[str, str]) -> str:
    """Return the option that comes nearest to what `typed` means; empty where none does.

    `meanings` tells the option by words of the trade, the telling ones first; "" is none of them.
    """
    words = f" {' '.join(re.split('[^a-z0-9]+', typed[:80].casefold()))} "
    plain = {option: option for option in options if len(option) >= _SHORTEST - 1}
    for word, option in (*meanings.items(), *plain.items()):
        if f" {word.replace('-', ' ')} " in words:
            return option
    return ""


def bare_number(text: str, whole: bool) -> str:
    """Return the one plain number that `text` holds ("size 17", "1/16" of whole ones), else "".

    A number with an everyday unit is no plain one.
    """
    share = re.fullmatch(r"1/([0-9]+)", text.strip())
    if whole and share:
        return share.group(1)
    found = _NUMBER.findall(text[:40])
    unit = text[:40].strip().lstrip("0123456789.").strip()
    return found[0] if len(found) == 1 and "-" not in text and not is_everyday(unit) else ""


def bare(raw: object, within: tuple[float, float], whole: bool) -> str:
    """Return how to write the plain number within two ends that `raw` means."""
    if whole and isinstance(raw, float) and raw.is_integer() and within[0] <= raw <= within[1]:
        return f"write it as {int(raw)}"
    if not isinstance(raw, str):
        return "check the value"
    number = bare_number(re.sub(r"(?<=\d),(?=\d{1,2}(?!\d))", ".", raw), whole)
    if number and "%" in raw and not whole and within[0] <= float(number) / 100 <= within[1]:
        return f"{number} % is {float(number) / 100:g}: write it bare, as {float(number) / 100:g}"
    if number and not (whole and "." in number) and within[0] <= float(number) <= within[1]:
        return f"write it bare, as {number}"
    return "write it bare, without quotes or unit"


def _digits(word: str) -> str:
    return "".join(filter(str.isdigit, word))
