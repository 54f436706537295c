"""Washers under screw heads where the flange is of flexible filament."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import PRINT, design, foot

from geometry.draw import draw
from geometry.feet.bought import bought_bodies
from geometry.solids.verify import bounds
from isolator.design.screw_lengths import reach
from isolator.workshop.assembly import assembly_steps
from isolator.workshop.foot_hardware import foot_rows

WASHER = {"slot-20": "M5", "two-bolts": "M5", "self-tapping": "M4", "holes": "M4"}
"""ISO 7089 under a head of M5, ST3.5 and M4: the smallest whose hole lets the thread through."""


@pytest.mark.parametrize("attachment", WASHER)
def test_heads_on_a_soft_flange_have_washers_of_their_own(attachment: str) -> None:
    soft, hard = (foot(kind, "disc", attachment, "usual") for kind in ("printed", "cup"))
    nuts = attachment in ("two-bolts", "holes")
    count = (len(soft.holes) or 2) * len(soft.positions)
    found = {item: (n, remark) for item, n, _, remark in foot_rows((soft,), None)}
    under = "under the heads, on soft plastic"
    assert found[f"washer {WASHER[attachment]}, ISO 7089"] == (
        (f"{2 * count}", f"under the nut; {under}") if nuts else (f"{count}", under)
    )
    assert not any(under in remark for *_, remark in foot_rows((hard,), None))


def test_their_screws_are_longer_by_the_washer() -> None:
    """ISO 7089: a washer of M5 is 1 mm thick, 1.1 mm at the most."""
    for attachment in ("slot-20", "two-bolts"):
        soft = foot("printed", "disc", attachment, "usual")
        hard = replace(soft, kind="cup", pad=replace(soft.pad, printed=False))
        longer = [one - other for one, other in zip(reach(soft), reach(hard), strict=True)]
        assert longer[0] == pytest.approx(0.0011)


def test_washers_lie_between_head_and_flange_clear_of_the_foot() -> None:
    soft = foot("printed", "rectangle", "slot-20", "usual")
    (body,) = [part for part in draw(design(soft)) if part.role == "foot"]
    assert max(body.box[:2]) >= 31 + 2 * 10  # ears as wide as washers and more
    bodies = bought_bodies(soft, PRINT)
    washers = [each for each in bodies if "washers-under-the-heads" in each.name]
    heads = [each for each in bodies if each.role == "screw"]
    assert len(washers) == len(heads) == 2 * len(soft.positions)
    low, high = bounds(washers[0].solid)[2::3]
    assert (low, high) == pytest.approx((-soft.cap * 1e3 - 1.1, -soft.cap * 1e3), abs=1e-6)
    for one in heads[:2]:
        for other in washers[:2]:
            assert one.solid.intersect(other.solid).Volume() < 1e-3


def test_the_step_says_so() -> None:
    told = "Put a washer under each head: without one it sinks into the soft plastic."
    for kind in ("printed", "cup"):
        steps = assembly_steps(design(foot(kind, "disc", "slot-20", "usual")), {})
        fixed = next(step for step in steps if step.title == "Fix the feet to the frame")
        assert (told in fixed.words) == (kind == "printed")
