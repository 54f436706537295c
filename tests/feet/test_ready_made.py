"""Feet on ready-made mounts: what is offered, data sheets, and what they do under a printer."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from briefs import faults, swapped
from hypothesis import given
from hypothesis import strategies as st

from isolator.brief import Brief, read_brief_text
from isolator.brief.stock import BOUGHT
from isolator.cards.buffers import trade_buffers
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import PadState, pad_state
from isolator.commands.known_cards import all_cards
from isolator.commands.search import offered_feet
from isolator.commands.trial import candidate_foot
from isolator.design import BUFFER
from isolator.design.ends import LEAST_TURNS, OFF_GROUND, PLAIN, STUD, THREAD, Ends, fits, seat
from isolator.design.screws import screw
from isolator.feet.candidates import candidates
from isolator.feet.kinds import kind_of
from isolator.feet.task import build_feet_task
from isolator.reading.faults import InputError
from isolator.vibration.printer import build_printer
from isolator.vibration.stand import feet_stand
from isolator.vibration.system import build, exact_modes
from isolator.workshop.foot_hardware import foot_rows

SHEET = """[[stock.mount]]
name = "buffer from the drawer"
diameter = "22 mm"
height = "16 mm"
rubber = "11.5 mm"
thread = "6 mm"
lower = "thread"
stud = "13 mm"
depth = "6 mm"
across = "12 N/mm"
"""
LINEAR = 'stiffness = "47 N/mm"\nhighest = "90 N"\n'
POINTS = 'loads = ["15 N", "47 N", "90 N"]\nsags = ["0.319148936 mm", "1 mm", "1.914893617 mm"]\n'


def brief_of(mount: str = SHEET + LINEAR, *pairs: tuple[str, str]) -> Brief:
    return read_brief_text(swapped(("[desk]", f"{mount}\n[desk]"), *pairs), "brief.toml")


def state_of(mount: str, load: float) -> PadState:
    """Return the mount of a brief under a load [N]."""
    brief = brief_of(mount)
    (told,) = brief.stock.mounts
    card, size = all_cards(brief)[told.id], told.size
    sizes = (np.array([size.diameter]), np.array([size.rubber]), np.array([size.height]))
    return pad_state(unloaded(card, BUFFER, sizes), np.array([[load]]))


def test_points_on_a_line_are_the_same_mount_as_its_stiffness() -> None:
    for load in (0.0, 21.0, 90.0, 130.0):
        one, other = (state_of(SHEET + each, load) for each in (LINEAR, POINTS))
        for name in ("strain", "linear", "angular", "buckling"):
            # the curve is read from nodes to 1e-3 of its steepest slope
            np.testing.assert_allclose(getattr(one, name), getattr(other, name), rtol=1e-3)
        assert one.linear[0, 0, 2] == pytest.approx(47e3, rel=1e-3)
        assert one.strain[0, 0] * 11.5e-3 == pytest.approx(load / 47e3, rel=1e-3, abs=1e-9)


def test_a_mount_that_hardens_follows_its_points() -> None:
    hard = SHEET + 'loads = ["20 N", "55 N", "120 N"]\nsags = ["0.6 mm", "1.3 mm", "2 mm"]\n'
    for load, sag in ((20.0, 0.6e-3), (55.0, 1.3e-3), (120.0, 2e-3)):
        assert state_of(hard, load).strain[0, 0] * 11.5e-3 == pytest.approx(sag, rel=1e-3)
    soft, stiff = (state_of(hard, load).linear[0, 0, 2] for load in (10.0, 110.0))
    assert stiff > 2.0 * soft
    (mount,) = brief_of(hard).stock.mounts
    card = all_cards(brief_of(hard))[mount.id]
    assert card.strain_limit.value == pytest.approx(2.0 / 11.5)  # where the points end


def test_what_a_sheet_does_not_tell_follows_from_a_bonded_cylinder() -> None:
    """All ratios between directions are those of rubber of the mount's size."""
    told = SHEET.replace('across = "12 N/mm"\n', "") + LINEAR
    own, card = state_of(told, 0.0), all_cards(brief_of())["nr-buffer-55"]
    ideal = replace(
        card, hardness_factor=None, bulk_modulus=None, shear_modulus=None, stiffness_spread=1.0
    )
    sizes = (np.array([22e-3]), np.array([11.5e-3]), np.array([16e-3]))
    like = pad_state(unloaded(ideal, BUFFER, sizes), np.array([[0.0]]))
    times = own.linear[0, 0, 2] / like.linear[0, 0, 2]
    np.testing.assert_allclose(own.linear, times * like.linear, rtol=1e-3)
    np.testing.assert_allclose(own.angular, times * like.angular, rtol=1e-3)


