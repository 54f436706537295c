"""Odd briefs that are accepted: drawn from a seed, wide of anything usual in every way at once."""

from __future__ import annotations

import math
import random

LAYOUTS = ("crossed-belt", "motor-per-axis", "moving-bed")
AXES = ("x", "y", "z", "-x", "-y", "-z")
WISHES = ("auto", "always", "none")
SHAPES = ("disc", "ring", "rectangle", "square-with-hole")
FEW = """
[stock]
materials = [{materials}]
shapes = ["{shape}"]
widths = ["18 mm", "42 mm", "8 mm"]

[damper]
materials = ["nr-40"]
thicknesses = ["3 mm"]
"""


def odd_brief(seed: int) -> str:
    """Return one brief: 0 to 8 motors, 3 to 12 feet, 0.3 to 300 kg, 0.1 to 5000 mm/s.

    The same seed gives the same brief. Its stock is small, so that it is solved soon.
    """
    dice = random.Random(seed)
    size = [dice.uniform(120.0, 900.0) for _ in range(3)]
    layout = LAYOUTS[seed % 3]
    speeds = {_log(dice, 0.1, 5000.0) for _ in range(dice.randint(1, 3))}
    told = [
        f'name = "Odd {seed}"\n[printer]\nmass = "{_log(dice, 0.3, 300.0):.4g} kg"',
        f"size = {_lengths(size)}",
        f'[motion]\nlayout = "{layout}"',
        "speeds = [" + ", ".join(f'"{each:.4g} mm/s"' for each in sorted(speeds)) + "]",
        f'acceleration = "{_log(dice, 50.0, 30000.0):.4g} mm/s^2"',
        f'tool_mass = "{_log(dice, 0.05, 2.0):.3g} kg"',
    ]
    told += [_motor(dice, layout, number, size) for number in range(1, dice.randint(0, 8) + 1)]
    told += [_feet(dice, size, dice.randint(3, 12))]
    materials = dice.choice(['"sponge-2", "nr-40"', '"sponge-3"', '"nr-60", "vmq-20"'])
    told += [FEW.format(materials=materials, shape=dice.choice(SHAPES))]
    return "\n".join(told) + "\n"


def _log(dice: random.Random, low: float, high: float) -> float:
    return math.exp(dice.uniform(math.log(low), math.log(high)))


def _lengths(values: list[float]) -> str:
    return "[" + ", ".join(f'"{each:.1f} mm"' for each in values) + "]"


def _motor(dice: random.Random, layout: str, number: int, size: list[float]) -> str:
    drives = "both" if layout == "crossed-belt" else dice.choice(("x", "y"))
    told = [f'[[motor]]\nname = "motor {number}"\nframe_size = {dice.choice((14, 17, 23))}']
    if dice.random() < 0.7:
        told.append(f'drives = "{drives}"')
    if dice.random() < 0.6:
        place = [dice.uniform(-0.5, 0.5) * each for each in size[:2]]
        told.append(f"position = {_lengths([*place, dice.uniform(0.0, size[2])])}")
    if dice.random() < 0.5:
        told.append(f'axis = "{dice.choice(AXES)}"')
    if dice.random() < 0.3:
        told.append(f'damper = "{dice.choice(WISHES)}"')
    return "\n".join(told)


def _feet(dice: random.Random, size: list[float], count: int) -> str:
    """Return places round the printer's middle, all within its outside."""
    turned = dice.uniform(0.0, math.tau)
    places = []
    for index in range(count):
        angle = turned + math.tau * (index + dice.uniform(-0.2, 0.2)) / count
        out = dice.uniform(0.7, 0.95)
        x, y = (
            out * each / 2.0 * f(angle)
            for each, f in zip(size[:2], (math.cos, math.sin), strict=True)
        )
        places.append(_lengths([x, y]))
    return f"[feet]\npositions = [{', '.join(places)}]"
