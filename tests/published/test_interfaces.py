"""Faceplates, screws, fits: what parts have to meet, held against published tables.

NEMA ICS 16-2001 Table 4 (flanges) as published data sheets give it; ISO 273 (clearance holes);
ISO 4762 and ISO 7380-1 (screw heads); ISO 4032 (nuts); ISO 7089 (washers); ISO 286 (fits). Read
from public tables; figures marked so are from memory.
"""

from __future__ import annotations

import math

import pytest

from geometry.solids.fasteners import THREADS
from isolator.brief import read_brief_text
from isolator.design.damper import POCKET_PLAY, RECESS
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.plate_room import least_motor_plate, pocket_radius
from isolator.design.screws import LENGTHS, SCREWS
from isolator.physics.joints.fits import (
    BUSHING,
    LOOSE,
    SHAFTS,
    Deviation,
    measured,
    play,
    rail_clearance,
)

INCH = 25.4
# size, bolt circle [in], square [mm], pilot [mm], pilot height [mm], body [mm]
FLANGES = [
    (14, 1.448, 26.0, 22.0, 2.0, 35.2),
    (17, 1.725, 31.0, 22.0, 2.0, 42.3),
    (23, 2.625, 47.14, 38.1, 1.6, 56.4),
]
# thread, medium clearance; fine and coarse stand beside it so that a swapped column shows
ISO_273 = {
    3: (3.2, 3.4, 3.6),
    4: (4.3, 4.5, 4.8),
    5: (5.3, 5.5, 5.8),
    6: (6.4, 6.6, 7.0),
    8: (8.4, 9.0, 10.0),
    10: (10.5, 11.0, 12.0),
}
ISO_7380_1 = {
    3: (5.7, 1.65),
    4: (7.6, 2.2),
    5: (9.5, 2.75),
    6: (10.5, 3.3),
    8: (14.0, 4.4),
    10: (17.5, 5.5),
}
ISO_4032 = {
    3: (5.5, 2.4),
    4: (7.0, 3.2),
    5: (8.0, 4.7),
    6: (10.0, 5.2),
    8: (13.0, 6.8),
    10: (16.0, 8.4),
}
ISO_4762 = {3: (5.5, 5.68), 4: (7.0, 7.22)}  # greatest head: plain, knurled
ISO_7089 = {3: (7.0, 0.5, 0.55), 4: (9.0, 0.8, 0.9)}  # outside, nominal and greatest height
ISO_4017 = {3: 2.0, 4: 2.8, 5: 3.5, 6: 4.0, 8: 5.3, 10: 6.4}  # nominal; from memory
ISO_261 = {3: 0.5, 4: 0.7}  # coarse pitch; from memory
SOCKET = {3: 2.0, 4: 2.5}  # key of ISO 7380-1 across flats; from memory


@pytest.mark.parametrize(("size", "circle", "square", "pilot", "height", "body"), FLANGES)
def test_faceplates(size, circle, square, pilot, height, body) -> None:
    face = FACEPLATES[size]
    assert face.bolt_square * 1e3 == pytest.approx(square)
    assert face.pilot * 1e3 == pytest.approx(pilot)
    assert face.pilot_height * 1e3 == pytest.approx(height)
    assert face.body * 1e3 == pytest.approx(body)
    # the square is rounded to a hundredth, the circle to a thousandth of an inch
    assert abs(circle * INCH - math.sqrt(2.0) * square) < 0.05
    assert face.bolt_circle * 1e3 == pytest.approx(circle * INCH)


@pytest.mark.parametrize(("size", "shaft"), [(14, 5.0), (17, 5.0), (23, 6.35)])
def test_usual_shafts(size, shaft) -> None:
    """NEMA ICS 16-2001 Table 2: 5 mm, and a quarter of an inch on size 23."""
    text = (
        'name = "Bench"\n[printer]\nmass = "9.7 kg"\nsize = ["380 mm", "410 mm", "450 mm"]\n'
        f'[motion]\nlayout = "crossed-belt"\nspeeds = ["52 mm/s"]\n[[motor]]\nframe_size = {size}\n'
    )
    brief = read_brief_text(text, "bench.toml")
    assert brief.motors[0].shaft_diameter * 1e3 == pytest.approx(shaft)


def test_the_other_public_figure_for_size_23_is_not_the_one_used() -> None:
    """One public table prints 1.854 in beside 47.14 mm; the bolt circle settles it: 47.146 mm."""
    square = FACEPLATES[23].bolt_circle / math.sqrt(2.0) * 1e3
    assert square == pytest.approx(47.146, abs=1e-3)
    assert abs(1.854 * INCH - square) > 0.05


