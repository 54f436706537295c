"""Pictures of assembly steps: rendered, each another, what is new in colour and in its place."""

from __future__ import annotations

import io
from dataclasses import replace

import cadquery as cq
import numpy as np
import pytest
from PIL import Image
from sheets import PRINT, damper, design, drawn, foot
from test_ball_foot import ball_foot
from test_slab import cornered

from geometry.assembly import COLOURS
from geometry.draw import draw
from geometry.feet.bought import held, screws
from geometry.pictures.damper_steps import damper_step_scene
from geometry.pictures.slab_steps import slab_step_scene
from geometry.pictures.step_pictures import Added, step_scene
from geometry.solids.part import mm
from geometry.solids.verify import bounds
from isolator.commands.pictures import pictures_of, scenes_of
from isolator.design import ATTACHMENTS, least_cap
from isolator.report.page.parts import STEP_PICTURE
from isolator.workshop.assembly import assembly_steps

IN_USE = cq.Location(cq.Vector(0, 0, 0), cq.Vector(1, 0, 0), 180.0)  # from the bed, rolled over
NAMES = {"cr-sponge": "CR sponge", "tpu-85": "TPU", "nr-40": "Natural rubber"}
HARDWARE = {
    "slot": ["slot nuts", "screws"],
    "through": ["nuts and washers", "screws"],
    "tapping": ["screws"],
    "captive": ["nut and washer", "screw"],
    "driven": ["screw"],
    "stud": ["thin nut and washer", "washer and nut", "screw"],
    "plug": ["nut", "screw"],
    "socket": ["screw"],
    "glue": [],
}


def pixels(picture: bytes) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(picture)), dtype=float)


def share(picture: bytes, role: str) -> float:
    """Return which share of a picture has a role's hue and is not pale."""
    image = pixels(picture)
    top = np.maximum(image.max(axis=2, keepdims=True), 1.0)
    hue = np.array(COLOURS[role]) / max(COLOURS[role])
    return float(np.mean(np.abs(image / top - hue).max(axis=2) < 0.03))


@pytest.mark.parametrize("attachment", ATTACHMENTS)
def test_screws_stand_in_the_holes_that_were_drawn_for_them(attachment) -> None:
    one, parts = drawn("cup", "rectangle", attachment, "usual")
    found = screws(one, PRINT)
    assert [each.name for each in found] == HARDWARE[ATTACHMENTS[attachment].way]
    if not found:
        return
    # head and shank have room in the cup, and the head bears on its floor: higher it would bite
    cup = next(part for part in parts if part.role == "cup")
    solid = cup.solid.moved(IN_USE)
    for shank in found[-1].solids:
        common = shank.intersect(solid)
        assert common.Volume() < 1e-3  # mm³, kernel's rounding
        assert shank.translate((0, 0, 0.5)).intersect(solid).Volume() > 1.0
        low, high = bounds(shank)[2::3]
        assert low < 0 < high
        if ATTACHMENTS[attachment].flanged:
            assert low < -mm(one.cap)  # the head hangs under the flange


@pytest.mark.parametrize("fixing", ["nut", "insert"])
def test_what_the_cap_holds_lies_in_its_recess(fixing) -> None:
    one = replace(foot("cup", "disc", "bolt", "usual"), fixing=fixing, bolt=0.005)
    one = replace(one, cap=least_cap("bolt", 0.005, 0.0, PRINT.layer, fixing=fixing))
    (thing,) = held(one, PRINT)
    cup = next(part for part in draw(design(one)) if part.role == "cup")
    solid = cup.solid.moved(IN_USE)
    low, high = bounds(thing.solids[0])[2::3]
    assert thing.solids[0].intersect(solid).Volume() < 1e-3  # mm³, kernel's rounding
    # moved up by half a millimetre it would bite into the floor over it
    raised = thing.solids[0].translate((0, 0, 0.5))
    assert raised.intersect(solid).Volume() > 1.0
    assert low < high < 0


@pytest.mark.parametrize("kind", ["cup", "printed", "ball"])
def test_every_step_of_a_kit_has_a_picture_of_its_own(kind) -> None:
    one = ball_foot("bolt", "usual") if kind == "ball" else foot(kind, "disc", "bolt", "usual")
    sheet = design(one)
    parts = draw(sheet)
    steps = assembly_steps(sheet, NAMES)
    found = pictures_of(scenes_of(sheet, parts, steps))
    told = [found[f"{STEP_PICTURE}{n}"] for n, step in enumerate(steps, 1) if step.pictured]
    assert len({each.data for each in told}) == len(told) >= 2
    for each in told:
        inked = np.mean(pixels(each.data).min(axis=2) < 250)
        assert 0.05 < inked < 0.9
        assert each.caption.startswith("1 ")
    assert sum(key.startswith(STEP_PICTURE) for key in found) == len(told)


def test_what_is_new_is_in_colour_and_what_was_there_is_pale() -> None:
    one, parts = drawn("cup", "disc", "slot-30", "usual")
    fixed = Added((), ("cup",), "screws")
    glued = Added(("cup",), ("pad", "sole"), "")
    scenes = [step_scene(one, list(parts), PRINT, each) for each in (fixed, glued)]
    assert [scene.names for scene in scenes] == [("slot nuts", "cup", "screws"), ("pad", "sole")]
    first, second = (scene.png() for scene in scenes)
    assert share(first, "cup") > 0.1 > share(second, "cup")
    assert share(second, "pad") > 0.05
    assert share(first, "pad") == 0.0
    # the cup hangs over the pad, and the pad over the sole
    rows = [np.flatnonzero(_is_hue(second, role).any(axis=1)).mean() for role in ("pad", "sole")]
    assert rows[0] < rows[1]


def _is_hue(picture: bytes, role: str) -> np.ndarray:
    image = pixels(picture)
    hue = np.array(COLOURS[role]) / max(COLOURS[role])
    return (
        np.abs(image / np.maximum(image.max(axis=2, keepdims=True), 1.0) - hue).max(axis=2) < 0.02
    )


def test_pictures_of_a_damper_show_each_step_and_a_wedge_only_where_there_is_one() -> None:
    plain, wedged = damper(), damper(wedge=True)
    views = ("glue", "bond", "motor", "bracket", "pulley")
    scenes = {view: damper_step_scene(plain, PRINT, view) for view in views}
    assert len({scene.png() for scene in scenes.values()}) == len(views)
    assert scenes["bracket"].names == ("bracket", "washers and nuts")
    names = damper_step_scene(wedged, PRINT, "bracket").names
    assert names == ("wedge", "bracket", "washers and nuts")
    assert share(scenes["glue"].png(), "rubber") > 0.02
    assert share(scenes["pulley"].png(), "rubber") < 0.002  # pale now


def test_pictures_of_a_slab_show_pads_from_below_and_corners_from_above() -> None:
    sheet = cornered()
    under, over = (slab_step_scene(sheet, view) for view in ("pads", "lips"))
    pads, lips = under.png(), over.png()
    assert share(pads, "pad") > 0.005 > share(lips, "pad")
    assert share(lips, "lip") > 0.005 > share(pads, "lip")
    assert (under.names, over.names) == (("pads",), ("corners",))
