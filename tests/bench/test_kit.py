"""How long the kit of the shipped example takes from its sheet, and when a second process pays."""

from __future__ import annotations

import os
import time
from dataclasses import replace
from functools import partial
from importlib import resources
from pathlib import Path

import pytest
from paired import KERNEL, paired, python, spent
from sheets import PRINT, damper, foot, spacer
from sheets import design as sheet_of

from geometry.draw import draw
from geometry.part_files import MANY, write_parts
from geometry.pictures.exploded import exploded_scene
from geometry.pictures.picture import assembly_scene, cut_scene, part_scene
from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.commands.design import solve
from isolator.design import Design
from isolator.design.write import write_design

pytestmark = [pytest.mark.bench, pytest.mark.usefixtures("all_samples")]
KIT = """
import sys
from pathlib import Path
from isolator.design.read import read_design
from geometry.draw import draw
from geometry.export import write_all
from isolator.commands.pictures import pictures_of, scenes_of
from isolator.workshop.assembly import assembly_steps
design = read_design(Path(sys.argv[1]))
parts = draw(design)
write_all(design, Path(sys.argv[2]), parts)
names = {foot.pad.material: foot.pad.material for foot in design.feet}
names |= {damper.material: damper.material for damper in design.motor_dampers}
pictures_of(scenes_of(design, parts, assembly_steps(design, names)))
"""


@pytest.fixture(scope="module")
def example() -> Design:
    path = resources.files("isolator.examples") / "reading-room.toml"
    brief = read_brief_text(path.read_text(encoding="utf-8"), "reading-room.toml")
    found = solve(brief, load_cards(), lambda what, done, total: None).design
    assert found is not None
    return found


def test_the_kit_against_the_start_of_the_drawing_kernel(
    example: Design, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = tmp_path / "design.toml"
    sheet.write_text(write_design(example), encoding="utf-8")
    took = paired(
        3,
        lambda: python(tmp_path, KIT, str(sheet), str(tmp_path / "kit")),
        lambda: python(tmp_path, KERNEL),
    )
    # measured 3.7
    took.hold(6.0, "kit with imports and pictures", "the import of the drawing kernel", capsys)
    assert (tmp_path / "kit" / "assembly.step").is_file()


@pytest.mark.skipif((os.cpu_count() or 1) < 2, reason="a second process needs a second core")
def test_a_second_process_pays_for_many_parts(
    example: Design, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kit, count = draw(example), 96
    parts = [replace(kit[n % len(kit)], name=f"copy-{n}") for n in range(count)]
    assert count >= MANY
    taken = {}
    for many in (count + 1, MANY):
        folder = tmp_path / str(many)
        for name in ("parts", "drawings"):
            (folder / name).mkdir(parents=True)
        start = time.process_time()
        took = spent(partial(write_parts, parts, example, folder, many))
        taken[many] = (took.clock, time.process_time() - start)
    (alone, own), (together, left) = taken.values()
    with capsys.disabled():
        print(
            f"\n{count} parts: one process {alone:.2f} s, two {together:.2f} s; "
            f"of {own:.2f} s of work {left:.2f} s stayed here"
        )
    # what the second process takes off this one; the clock itself depends on who else is at work
    assert left < 0.9 * own


def test_pictures_against_drawing_what_they_show(capsys: pytest.CaptureFixture[str]) -> None:
    feet = foot("cup", "rectangle", "slot-20", "usual")
    kit = sheet_of(feet, spacers=(spacer(),))
    parts = draw(kit)

    def pictures() -> None:
        for part in parts:
            part_scene(part).png()
        assembly_scene(kit, parts).png()
        cut_scene(feet, parts).png()

    took = paired(5, pictures, lambda: draw(kit))
    # measured 0.41
    took.hold(0.7, "pictures of a kit", "drawing it", capsys)


def test_a_damper_pulled_apart_against_drawing_it(capsys: pytest.CaptureFixture[str]) -> None:
    one = damper(wedge=True)
    kit = sheet_of(dampers=(one,))
    took = paired(5, lambda: exploded_scene(one, PRINT).png(), lambda: draw(kit))
    # measured 0.33
    took.hold(0.6, "picture of a damper", "drawing it", capsys)
