"""What to squash and with which weights; a plan that is carried out gives its card back."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import isolator

from geometry.coupon.squash_piece import squash_part
from geometry.solids.verify import verify
from isolator.cards import load_cards
from isolator.design import Pad, PrintSettings
from isolator.design.squash_piece import piece_fill
from isolator.measuring.squash_plan import HEAVIEST, MOST, SquashPlan, _pads, squash_plan
from isolator.report.sentences.squash_plan import plan_steps, readings_text

CARDS = load_cards()
PRINT = PrintSettings(
    bed=(0.2, 0.21, 0.2),
    nozzle=0.4e-3,
    layer=0.2e-3,
    hole_compensation=2e-4,
    first_layer_chamfer=2e-4,
    material="petg",
)


def planned(ident: str, thickness: float = 0.012, layers: int = 2) -> SquashPlan | None:
    card = CARDS[ident]
    pad = Pad(
        shape="disc",
        first=0.030,
        second=0.0,
        thickness=thickness,
        layers=layers,
        material=ident,
        printed=card.family == "printed",
        infill=card.infill or 0.0,
        pattern=card.pattern,
        wall=card.wall or 0.0,
    )
    return squash_plan(pad, card, PRINT.layer)


@pytest.mark.parametrize("ident", CARDS)
def test_weights_squeeze_a_piece_as_far_as_feet_may_be(ident: str) -> None:
    plan, card = planned(ident), CARDS[ident]
    if card.supply.ready:
        assert plan is None
        return
    assert plan is not None
    piece, masses = plan.piece, np.array(plan.masses)
    # the board is taped to what is bonded: it is never without it
    assert masses[0] == pytest.approx(masses[1] - masses[0] if plan.bonded else 0.0)
    assert np.ptp(np.diff(masses)) < 1e-6
    assert 6 <= len(masses) <= 12
    assert masses[-1] <= 1.15 * HEAVIEST
    assert piece.height * 1.2 <= piece.side <= MOST + 1e-9
    strain = plan.squeezed / piece.height
    # as far as feet may be, or as far as one can pile up: prints and hard rubber
    assert strain < 1.35 * card.strain_limit.value  # steps of weight are round
    assert strain > card.strain_limit.value or masses[-1] > 0.85 * HEAVIEST or piece.side >= MOST


@pytest.mark.parametrize("ident", ["nr-40", "sponge-2", "tpu-85-gyroid-15"])
def test_a_plan_carried_out_gives_its_card_back(ident: str, tmp_path: Path) -> None:
    plan = planned(ident)
    assert plan is not None
    text = readings_text(plan)
    pads = _pads(plan.material, np.array([plan.piece.side]), plan.piece.height)
    way = [1e-3 * float(each) for each in text.split('"mass [g]" = [')[1].split("]")[0].split(", ")]
    strain = pads.carrying(9.80665 * np.array([way])).strain[0]
    heights = ", ".join(f"{1e3 * plan.piece.height * (1.0 - each):.3f}" for each in strain)
    file = tmp_path / "readings.toml"
    file.write_text(text, encoding="utf-8")
    ran = isolator("squash", file, "--out", tmp_path)
    assert (ran.code, ran.out) == (2, "")  # not filled in yet
    assert "height [mm]: found no heights yet; wanted one for each mass; type them in" in ran.err
    assert (0.0 in way) == (ident == "sponge-2")
    file.write_text(text.replace('"height [mm]" = []', f'"height [mm]" = [{heights}]'))
    found = isolator("squash", file, "--out", tmp_path, "--json").json()["squash"]
    assert found["card"]["lent_by"] == ident
    curve = np.interp(np.max(strain) / 2, found["fit"]["strain"], found["fit"]["stress_pa"])
    area = plan.piece.side**2
    wanted = pads.pressed(np.array([[plan.piece.height * np.max(strain) / 2]]))[0][0, 0] / area
    assert curve == pytest.approx(wanted, rel=0.02)


def test_the_printed_piece_is_the_block_that_is_fitted() -> None:
    plan = planned("tpu-85-gyroid-25")
    assert plan is not None
    part, piece = squash_part(plan.piece, PRINT), plan.piece
    side, height = 1e3 * piece.side, 1e3 * piece.height
    assert part.box == pytest.approx((side, side, height))
    assert verify(part, PRINT).volume == pytest.approx(side * side * height, rel=1e-9)
    # walls of 0.9 mm on four sides, a quarter of the rest; no skins, which would not give
    assert part.hollow == pytest.approx(0.75 * (side - 1.8) ** 2 * height)
    assert (part.fill.walls, part.fill.bottom, part.fill.top) == (2, 0, 0)
    assert part.notes[0].startswith("print 2 walls (0.9 mm), 25 % gyroid infill")


def test_steps_tell_what_to_cut_and_how_it_is_held() -> None:
    sheet, foam = planned("nr-40"), planned("sponge-2", thickness=0.012, layers=1)
    assert sheet is not None
    assert foam is not None
    steps = plan_steps(sheet, piece_fill(sheet.piece, PRINT), "out/mine")
    assert (
        steps[0] == "Cut 2 squares of 17 mm from the same sheet (6 mm), stacked on one another: "
        "12 mm high"
    )
    assert "cannot slip" in steps[1]
    assert "cannot slip" not in plan_steps(foam, piece_fill(foam.piece, PRINT), "out/mine")[1]
    assert "isolator squash out/mine/squash/readings.toml" in steps[-1]
    assert "the first is the board alone" in steps[2]
    assert "h in all" in steps[4]
