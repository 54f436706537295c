"""How long the kit of the shipped example takes from its sheet, and when a second process pays.

Every time is the least of several: on a shared machine that is the nearest to the work itself.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from dataclasses import replace
from importlib import resources
from pathlib import Path

import pytest

from geometry.draw import draw
from geometry.part_files import MANY, write_parts
from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.commands import search
from isolator.design import Design
from isolator.design.read import write_design

pytestmark = pytest.mark.bench
KIT = """
import sys
from pathlib import Path
from isolator.design.read import read_design
from geometry.draw import draw
from geometry.export import write_all
from isolator.commands.packing_list import pictures_of
from isolator.workshop.assembly import assembly_steps
design = read_design(Path(sys.argv[1]))
parts = draw(design)
write_all(design, Path(sys.argv[2]), parts)
names = {foot.pad.material: foot.pad.material for foot in design.feet}
names |= {damper.material: damper.material for damper in design.motor_dampers}
pictures_of(design, parts, assembly_steps(design, names))
"""
ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def example() -> Design:
    path = resources.files("isolator.examples") / "reading-room.toml"
    brief = read_brief_text(path.read_text(encoding="utf-8"), "reading-room.toml")
    found = search.design(brief, load_cards(), lambda what, done, total: None).design
    assert found is not None
    return found


@pytest.mark.slow
def test_the_example_s_kit_takes_less_than_eight_seconds(
    example: Design, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = tmp_path / "design.toml"
    sheet.write_text(write_design(example), encoding="utf-8")
    taken = []
    for number in range(2):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-c", KIT, str(sheet), str(tmp_path / f"kit-{number}")],
            check=True,
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        taken.append(time.perf_counter() - start)
    with capsys.disabled():
        print(f"\nkit of the example: {min(taken):.2f} s with imports and pictures")
    assert (tmp_path / "kit-0" / "manifest.json").is_file()
    assert min(taken) < 8.0  # demanded of this program


@pytest.mark.slow
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
        start, spent = time.perf_counter(), time.process_time()
        write_parts(parts, example, folder, many)
        taken[many] = (time.perf_counter() - start, time.process_time() - spent)
    (alone, own), (together, left) = taken.values()
    with capsys.disabled():
        print(
            f"\n{count} parts: one process {alone:.2f} s, two {together:.2f} s; "
            f"of {own:.2f} s of work {left:.2f} s stayed here"
        )
    # what the second process takes off this one; the clock itself depends on who else is at work
    assert left < 0.9 * own
