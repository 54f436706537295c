"""[desk]: its size, what holds it, where the printer stands on it, light hollow boards."""

import numpy as np
import pytest
from briefs import BARE

from isolator.brief import Brief, read_brief_text
from isolator.brief.table_tops import TOPS
from isolator.reading.faults import InputError

SIZED = 'material = "mdf"\nsize = ["1400 mm", "700 mm"]\n'


def read(desk: str) -> Brief:
    return read_brief_text(f"{BARE}[desk]\n{desk}", "brief.toml")


def test_a_desk_of_unknown_size_is_endless_and_says_so() -> None:
    brief = read('material = "mdf"\n')
    assert brief.desk.size is None
    assert brief.desk.leg_places is None
    told = {each.key: each for each in brief.assumed}
    assert told["desk.size"].why == "without its size it is taken as endless"
    assert not told.keys() & {"desk.support", "desk.leg_inset", "desk.position", "desk.skin"}


def test_a_desk_of_known_size_stands_on_four_legs() -> None:
    brief = read(SIZED)
    assert brief.desk.size == (1.4, 0.7)
    legs = np.array(brief.desk.leg_places)
    np.testing.assert_allclose(legs, [(-0.65, -0.3), (0.65, -0.3), (0.65, 0.3), (-0.65, 0.3)])
    assert brief.desk.loss_factor == 0.05
    told = {each.key for each in brief.assumed}
    assert {"desk.support", "desk.leg_inset", "desk.position", "desk.loss_factor"} <= told


def test_what_a_desk_of_known_size_carries_is_told_or_assumed_to_be_nothing() -> None:
    assert read(SIZED + 'carries = "26.5 lb"\n').desk.carries == pytest.approx(12.02, abs=0.01)
    told = {each.key: each.why for each in read(SIZED).assumed}
    assert told["desk.carries"] == "nothing else stands on it"
    endless = read('material = "mdf"\n')
    assert endless.desk.carries == 0.0
    assert "desk.carries" not in {each.key for each in endless.assumed}


def test_legs_may_stand_anywhere_and_edges_have_none() -> None:
    legs = 'legs = [["-600 mm", "-300 mm"], ["600 mm", "-300 mm"], ["0 mm", "310 mm"]]\n'
    brief = read(SIZED + legs)
    assert brief.desk.leg_places == ((-0.6, -0.3), (0.6, -0.3), (0.0, 0.31))
    assert "desk.leg_inset" not in {each.key for each in brief.assumed}
    assert read(SIZED + 'support = "edges"\n').desk.leg_places is None


def test_a_hollow_board_brings_its_skins() -> None:
    brief = read('material = "hollow-board"\nthickness = "50 mm"\n')
    assert (brief.desk.skin, brief.desk.core_density) == (0.003, 40.0)
    told = {each.key: each.why for each in brief.assumed}
    assert told["desk.skin"].startswith("usual of hollow-board")


@pytest.mark.parametrize("material", TOPS)
def test_a_table_that_stands_is_damped_more_than_its_board(material: str) -> None:
    assert 0.02 <= TOPS[material].loss_factor <= 0.05


@pytest.mark.parametrize(
    ("desk", "fault"),
    [
        (
            'size = ["700 mm", "340 mm"]\n',
            "desk.size: found feet beside the desk, at (-160 mm, -175 mm) from its middle; wanted "
            "all feet on its 700 mm × 340 mm; mend desk.size or desk.position",
        ),
        (
            'size = ["700 mm", "500 mm"]\nposition = ["200 mm", "0 mm"]\n',
            "desk.size: found feet beside the desk, at (360 mm, -175 mm) from its middle; wanted "
            "all feet on its 700 mm × 500 mm; mend desk.size or desk.position",
        ),
        (
            'size = ["700 mm", "500 mm"]\n'
            'legs = [["-300 mm", "-200 mm"], ["310 mm", "-260 mm"], ["0 mm", "200 mm"]]\n',
            "desk.legs: found legs beside the desk, at (310 mm, -260 mm) from its middle; wanted "
            "all legs on its 700 mm × 500 mm; mend desk.size",
        ),
        (
            'material = "hollow-board"\nthickness = "5 mm"\n',
            "desk.skin: found 3 mm; wanted at most half of the thickness of 5 mm; it is the "
            'thickness of one skin; "0 mm" for a solid board',
        ),
        (
            'material = "mdf"\ncarries = "12 kg"\n',
            "desk.carries: found 12 kg on a desk of no told size; wanted the size over which it is "
            'spread; add desk.size, such as size = ["1400 mm", "700 mm"]',
        ),
    ],
    ids=["too small", "off the middle", "legs beside", "skins too thick", "spread over nothing"],
)
def test_what_cannot_stand_is_refused(desk: str, fault: str) -> None:
    with pytest.raises(InputError) as refused:
        read(desk)
    assert fault in str(refused.value)


@pytest.mark.parametrize(
    ("desk", "warning"),
    [
        (
            'material = "mdf"\nposition = ["1 mm", "0 mm"]\n',
            "position is ignored: the desk has no size",
        ),
        (
            SIZED + 'support = "edges"\nleg_inset = "60 mm"\n',
            "leg_inset is ignored: no legs follow from it",
        ),
        (
            'material = "mdf"\ncore_density = "40 kg/m^3"\n',
            "core_density is ignored: the board is solid",
        ),
        ('kind = "rigid"\ncarries = "9 kg"\n', "carries is ignored: the desk is rigid"),
        ('kind = "rigid"\nsize = ["1 m", "1 m"]\n', "size is ignored: the desk is rigid"),
    ],
    ids=["no size", "no inset", "no core", "rigid, carrying", "rigid"],
)
def test_what_has_no_effect_is_told(desk: str, warning: str) -> None:
    assert f"desk.{warning}" in read(desk).warnings
