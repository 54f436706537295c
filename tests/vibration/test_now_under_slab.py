"""Today's feet may stand under a slab: what is designed is then compared with that."""

from __future__ import annotations

import numpy as np
import pytest

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.feet.sizing import foot_of
from isolator.feet.task import build_feet_task
from isolator.reading.faults import InputError
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.stand import feet_stand

BRIEF = """
name = "On its slab"
[printer]
mass = "9 kg"
size = ["420 mm", "400 mm", "460 mm"]
[motion]
layout = "crossed-belt"
speeds = ["60 mm/s"]
[[motor]]
name = "left"
position = ["-168 mm", "150 mm", "378 mm"]
[[motor]]
name = "right"
position = ["168 mm", "150 mm", "378 mm"]
[feet]
[feet.now]
material = "nr-40"
size = ["36 mm"]
thickness = "20 mm"
{under}
"""
SLAB = """
[slab]
size = ["460 mm", "450 mm", "40 mm"]
mass = "18 kg"
"""
CARDS = load_cards()


def test_the_same_pads_under_the_slab_stand_alike_today_and_as_designed() -> None:
    brief = read_brief_text(BRIEF.format(under='under = "slab"') + SLAB, "slab.toml")
    assert brief.slab is not None
    assert brief.slab.between == "none"  # what is told under the slab is not between
    now = build_now_stand(brief, CARDS)
    assert now is not None
    assert now.printer is None  # the slab is among what it carries
    task, card = build_feet_task(brief), CARDS["nr-40"]
    inset = brief.feet.inset
    x, y = 0.23 - inset, 0.225 - inset
    places = ((-x, -y), (x, -y), (x, y), (-x, y))
    foot = foot_of(task, card, "disc", 0.036, 0.0, 0.02, 1, places, 0.0)
    designed = feet_stand(brief.room, (foot,), card)
    case = build_installation(brief, CARDS).printer.nominal
    assert case.mass == pytest.approx(27.0)
    own, new = (stand.settled(case, "nominal")[0] for stand in (now, designed))
    np.testing.assert_allclose(own.centres, new.centres, rtol=1e-12)
    np.testing.assert_allclose(own.linear, new.linear, rtol=1e-12)
    np.testing.assert_allclose(own.load.sum(), 27.0 * 9.80665, rtol=1e-6)
    assert now.height == pytest.approx(0.06)


def test_under_the_printer_the_slab_is_not_there_yet() -> None:
    brief = read_brief_text(BRIEF.format(under="") + SLAB, "slab.toml")
    now = build_now_stand(brief, CARDS)
    assert now is not None
    assert now.printer is not None
    assert now.printer.nominal.mass == pytest.approx(9.0)
    assert now.height == pytest.approx(0.02)


def test_feet_under_a_slab_that_is_not_told_are_refused() -> None:
    with pytest.raises(InputError) as caught:
        read_brief_text(BRIEF.format(under='under = "slab"'), "slab.toml")
    assert str(caught.value) == (
        "slab.toml: feet.now.under: found no slab in the brief; wanted a slab that they are "
        "under; tell it under [slab]"
    )
