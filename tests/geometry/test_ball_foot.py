"""The ball foot: cup, saw guide and half-ball, measured by means that did not draw them."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import pytest
from pairwise import spread
from sheets import PRINT, foot

from geometry.assembly import placed
from geometry.feet.ball_foot import ball_parts, ball_solid
from geometry.solids.part import CannotDraw, mm
from geometry.solids.verify import bounds, verify
from isolator.design import ATTACHMENTS, BALL, Foot, Pad

BALLS = {"small": (0.0237, 0.0), "usual": (0.041, 0.0302), "large": (0.0675, 0.0)}  # [m]
BESIDE = {"tube-end": {"plug"}, "rod-end": {"socket"}}


def ball_foot(attachment: str, size: str) -> Foot:
    first, second = BALLS[size]
    like = foot("cup", "disc", attachment, size)
    shift = (first - like.pad.first) / 2 + 0.0004 - like.side_room  # what the outside differs by
    holes = tuple((x + math.copysign(shift, x), y) for x, y in like.holes)
    pad = Pad(
        shape=BALL,
        first=first,
        second=second,
        thickness=first / 2,
        layers=1,
        material="nr-40",
        printed=False,
    )
    return replace(
        like,
        kind="ball",
        pad=pad,
        sole=0.0,
        side_room=0.0004,
        sag=0.0012,
        stop=round(0.23 * first / 2, 4),
        holes=holes,
    )


@pytest.mark.parametrize(("attachment", "size"), spread(product(ATTACHMENTS, BALLS), of=1))
def test_every_ball_foot_is_sound_and_stands_as_told(attachment: str, size: str) -> None:
    one = ball_foot(attachment, size)
    parts = {part.role: part for part in ball_parts(one, PRINT)}
    hidden = {"cover"} if ATTACHMENTS[attachment].hides else set()
    assert set(parts) == {"cup", "saw-guide"} | hidden | BESIDE.get(attachment, set())
    for part in parts.values():
        figures = verify(part, PRINT)  # raises where box, volume, wall or overhang are not as told
        assert figures.volume == pytest.approx(part.volume, rel=1e-5)  # kernel integrates to 1e-6
    ball, cup = ball_solid(one), placed(parts["cup"].solid, parts["cup"].places[0])
    x, y = one.positions[0]
    low = bounds(cup)[2]
    # places are exact but for the kernel's joining of points nearer than 1e-7 mm
    assert low - bounds(ball)[2] == pytest.approx(mm(one.stop), abs=1e-6)
    assert bounds(ball)[2] == pytest.approx(-mm(one.cap + one.pad.thickness), abs=1e-6)
    here = ball.translate((mm(x), mm(y), 0.0))
    assert here.intersect(cup).Volume() == pytest.approx(0.0, abs=1e-6)  # faces touch


@pytest.mark.parametrize("size", BALLS)
def test_half_ball_has_the_volume_of_one(size: str) -> None:
    one = ball_foot("adhesive", size)
    solid = ball_solid(one)
    outer, inner = (x * 1000.0 for x in BALLS[size])
    by_hand = math.pi / 12 * (outer**3 - inner**3)
    assert solid.isValid()
    assert len(solid.Solids()) == 1
    assert solid.Volume() == pytest.approx(by_hand, rel=1e-6)  # kernel integrates to 1e-6
    flat = [face for face in solid.Faces() if face.geomType() == "PLANE"]
    assert sum(face.Area() for face in flat) == pytest.approx(
        math.pi / 4 * (outer**2 - inner**2), rel=1e-6
    )
    assert flat[0].Center().z == pytest.approx(-mm(one.cap))


def test_cup_and_guide_have_the_volumes_worked_by_hand() -> None:
    cup, guide = ball_parts(ball_foot("adhesive", "usual"), PRINT)
    # mm: ball's radius 20.5, side room 0.4, wall 1.8; cap 3.4, rim 20.5 - 4.7, chamfer 0.3
    pocket, outside, cap, rim, c = 20.9, 22.7, 3.4, 15.8, 0.3
    edge = math.pi * (outside * c**2 - c**3 / 3)  # ring of triangular section, Guldin's rule
    by_hand = math.pi * (outside**2 * (cap + rim) - pocket**2 * rim) - edge
    by_hand -= math.pi * (pocket**2 - 20.5**2) * 0.4  # the line scribed beside the ball
    assert cup.solid.Volume() == pytest.approx(by_hand, rel=1e-6)  # kernel integrates to 1e-6
    # mm: room of radius 20.5 + 0.2 play + 0.075 of the printer's own, wall 6
    room, outside = 20.775, 26.775
    edge = math.pi * (outside * c**2 - c**3 / 3)
    mouth = math.pi * (room * 0.6**2 + 0.6**3 / 3)  # opens towards the bed by 0.6 at 45°
    by_hand = math.pi * (outside**2 - room**2) * 20.5 - edge - mouth
    assert guide.solid.Volume() == pytest.approx(by_hand, rel=1e-6)
    assert guide.quantity == 1
    assert guide.places == ()


def test_only_a_hollow_ball_is_pierced_and_no_sole_is_told_of() -> None:
    hollow, solid = (ball_parts(ball_foot("bolt", size), PRINT)[0] for size in ("usual", "small"))
    assert any(note.startswith("pierce the ball's wall") for note in hollow.notes)
    assert not any(note.startswith("pierce") for note in solid.notes)
    assert not any("sole" in note for note in hollow.notes)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"stop": 0.021}, "corner-cup: stop: 21 mm is not between 0 and the half-ball's 20.5 mm"),
        ({"wall": 0.0003}, "corner-cup: wall: 0.3 mm is thinner than the nozzle's 0.4 mm"),
        ({"second": 0.0411}, "corner: pad.second: a cavity of 41.1 mm is not inside 41 mm"),
        ({"thickness": 0.0212}, "corner: pad.thickness: 21.2 mm is not half of the ball's 41 mm"),
    ],
)
def test_what_cannot_be_is_refused(change: dict[str, float], said: str) -> None:
    one = ball_foot("bolt", "usual")
    if set(change) <= {"second", "thickness"}:
        one = replace(one, pad=replace(one.pad, **change))
    else:
        one = replace(one, **change)
    with pytest.raises(CannotDraw) as caught:
        ball_parts(one, PRINT)
    assert str(caught.value) == said
