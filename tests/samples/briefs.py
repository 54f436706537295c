"""Briefs for tests: the example with texts swapped, a bare one, and the faults of one refused."""

from __future__ import annotations

import re
from importlib import resources

import pytest

from isolator.brief import read_brief_text
from isolator.reading.faults import InputError

EXAMPLES = resources.files("isolator.examples")
ROOM = (EXAMPLES / "reading-room.toml").read_text(encoding="utf-8")
SPEEDS = re.search(r"(?m)^speeds = .*$", ROOM).group()  # type: ignore[union-attr]
PLACES = re.search(r"(?m)^positions = .*$", ROOM).group()  # type: ignore[union-attr]
BARE = """
name = "Bare printer"
[printer]
mass = "9 kg"
size = ["380 mm", "410 mm", "450 mm"]
[motion]
layout = "moving-bed"
speeds = ["50 mm/s"]
"""


def faults(text: str) -> list[str]:
    """Return the lines of the faults for which a brief is refused."""
    with pytest.raises(InputError) as refusal:
        read_brief_text(text, "brief.toml")
    return [fault.line() for fault in refusal.value.faults]


def swapped(*pairs: tuple[str, str], text: str = ROOM) -> str:
    """Return a brief with each old text of it replaced by the new one."""
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def with_motor(motor: str = "", motion: str = "", more: str = "") -> str:
    """Return a bare brief with lines added to its motion, its one motor and its end."""
    return f"{BARE}{motion}\n[[motor]]\nname = 'bed'\n{motor}\n{more}\n"