@pytest.mark.parametrize("size", [3, 4])
def test_screws_of_motors(size) -> None:
    row = SCREWS[size]
    assert (row.button * 1e3, row.button_height * 1e3) == pytest.approx(ISO_7380_1[size])
    assert (row.flats * 1e3, row.nut_height * 1e3) == pytest.approx(ISO_4032[size])
    # a cap head, plain or knurled, finds room in the same pocket
    assert (row.button + POCKET_PLAY) * 1e3 > max(ISO_4762[size])
    assert row.key_hole * 1e3 == pytest.approx(ISO_273[size][1])
    # the key's corners pass with a millimetre to spare; the plates' travel is added where drawn
    assert row.key_hole * 1e3 > SOCKET[size] * 2.0 / math.sqrt(3.0) + 1.0
    outside, nominal, greatest = ISO_7089[size]
    assert (row.washer * 1e3, row.washer_height * 1e3) == pytest.approx((outside, greatest))
    assert row.washer_height * 1e3 > nominal  # a stack of greatest sizes asks for the longest screw
    assert row.hexagon_height * 1e3 == pytest.approx(ISO_4017[size])
    assert row.pitch * 1e3 == pytest.approx(ISO_261[size])


@pytest.mark.parametrize("size", [14, 17, 23])
def test_motor_screws_pass_their_holes(size) -> None:
    face, screw = FACEPLATES[size], screw_of(size)
    assert face.screw_clearance * 1e3 == pytest.approx(ISO_273[round(screw.thread * 1e3)][1])
    # head and recess leave a floor, and the boss does not reach the rubber
    assert least_motor_plate(size) > screw.button_height + RECESS
    assert least_motor_plate(size) > face.pilot_height


@pytest.mark.parametrize("size", sorted(THREADS))
def test_threads_of_feet(size) -> None:
    row = THREADS[size]
    assert row.clearance == pytest.approx(ISO_273[size][1])
    assert (row.button, row.button_height) == pytest.approx(ISO_7380_1[size])
    assert (row.across_flats, row.nut) == pytest.approx(ISO_4032[size])
    assert row.head == pytest.approx(ISO_4017[size])


@pytest.mark.parametrize(("flats", "corner"), [(5.5, 6.35085), (8.0, 9.23760)])
def test_a_hexagons_corner_is_its_flats_over_the_cosine_of_thirty_degrees(flats, corner) -> None:
    assert 2.0 * (pocket_radius(flats * 1e-3) * 1e3) == pytest.approx(
        corner + POCKET_PLAY * 1e3 * 2.0 / math.sqrt(3.0), abs=1e-4
    )


def test_lengths_are_sold_ones() -> None:
    """Preferred lengths of ISO 888 between 4 and 50 mm (from memory); all of them are there."""
    preferred = {4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50}
    assert preferred <= {round(each * 1e3) for each in LENGTHS}
    assert list(LENGTHS) == sorted(LENGTHS)


# deviations [µm] for diameters above 6 to 10 mm; ISO 286-2, from public tables
ISO_286 = {
    "h6": Deviation(-9, 0),
    "h7": Deviation(-15, 0),
    "g6": Deviation(-14, -5),
    "H6": Deviation(0, 9),
    "H7": Deviation(0, 15),
}


def test_shafts_that_rails_are_held_against_are_the_standards() -> None:
    for name, deviation in SHAFTS[10e-3].items():
        assert deviation == ISO_286[name]
    # 5/16 inch in bushings of 8 mm, and a rail as it belongs (C6.8)
    thin, right = play(7.9375e-3), play(7.996e-3)
    assert thin.found == (53.5, 62.5)
    assert thin.loose
    assert not right.loose
    assert thin.usual == {"h6": (-9, 9), "h7": (-9, 15), "g6": (-4, 14)}
    assert play(11.95e-3, 12e-3).usual["g6"] == (6, 17)
    # a quarter of an inch: no fits of whole millimetres, and none larger than bushings are known
    quarter = play(6.33e-3, 6.35e-3)
    assert quarter.found == (20, 20)
    assert (quarter.nominal, quarter.usual) == (6.35e-3, {})
    for rail in (6.35e-3, 12e-3):
        with pytest.raises(ValueError, match="no bushing"):
            play(rail)


@pytest.mark.parametrize(
    ("hole", "shaft", "least", "most"),
    [
        ("H7", "h6", 0, 24),
        ("H7", "g6", 5, 29),
        ("bushing", "h6", -9, 9),
        ("bushing", "g6", -4, 14),
        ("bushing", "h7", -9, 15),
        # a 5/16 inch rail where 8 mm belongs: a loose, rattling fit
        ("bushing", "5/16 in", 53.5, 62.5),
    ],
)
def test_fits_of_rails_and_bushings(hole, shaft, least, most) -> None:
    """ISO 286-2 for 6 < d <= 10 mm and an 8 mm bushing's bore; last row derived."""
    bore = BUSHING if hole == "bushing" else ISO_286[hole]
    rail = measured(5 / 16 * INCH * 1e-3, 8e-3) if shaft == "5/16 in" else ISO_286[shaft]
    found = rail_clearance(bore, rail)
    assert tuple(found) == pytest.approx((least, most))
    assert (found.high > LOOSE) == (shaft == "5/16 in")