@pytest.mark.parametrize(
    ("told", "place"), [("", "specialist online"), ('found = "hardware shop"\n', "hardware shop")]
)
def test_where_a_mount_is_got_stands_on_its_card_and_on_the_shopping_list(
    told: str, place: str
) -> None:
    brief = brief_of(SHEET + LINEAR + told)
    task, cards = build_feet_task(brief), all_cards(brief)
    (block,) = [each for each in candidates(task, cards) if each.material.mount is not None]
    assert block.material.supply.found == place
    foot = candidate_foot(task, block, 0)
    (row,) = [each for each in foot_rows((foot,), None, 2e-4, cards) if "buffer" in each[0]]
    assert row[3] == f"got: {place}"
    # a buffer of the trade is told as before
    card = replace(foot, pad=replace(foot.pad, material="nr-buffer-55"))
    (row,) = [each for each in foot_rows((card,), None, 2e-4, cards) if "buffer" in each[0]]
    assert row[3] == "by post or in some hardware shops"


def lowest_and_bounce(across: str) -> tuple[float, float]:
    """Return the lowest mode and that in which the feet move up and down most [Hz]."""
    text = (SHEET + LINEAR).replace("12 N/mm", across)
    brief = brief_of(text)
    task, cards = build_feet_task(brief), all_cards(brief)
    (block,) = [each for each in candidates(task, cards) if each.material.mount is not None]
    foot = candidate_foot(task, block, 0)
    case = build_printer(brief).nominal
    feet, _ = feet_stand(brief.room, (foot,), block.material).settled(case, "nominal")
    modes = exact_modes(build(feet, case))
    return float(modes.frequency[0, 0]), float(modes.frequency[0].max())


def test_stiffness_along_and_across_goes_into_the_modes() -> None:
    soft, top = lowest_and_bounce("3 N/mm")
    stiff, top_stiff = lowest_and_bounce("12 N/mm")
    # four times as stiff across: sway goes up by less than two, as the printer rocks on its feet
    assert 1.6 < stiff / soft < 2.0
    assert top_stiff / top < 1.25


def test_what_is_offered_is_screwed_beside_the_mount_and_never_under_a_slab() -> None:
    def bought(brief: Brief) -> int:
        blocks = candidates(build_feet_task(brief), all_cards(brief))
        return sum(len(each) for each in blocks if kind_of(each) == BOUGHT)

    both, alone = bought(brief_of()), SHEET + LINEAR + '\n[stock]\nshapes = ["disc"]'
    assert bought(brief_of(alone)) == 1
    assert both > 3 * 20
    glued = brief_of(SHEET + LINEAR, ('attachment = "slot-20"', 'attachment = "adhesive"'))
    assert bought(glued) == both
    # a bolt stands where the mount's own screw is
    assert bought(brief_of(SHEET + LINEAR, ('attachment = "slot-20"', 'attachment = "bolt"'))) == 0


@given(
    thread=st.sampled_from((3, 4, 5, 6, 8, 10)),
    stud=st.floats(0.004, 0.04),
    depth=st.floats(0.001, 0.02),
    layer=st.sampled_from((1e-4, 2e-4, 2.8e-4)),
)
def test_no_screw_ends_on_the_ground_and_no_stud_stands_out(
    thread: int, stud: float, depth: float, layer: float
) -> None:
    size, row = thread / 1e3, screw(thread / 1e3)
    ends = Ends(thread=size, upper=THREAD, lower=STUD, stud=stud, depth=depth)
    above, below = seat(ends, THREAD, layer), seat(ends, STUD, layer)
    if above is not None:
        reach = above.screw - above.floor
        assert LEAST_TURNS * size - 1e-9 <= reach <= depth - OFF_GROUND + 1e-9
        assert above.floor + row.button_height < above.height
    if below is not None:
        assert below.floor + row.nut_height <= stud < below.height
    assert fits(ends, layer) == (above is not None and below is not None)
    assert seat(ends, PLAIN, layer) is None


