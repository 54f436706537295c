"""Feet on tapped ends come off again: a key reaches their screw through the glued foot."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import cadquery as cq
import numpy as np
import pytest
from command import example
from sheets import PRINT, SIZES, design, foot

from geometry.draw import draw
from geometry.feet.bought import screws
from geometry.pictures.picture import standing_alone
from geometry.solids.verify import bounds, verify
from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.design import Foot, least_cap
from isolator.feet.candidates import candidates
from isolator.feet.task import build_feet_task
from isolator.workshop.assembly import assembly_steps

# Hexagon keys of button heads, ISO 7380-1, by thread: across flats [mm], from memory
KEYS = {"small": (4.0, 2.5), "usual": (5.0, 3.0), "large": (8.0, 5.0)}


def held(kind: str, shape: str, size: str) -> Foot:
    one, bolt = foot(kind, shape, "tapped-end", size), KEYS[size][0] / 1e3
    cap = max(one.cap, least_cap("tapped-end", bolt, 0.0, PRINT.layer))
    return replace(one, bolt=bolt, cap=cap, tread=0.0016)


@pytest.mark.parametrize(
    ("kind", "shape", "size"), product(("cup", "printed"), ("ring", "square-with-hole"), SIZES)
)
def test_a_key_goes_up_through_the_glued_foot_to_its_screw(kind, shape, size) -> None:
    one = held(kind, shape, size)
    parts = draw(design(one))
    bodies = standing_alone(one, parts)
    (driven,) = (each for each in screws(one, PRINT) if each.name == "screw")
    head, desk = bounds(driven.solids[0])[2], min(bounds(body.solid)[2] for body in bodies)
    assert desk == pytest.approx(-one.height * 1e3, abs=1e-6)
    across = KEYS[size][1] * 2 / math.sqrt(3)  # corners of the hexagon, which turns
    key = cq.Solid.makeCylinder(across / 2, head - desk + 1.0, cq.Vector(0, 0, desk - 1.0))
    room = min(key.distance(body.solid) for body in bodies)
    assert room > 0.5  # play all round
    # what the pad bears on is whole: its own hole is wider than the key's
    assert one.key_hole <= one.pad.second
    for part in parts:
        figures = verify(part, PRINT)
        assert figures.overhang == 0.0
        assert figures.thinnest_wall > 0.4
        assert part.solid.Volume() == pytest.approx(part.volume, rel=1e-5)  # kernel: 1e-6
    bored = {part.role for part in parts if any("key goes through" in note for note in part.notes)}
    assert bored == ({"cover", "sole", "tread"} if kind == "cup" else {"tread"})


def test_a_pad_without_a_hole_or_with_a_narrow_one_hides_its_screw_and_that_is_said() -> None:
    solid, narrow = held("cup", "disc", "usual"), held("cup", "ring", "usual")
    narrow = replace(narrow, pad=replace(narrow.pad, second=0.0054))  # the key needs 5.5 mm
    through = held("cup", "ring", "usual")
    told = {}
    for name, one in (("solid", solid), ("narrow", narrow), ("through", through)):
        steps = assembly_steps(design(one), {"cr-sponge": "Sponge"})
        told[name] = " ".join(line for step in steps for line in step.words)
        assert ("a hexagon key of 3 mm up through the hole" in told[name]) == (name == "through")
        assert ("only by cutting its pad away" in told[name]) == (name != "through")
    assert not any("key goes" in note for part in draw(design(narrow)) for note in part.notes)


def test_the_search_offers_tapped_ends_pads_that_a_key_goes_through() -> None:
    text = example("reading-room").replace('"slot-20"', '"tapped-end"')
    assert '"tapped-end"' in text
    brief = read_brief_text(text, "brief.toml")
    task, cards = build_feet_task(brief), load_cards()
    offered = candidates(task, cards)
    assert {batch.shape for batch in offered} == {"ring", "square-with-hole"}
    assert min(float(np.min(batch.second)) for batch in offered) >= 5.5e-3
    # who has nothing but solid pads still gets feet
    bare = replace(task, stock=replace(task.stock, shapes=("disc",)))
    assert {batch.shape for batch in candidates(bare, cards)} == {"disc"}
