"""A square printer on equal feet: pairs of its modes swing equally fast and turn at will."""

from __future__ import annotations

import numpy as np

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.design import Pad
from isolator.vibration.evaluation import held
from isolator.vibration.installation import Installation, build_installation
from isolator.vibration.results import Held
from isolator.vibration.stand import Alike, Stand, contact_width, one_pad, pads_stand
from isolator.vibration.system import build, exact_modes

SQUARE = """
name = "Square printer"
[printer]
mass = "{mass} kg"
size = ["440 mm", "440 mm", "484 mm"]
[motion]
layout = "crossed-belt"
speeds = ["60 mm/s", "120 mm/s"]
acceleration = "1500 mm/s^2"
[[motor]]
name = "left"
position = ["-176 mm", "150 mm", "396 mm"]
[[motor]]
name = "right"
position = ["176 mm", "150 mm", "396 mm"]
"""
PAD = Pad(
    shape="disc",
    first=0.030,
    second=0.0,
    thickness=0.005,
    layers=1,
    material="sponge-3",
    printed=False,
)
PLACES = np.array([[-0.19, -0.19], [0.19, -0.19], [0.19, 0.19], [-0.19, 0.19]])


def standing(kilograms: float) -> tuple[Installation, Stand]:
    brief, cards = read_brief_text(SQUARE.format(mass=kilograms), "square.toml"), load_cards()
    card = cards[PAD.material]
    group = Alike(pads=one_pad(card, PAD), positions=PLACES, cap=0.0, width=contact_width(PAD))
    stand = pads_stand(brief.room, card, PAD.material, [group], PAD.thickness)
    return build_installation(brief, cards), stand


def found(kilograms: float) -> Held:
    installation, stand = standing(kilograms)
    return held(installation, stand, installation.excitation.motion.speeds)


def test_shapes_of_modes_equally_fast_stay_apart() -> None:
    for kilograms in np.linspace(11.6, 12.4, 9):
        installation, stand = standing(float(kilograms))
        case = installation.printer.heavy
        for end in ("soft", "nominal", "stiff"):
            system = build(stand.settled(case, end)[0], case)
            modes = exact_modes(system)
            frequency, shapes = modes.frequency[0], modes.shapes[0]
            assert (np.diff(frequency) < 1e-6 * frequency[1:]).sum() == 2  # sways, and rockings
            # each by itself: gravity does not scale, so shapes of others lean by a hair
            np.testing.assert_allclose(shapes.T @ system.mass @ shapes, np.eye(6), atol=1e-3)


def test_a_hair_more_mass_changes_sway_and_margins_by_a_hair() -> None:
    row = [found(float(kilograms)) for kilograms in np.linspace(11.6, 12.4, 9)]
    sway = np.array([each.sway.worst for each in row])
    shaken = np.array([each.stability.force_factor for each in row])
    # one in a hundred more mass each
    assert np.abs(np.diff(np.log(sway))).max() < 0.03
    assert np.abs(np.diff(np.log(shaken))).max() < 0.03
