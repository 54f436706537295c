"""Bought dampers on the lists, in the steps and in the sheet: nothing of them is made."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from sheets import design, sheet_damper

from isolator.commands.sheet_checks import refuse_sheet
from isolator.design.cut_list import cut_list
from isolator.design.damper import MotorDamper
from isolator.design.read import read_design
from isolator.design.write import write_design
from isolator.workshop.assembly import assembly_steps
from isolator.workshop.parts_list import make_lines
from isolator.workshop.shopping import goods


def bought(**changes: object) -> MotorDamper:
    own = {"bought": "ring damper 42", "found": "hardware shop", "mass": 0.036, **changes}
    return replace(sheet_damper(), motor_screw=0.005, **own)  # type: ignore[arg-type]


def test_it_is_on_the_list_with_its_screws_and_nothing_to_cut_or_glue() -> None:
    drawing = design(dampers=(bought(), replace(bought(), name="right")))
    items = {item.name: item for item in goods(drawing, cut_list(drawing), {})}
    one = items["motor damper ring damper 42, for frame size 17, 5.8 mm"]
    assert (one.quantity, one.remark) == (2, "got: hardware shop")
    assert not any(name.startswith(("glue", "plate of")) or "sheet" in name for name in items)
    assert items["screw M3 x 5, button head, ISO 7380-1"].quantity == 4  # none for the wire alone
    assert items["nut M3, ISO 4032"].quantity == 4
    assert items["ring terminal M3"].quantity == items["toothed washer M3"].quantity == 2
    assert cut_list(drawing) == []
    (line, *_) = make_lines(drawing, {})
    assert line.startswith(
        "1 × bought damper ring damper 42 under motor left, 5.8 mm thick, 36 g: a rubber ring "
        "between plates of 1.5 mm, nothing of it to make; 1 × pulley spacer"
    )


def test_made_and_bought_ones_have_steps_of_their_own() -> None:
    made = replace(sheet_damper(), name="right")
    titles = [step.title for step in assembly_steps(design(dampers=(bought(), made)), {})]
    assert titles[1:8] == [
        "Glue the dampers",
        "Take motors left and right off",
        "Bond the dampers of motor right",
        "Screw the dampers to the brackets",
        "Screw the motors to their dampers",
        "Screw the bought dampers of motor left to the brackets",
        "Screw motor left to the bought dampers",
    ]
    alone = {step.title: step for step in assembly_steps(design(dampers=(bought(),)), {})}
    assert "Glue the dampers" not in alone
    assert "DXF" not in " ".join(word for step in alone.values() for word in step.words)
    step = alone["Screw the bought dampers of motor left to the brackets"]
    assert "Under the head of one go the toothed washer and the bonding wire's terminal" in (
        " ".join(step.words)
    )
    assert step.uses[0] == "1 × motor damper ring damper 42, for frame size 17, 5.8 mm"


def test_its_sheet_is_read_as_it_was_written_and_asks_for_no_card(tmp_path: Path) -> None:
    drawing, path = (
        design(dampers=(bought(material="damper-ring-damper-42"),)),
        tmp_path / "it.toml",
    )
    path.write_text(write_design(drawing), encoding="utf-8")
    assert read_design(path).motor_dampers == drawing.motor_dampers
    refuse_sheet(path, drawing, {})
