"""What stands on the desk decides how far a printer is from sliding."""

from __future__ import annotations

import pytest

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.commands.design import solve
from isolator.design.soles import FRICTION, USUAL_TREAD
from isolator.report.findings import Findings
from isolator.report.sentences.checks import advice

BRIEF = """
name = "Plain printer"
[printer]
mass = "9 kg"
size = ["420 mm", "420 mm", "460 mm"]
[motion]
layout = "crossed-belt"
speeds = ["60 mm/s", "150 mm/s"]
acceleration = "{acceleration} mm/s^2"
[[motor]]
name = "left"
position = ["-168 mm", "150 mm", "378 mm"]
[[motor]]
name = "right"
position = ["168 mm", "150 mm", "378 mm"]
[feet]
attachment = "adhesive"
{feet}
[stock]
materials = ["{material}"]
shapes = ["disc"]
widths = ["14 mm", "60 mm", "4 mm"]
[limits]
least_gain_db = -20
{limits}
"""


def solved(
    acceleration: float, material: str = "sponge-2", feet: str = "", limits: str = ""
) -> Findings:
    text = BRIEF.format(acceleration=acceleration, material=material, feet=feet, limits=limits)
    return solve(read_brief_text(text, "plain.toml"), load_cards(), lambda *_: None)


def tread(found: Findings) -> float:
    assert found.design is not None
    (foot,) = found.design.feet
    return foot.tread


def friction(found: Findings, acceleration: float) -> float:
    """Return the friction that the static margin was worked out with: mu m g = margin m_moved a."""
    push = found.chosen.stability.slip_margin * 0.75 * acceleration * 1e-3  # 0.35 + 0.4 kg move
    return push / (9.0 * 9.80665)


def sliding(found: Findings) -> bool:
    (check,) = (each for each in found.checks if each.name == "sliding")
    return check.passed


def test_a_bare_sole_stays_where_it_holds_and_gets_a_tread_where_it_would_slip() -> None:
    slow, fast = solved(700), solved(2000)
    assert tread(slow) == 0.0
    assert friction(slow, 700) == pytest.approx(FRICTION["bare sole"])
    assert tread(fast) == pytest.approx(USUAL_TREAD)
    assert friction(fast, 2000) == pytest.approx(FRICTION["tread"])
    assert sliding(slow)
    assert sliding(fast)


def test_a_bare_sole_that_was_asked_for_is_told_where_it_slips() -> None:
    found = solved(2000, feet='tread = "0 mm"', limits="slip_margin = 4")
    assert tread(found) == 0.0
    (check,) = (each for each in found.checks if each.name == "sliding")
    assert not check.passed
    assert advice(check) == (
        "it would pass at 800 mm/s^2 (motion.acceleration), or with friction of 0.52 on the desk "
        "(limits.desk_friction, measured); or put a flexible tread under the soles with feet.tread"
    )


@pytest.mark.parametrize(
    ("material", "limits", "expected"),
    [
        ("tpu-85-gyroid-15", "", FRICTION["pad"]),  # it stands on its own flexible skin
        ("sponge-2", "desk_friction = 0.61", 0.61),
    ],
)
def test_flexible_feet_grip_as_rubber_does_and_what_was_measured_rules(
    material: str, limits: str, expected: float
) -> None:
    found = solved(2000, material, limits=limits)
    assert tread(found) == 0.0
    assert friction(found, 2000) == pytest.approx(expected)