def test_the_table_of_buffers_is_what_the_trade_calls_usual() -> None:
    """Common practice, no source: threads grow with the diameter, and discs take little."""
    sizes = trade_buffers()
    wide = sorted({(each.diameter, each.ends.thread) for each in sizes})
    assert [thread for _, thread in wide] == sorted(thread for _, thread in wide)
    assert {(each.diameter * 1e3, each.height * 1e3) for each in sizes} >= {
        (8, 8), (10, 10), (15, 15), (20, 15), (20, 20), (25, 20), (30, 20), (30, 30), (40, 30)
    }  # fmt: skip
    for each in sizes:
        discs = each.height - each.rubber
        assert 0.0 < discs < 0.3 * each.height
        assert math.isclose(each.ends.stud > 0, STUD in (each.ends.upper, each.ends.lower))
        assert fits(each.ends, 2e-4)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            'stiffness = "47 N/mm"\n',
            "",
            "stock.mount[1].stiffness: found nothing; wanted either its stiffness, or loads and "
            'sags; add stiffness = "60 N/mm"',
        ),
        (
            'highest = "90 N"\n',
            "",
            'stock.mount[1].highest: found nothing; wanted its highest load; add highest = "150 N"',
        ),
        (
            LINEAR,
            'loads = ["20 N", "10 N"]\nsags = ["1 mm", "2 mm"]\n',
            "stock.mount[1].loads[2]: found 10 N; wanted more than 20 N; "
            "list both from the smallest load up",
        ),
        (
            LINEAR,
            'loads = ["20 N", "30 N"]\nsags = ["1 mm"]\n',
            "stock.mount[1].sags: found 1 of them; wanted 2, one to each load; "
            "give both lists the same length",
        ),
        (
            LINEAR,
            'loads = ["20 N", "30 N"]\nsags = ["1 mm", "2 mm"]\nhighest = "45 N"\n',
            "stock.mount[1].highest: found 45 N; wanted no more than the last of loads, 30 N; "
            "add the deflection under it to loads and sags",
        ),
        (
            'highest = "90 N"',
            'highest = "900 N"',
            "stock.mount[1].stiffness: found a deflection of 19.1 mm; wanted less than its "
            "rubber is high, 11.5 mm; check units and the highest load",
        ),
        (
            'thread = "6 mm"',
            'thread = "7 mm"',
            "stock.mount[1].thread: found 7 mm; wanted M3, M4, M5, M6, M8, M10; "
            'write it like "6 mm"',
        ),
        (
            'stud = "13 mm"\n',
            "",
            "stock.mount[1].stud: found nothing; wanted how long its stud is, as upper is one; "
            'measure it and add stud = "10 mm"',
        ),
        (
            'rubber = "11.5 mm"',
            'rubber = "17 mm"',
            "stock.mount[1].rubber: found 17 mm; wanted a height with room for rubber and metal "
            "discs; height counts the discs in, rubber is what lies between them",
        ),
        (
            LINEAR,
            f'{LINEAR}found = "online shop"\n',
            'stock.mount[1].found: found "online shop"; wanted one of specialist online, '
            "hardware shop, craft shop, sports shop, ordered; specialist online comes nearest; "
            "write one of these words, in quotes",
        ),
    ],
)
def test_a_sheet_that_contradicts_itself_is_one_line(old: str, new: str, message: str) -> None:
    text = swapped(("[desk]", f"{SHEET}{LINEAR}\n[desk]"), (old, new))
    assert faults(text) == [f"brief.toml: {message}"]


@pytest.mark.parametrize(
    ("attachment", "told"),
    [
        ("slot-20", ""),
        (
            "bolt",
            'stock.mount: not offered: what holds a foot by "bolt" stands in its middle, '
            "where the mount's own screw would be; beside it hold ",
        ),
    ],
)
def test_why_a_mount_is_not_offered_is_told(attachment: str, told: str) -> None:
    brief = brief_of(SHEET + LINEAR, ('"slot-20"', f'"{attachment}"'))
    said = [each for each in brief.warnings if each.startswith("stock.mount")]
    assert len(said) == bool(told)
    assert all(each.startswith(told) for each in said)
    task, cards = build_feet_task(brief), all_cards(brief)
    bought = {kind_of(each) for each in candidates(task, cards)} & {BOUGHT}
    assert bool(bought) != bool(told)
    if told:
        with pytest.raises(InputError, match="where the mount's own screw would be"):
            offered_feet(task, cards, "brief.toml", BOUGHT)
