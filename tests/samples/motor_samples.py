"""Motors and briefs for tests: unequal numbers, no defaults left to chance."""

from __future__ import annotations

import dataclasses
import functools

from isolator.brief import Brief, Motor, read_brief_text

TEXT = """
name = "Bench"
[printer]
mass = "9.7 kg"
size = ["380 mm", "410 mm", "450 mm"]
[motion]
layout = "crossed-belt"
speeds = ["52 mm/s", "90 mm/s"]
steps_per_turn = 400
belt_tension = "18 N"
[[motor]]
name = "left"
shaft_length = "24 mm"
pulley_standoff = "4 mm"
[[motor]]
name = "right"
frame_size = 14
shaft_length = "22 mm"
pulley_standoff = "6.5 mm"
"""


@functools.cache
def _read() -> Brief:
    # once: a property test asks for it a hundred times
    return read_brief_text(TEXT, "bench.toml")


def bench(**changes: object) -> Brief:
    """Return a brief with two unequal motors; `changes` to the first of them."""
    brief = _read()
    first, *rest = brief.motors
    return dataclasses.replace(brief, motors=(dataclasses.replace(first, **changes), *rest))


def motor(**changes: object) -> Motor:
    """Return the first motor of the bench, changed."""
    return bench(**changes).motors[0]
