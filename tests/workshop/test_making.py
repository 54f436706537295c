"""What to make, one line a part: every printed part of a foot is named, with its number."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import pytest
from sheets import design, foot

from geometry.draw import draw
from isolator.design import ATTACHMENTS, Foot, Slab, least_cap
from isolator.workshop.parts_list import make_lines

CARDS = {
    key: SimpleNamespace(name=name)
    for key, name in (("cr-sponge", "CR sponge"), ("tpu-85", "TPU, 85 Shore A"))
}
WORDS = {"foot": "printed foot"}


def lines(one: Foot) -> str:
    return " | ".join(make_lines(design(one), CARDS))


@pytest.mark.parametrize("kind", ["cup", "printed"])
@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_every_printed_part_is_named_with_its_number(attachment, kind) -> None:
    slot = attachment.startswith("slot")
    key = 0.0058 if slot else 0.0
    one = foot(kind, "disc", attachment, "usual")
    cap = least_cap(attachment, one.bolt, one.tube, 2e-4, key=key)
    one = replace(one, key=key, tread=0.0012, cap=max(one.cap, cap))
    told = lines(one)
    for part in draw(design(one)):
        word = WORDS.get(part.role, part.role)
        if part.role == "foot" and "mount" in told:
            word = "flexible body"
        assert f"{part.quantity} × {word}" in told, part.role
    assert ("held by" in told) == (attachment != "adhesive")


def test_a_slab_s_pads_have_no_cup_and_its_corners_are_told() -> None:
    one = foot("cup", "disc", "adhesive", "usual")
    bare = replace(one, kind="bare", sole=0.0, wall=0.0, side_room=0.0, stop=0.0)
    slab = Slab(size=(0.447, 0.462, 0.0413), position=(0.0, 0.0), gap=0.0, lip=0.006)
    assert make_lines(replace(design(bare), slab=slab), CARDS) == (
        "3 × pad, a disc 42 mm across, 12.4 mm (2 layers of 6.2 mm) high, of CR sponge, glued all "
        "over under the slab",
        "foot centres, mm right and back of the middle: (181, 192); (−183, 194); (0, −177)",
        "1 × slab of 447 × 462 × 41 mm under the printer, 4 × printed corner glued to it that hold "
        "the frame; lift it with two people, and onto a desk that bears it",
    )


@pytest.mark.parametrize(
    ("fixing", "words"),
    [
        ("screw", "held by M5"),
        ("nut", "held by M5 from above, into a nut in the cap"),
        ("insert", "held by M5 from above, into an insert set with heat"),
        ("direct", "held by M5 from above, into a thread of its own"),
    ],
)
def test_what_holds_a_foot_is_told(fixing, words) -> None:
    one = replace(foot("cup", "disc", "bolt", "usual"), bolt=0.005, fixing=fixing)
    assert lines(one).endswith(words)
