"""Plates of sheet metal on the lists and in the steps."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import damper, design, sheet_damper

from isolator.report.sentences.cautions import of_step
from isolator.workshop.assembly import assembly_steps
from isolator.workshop.damper_hardware import cut_rows, damper_rows
from isolator.workshop.glue import glue_rows
from isolator.workshop.glue_kinds import glue_kind

NAMES = {"nr-40": "Natural rubber, 40 Shore A"}
TITLES = [
    "Print and cut",
    "Glue the dampers",
    "Take motor left off",
    "Bond the dampers of motor left",
    "Screw the dampers to the brackets",
    "Screw the motors to their dampers",
]


def test_sheets_go_to_the_bracket_before_the_motor_and_heads_before_the_bracket() -> None:
    steps = {step.title: step for step in assembly_steps(design(dampers=(sheet_damper(),)), NAMES)}
    assert [title for title in steps if title in TITLES] == TITLES
    assert "Send their DXF files to a shop" in " ".join(steps["Print and cut"].words)
    glued = steps["Glue the dampers"]
    assert "hexagon" not in " ".join(glued.words)
    assert "deburred" in " ".join(of_step(glued))
    assert steps["Bond the dampers of motor left"].uses == (
        "1 × screw M3 x 6, button head, ISO 7380-1",
        "1 × nut M3, ISO 4032",
        "1 × toothed washer M3",
        "1 × ring terminal M3",
        "1 × ring terminal for a screw of the frame",
    )
    bracket = " ".join(steps["Screw the dampers to the brackets"].words)
    assert bracket.index("they cannot be put in later") < bracket.index("a washer and a nut")
    assert steps["Screw the dampers to the brackets"].uses == (
        "2 × screw M3 x 6, button head, ISO 7380-1",
        "2 × screw M3 x 12, button head, ISO 7380-1",
        "2 × nut M3, ISO 4032",
        "2 × washer M3, ISO 7089",
    )
    assert "ohmmeter from the motor's case" in " ".join(
        steps["Screw the motors to their dampers"].words
    )


@pytest.mark.parametrize(("size", "nuts"), [(17, 2 + 1), (23, 2 + 2 + 1)])
def test_every_screw_through_a_hole_has_its_nut(size: int, nuts: int) -> None:
    """Two at the bracket, two behind a flange, one under the ear."""
    rows = damper_rows((sheet_damper(size),))
    assert sum(int(count) for item, count, _, _ in rows if item.startswith("nut")) == nuts
    assert not any("hexagon head" in item for item, *_ in rows)


def test_the_shop_gets_a_line_a_plate_with_its_file() -> None:
    """42.3 mm square, and the ear: 4 mm to its hole and 1.7 + 2 mm round it."""
    one = sheet_damper(17, made="aluminium")
    assert cut_rows((one, replace(one, name="right", travel=0.0004), damper())) == [
        (
            "plate of aluminium EN AW-5754 sheet, 1.5 mm, 50 x 43 mm",
            "2",
            "pieces",
            "have it cut by a shop, by parts/left-right-damper-motor-plate.dxf, and every edge "
            "deburred",
        ),
        (
            "plate of aluminium EN AW-5754 sheet, 1.2 mm, 43 x 43 mm",
            "2",
            "pieces",
            "have it cut by a shop, by parts/left-right-damper-frame-plate.dxf, and every edge "
            "deburred",
        ),
    ]


def test_rubber_on_metal_takes_its_own_glue() -> None:
    assert "rubber to metal" in glue_kind("nr-40", "steel").name
    assert "grit 80" in glue_kind("aluminium", "nbr-60").ready
    assert glue_kind("vmq-40", "steel") == glue_kind("vmq-40", "asa")  # nothing else holds
    for one, wanted in ((sheet_damper(), "nr-40 to steel"), (damper(), "nr-40 to asa")):
        ((_, _, _, remark),) = glue_rows(design(dampers=(one,)))
        assert remark.startswith(wanted)
        assert "80 °C or more" in remark
