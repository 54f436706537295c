"""Dampers that cannot be drawn are refused with part, dimension and reason."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import PRINT, damper, design

from geometry.draw import draw
from geometry.motors.clearance import damper_clearances
from geometry.solids.part import CannotDraw

RING, PADS, WEDGE = damper(), damper(shape="pads"), damper(wedge=True)

# numbers by hand: M3 pocket of 5.5 + 0.2 mm flats has a corner radius of 5.7/√3 = 3.291 mm, and
# holes come 0.15 mm wider
REFUSED = [
    (
        replace(RING, frame_size=34),
        "left-damper: frame_size: 34 is not among 14, 17, 23",
    ),
    (
        replace(RING, shape="disc"),
        "left-damper-rubber: shape: disc is not among ring, pads",
    ),
    (
        replace(RING, rubber=0.0),
        "left-damper-rubber: rubber: 0 mm is no thickness",
    ),
    (
        replace(RING, motor_plate=0.0034),
        "left-damper-motor-plate: motor_plate: 3.4 mm is thinner than the 3.45 mm "
        "that its screws need",
    ),
    (
        replace(RING, frame_plate=0.0036),
        "left-damper-frame-plate: frame_plate: 3.6 mm is thinner than the 3.8 mm "
        "that its screws need",
    ),
    (
        # 43.815 − 2 · (3.291 + 0.075 + 0.4)
        replace(RING, first=0.0365),
        "left-damper-rubber: first: a ring 36.5 mm wide lies over the screws' pockets; "
        "36.28 mm does not",
    ),
    (
        # 22 + 0.4 + 0.15 + 2 · 0.4
        replace(RING, second=0.0231),
        "left-damper-rubber: second: the ring's hole of 23.1 mm lies over the boss's; "
        "23.35 mm does not",
    ),
    (
        replace(RING, first=0.0241, second=0.0243),
        "left-damper-rubber: second: 24.3 mm is not inside 24.1 mm",
    ),
    (
        replace(PADS, circle=0.0137),
        "left-damper-rubber: circle: pads from 9.40 to 18.00 mm off the shaft's axis; "
        "the plates carry them from 11.68 to 20.35 mm",
    ),
    (
        replace(PADS, first=0.0241),
        "left-damper-rubber: first: pads 24.1 mm long overlap at 11.71 mm off the shaft's axis",
    ),
    (
        # 2 · (15.5 − 3.291 − 0.075 − 0.4)
        replace(PADS, first=0.0238, circle=0.0175, second=0.0051),
        "left-damper-rubber: first: pads 23.8 mm long lie over the screws' pockets; "
        "23.47 mm do not",
    ),
    (
        # 20.6 + 2 · (0.7 + 0.3)
        replace(RING, outer=0.0206),
        "left-damper-frame-plate: outer: the pulley spacer of 20.6 mm needs a hole of 22.60 mm "
        "with its travel; the plate's is 22.55 mm",
    ),
    (
        # 3.4 + 2 · 1.7 + 0.15 against twice the pocket's radius
        replace(RING, travel=0.0017),
        "left-damper-frame-plate: travel: 1.7 mm makes the key's holes 6.95 mm wide; "
        "6.73 mm is the most beside rubber and edge",
    ),
    (
        # floor of 3.6 − 1.65 − 0.3 and three turns of 0.5
        replace(RING, motor_screw=0.003),
        "left-damper-motor-plate: motor_screw: 3 mm is too short to hold the motor; "
        "3.15 mm is the least",
    ),
    (
        replace(RING, motor_screw=0.012),
        "left-damper-motor-plate: motor_screw: 12 mm bottoms in the motor; "
        "10.65 mm is the most in the deepest holes",
    ),
    (
        # floor of 3.8 − 2 − 0.3, bracket of 4.2, nut of 2.4
        replace(RING, frame_screw=0.008),
        "left-damper-frame-plate: frame_screw: 8 mm ends inside its nut; 8.10 mm is the least",
    ),
    (
        replace(WEDGE, pull=(0.0, 0.0, 1.0)),
        "left-damper-wedge: pull: the belts pull along the shaft, not across it",
    ),
    (
        # tan 0.0131 times 17.15 · (0.6 + 0.8) + 4
        replace(WEDGE, wedge=0.0009),
        "left-damper-wedge: wedge: 0.9 mm in the middle leaves 0.53 mm at the thin edge; "
        "0.6 mm is the least",
    ),
    (
        replace(RING, pulley_spacer=0.0251),
        "left-pulley-spacer: pulley_spacer: 25.1 mm is not between 0 and the shaft's 24.5 mm",
    ),
    (
        replace(RING, outer=0.0058),
        "left-pulley-spacer: outer: 5.8 mm leaves 0.32 mm of wall round the bore of 5.15 mm; "
        "1.1 mm is the least (two lines and the chamfer)",
    ),
]


@pytest.mark.parametrize(("asked", "message"), REFUSED)
def test_refusal_names_part_dimension_and_reason(asked, message):
    with pytest.raises(CannotDraw) as caught:
        draw(design(dampers=(asked,)))
    assert str(caught.value) == message


def test_a_chamfer_that_is_none_is_refused():
    asked = replace(design(dampers=(RING,)), print=replace(PRINT, first_layer_chamfer=0.0012))
    with pytest.raises(CannotDraw) as caught:
        draw(asked)
    assert str(caught.value) == (
        "left-damper: first_layer_chamfer: 1.2 mm does not fit an edge on the bed, 1 mm"
    )


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            # the bracket's hole of 22.4 mm: 0.8 mm round the spacer, less 0.7 mm of travel
            {"outer": 0.0208},
            "left-damper: travel: pulley-spacer-1 comes as near as 0.10 mm to bracket at "
            "0.7 mm of travel; 0.3 mm must be left",
        ),
        (
            # a plate of 1.9 mm under a head of 1.65 mm and its recess of 0.3 mm: the head, 5.7 mm
            # wide round a thread of 3 mm with its hole of 3.02 mm, goes 0.05 mm into the motor
            {"motor_plate": 0.0019},
            "left-damper: interference: motor and motor-screw-1 share 0.918 mm³",
        ),
    ],
)
def test_what_the_sheet_does_not_show_is_found_on_the_solids(change, message):
    with pytest.raises(CannotDraw) as caught:
        damper_clearances(replace(RING, **change), PRINT)
    assert str(caught.value) == message


def test_a_damper_of_another_name_is_measured_once(monkeypatch):
    import geometry.motors.clearance as measured

    one = replace(RING, travel=0.00061)
    first = damper_clearances(one, PRINT)

    def never(*_):
        raise AssertionError("measured again")

    monkeypatch.setattr(measured, "pieces", never)
    elsewhere = replace(
        one,
        name="right",
        material="nr-55",
        position=(0.1, 0.2, 0.3),
        axis="x",
        pull=(0.0, 0.6, -0.8),
    )
    assert damper_clearances(elsewhere, PRINT) == first
