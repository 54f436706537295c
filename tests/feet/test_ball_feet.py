"""Ball feet from brief to drawing: what is solved is what is drawn, and what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest
from briefs import faults, swapped
from measured import measured_foot

from geometry.draw import draw
from isolator.brief import Brief, read_brief_text
from isolator.cards import load_cards
from isolator.commands.design import solve
from isolator.commands.known_cards import require_cards
from isolator.design import BALL
from isolator.feet.candidates import candidates
from isolator.feet.sizing import foot_of, stop_share
from isolator.feet.task import build_feet_task
from isolator.physics.rubber import ball
from isolator.reading.faults import InputError
from isolator.vibration.printer import build_printer
from isolator.vibration.stand import feet_stand

CARDS = load_cards()
ALONE = (
    '[stock]\nmaterials = ["nr-70"]\nshapes = ["disc"]\nthicknesses = ["0.5 mm"]\n'
    'max_layers = 1\n[[stock.ball]]\ndiameter = "41 mm"\nwall = "7.5 mm"\nmaterial = "nr-50"\n\n'
)


def brief_of(more: str = ALONE, *pairs: tuple[str, str]) -> Brief:
    text = swapped(
        ('attachment = "slot-20"', 'attachment = "bolt"'),
        ("[desk]", f"{more}[desk]"),
        ('sway = "0.5 mm"', 'sway = "3 mm"'),
        ('"2500 mm/s^2"', '"900 mm/s^2"'),
        *pairs,
    )
    return read_brief_text(text, "brief.toml")


def test_a_brief_that_offers_balls_alone_gets_ball_feet_drawn_as_solved() -> None:
    brief = brief_of()
    offered = candidates(build_feet_task(brief), CARDS)
    assert [(block.shape, len(block)) for block in offered] == [(BALL, 1)]
    found = solve(brief, CARDS, lambda *told: None, "half-ball")
    assert found.passed
    assert found.design is not None
    (foot,) = found.design.feet
    assert (foot.kind, foot.pad.first, foot.pad.second) == ("ball", 0.041, pytest.approx(0.026))
    assert foot.stop <= ball.FURTHEST * 0.0205 + brief.print.layer / 2.0
    drawn = measured_foot(found.design, foot, draw(found.design))
    # an annulus of rubber is glued to the cup; the dome touches the desk in a point
    assert drawn.upper_area == pytest.approx(math.pi / 4 * (0.041**2 - 0.026**2), rel=1e-6)
    assert drawn.thickness == pytest.approx(0.0205, abs=1e-9)
    assert drawn.height == pytest.approx(foot.height, abs=1e-9)
    assert drawn.stop == pytest.approx(foot.stop, abs=1e-9)


def test_the_weight_settles_on_the_balls_own_law() -> None:
    """Three springs of the published law itself, solved here without the printer's settle."""
    brief, card = brief_of(), CARDS["nr-50"]
    case = build_printer(brief).nominal
    places = tuple((float(x), float(y)) for x, y in ((-0.18, -0.19), (0.18, -0.19), (0.0, 0.19)))
    foot = foot_of(build_feet_task(brief), card, BALL, 0.041, 0.026, 0.0205, 1, places, 0.0)
    feet, _ = feet_stand(brief.room, (foot,), card).settled(case, "nominal")
    assert card.youngs_modulus is not None
    loads = [
        float(ball.force(0.0205, 0.0075, sag, youngs_modulus=card.youngs_modulus.value)[0])
        for sag in feet.sag[0]
    ]
    np.testing.assert_allclose(feet.load[0], loads, rtol=1e-6)  # the settle's own tolerance
    assert sum(loads) == pytest.approx(case.mass * 9.80665, rel=1e-6)
    # three feet share as moments have it, whatever their law
    arms = np.array(places) - case.com[:2]
    np.testing.assert_allclose(np.array(loads) @ arms, 0.0, atol=1e-6)
    # a ball rolls: its elastic centre lies below the desk, unlike any pad's
    assert (feet.centres[0, :, 2] < -foot.height).all()


def test_a_ball_stops_within_the_range_of_its_law_and_has_room_to_swell() -> None:
    brief = brief_of()
    for ident in ("nr-40", "nr-70"):
        share = stop_share(CARDS[ident], BALL)
        assert 0.0 < share <= ball.FURTHEST
        foot = foot_of(
            build_feet_task(brief), CARDS[ident], BALL, 0.041, 0.0, 0.0205, 1, ((0.0, 0.0),), 0.0
        )
        assert foot.side_room > float(ball.girth(0.0205, foot.stop))


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            'wall = "7.5 mm"',
            'wall = "1.9 mm"',
            "stock.ball[1].wall: found 1.9 mm; wanted no less than 2.05 mm; "
            "a thinner wall buckles inwards; take a thicker ball",
        ),
        (
            'diameter = "41 mm"',
            'diameter = "41"',
            'stock.ball[1].diameter: found "41"; wanted a length with its unit; '
            'write it like "41 mm"',
        ),
    ],
)
def test_a_ball_that_is_none_is_one_line(old: str, new: str, message: str) -> None:
    text = swapped(("[desk]", f"{ALONE}[desk]"), (old, new))
    assert f"brief.toml: {message}" in faults(text)


def test_a_ball_of_foam_is_refused() -> None:
    brief = brief_of(ALONE, ('material = "nr-50"', 'material = "sponge-1"'))
    with pytest.raises(InputError) as refused:
        require_cards(brief, CARDS)
    assert [fault.line() for fault in refused.value.faults] == [
        'brief.toml: stock.ball[1].material: found "sponge-1", foam; wanted a rubber; '
        "see `isolator materials` for those of rubber"
    ]
