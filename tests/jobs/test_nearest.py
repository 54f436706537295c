"""The nearest feet where none hold: told even where they cannot be drawn."""

from __future__ import annotations

import json
from importlib import resources

from command import isolator


def test_the_nearest_feet_are_told_where_they_cannot_be_drawn(tmp_path) -> None:
    example = resources.files("isolator.examples") / "reading-room.toml"
    text = example.read_text(encoding="utf-8")
    brief = tmp_path / "narrow.toml"
    brief.write_text(
        text.replace('attachment = "slot-20"', 'attachment = "two-bolts"\nspacing = "22 mm"')
        + '\n[stock]\nmaterials = ["nr-50"]\nshapes = ["disc"]\n'
        + 'widths = ["24 mm", "40 mm", "8 mm"]\n',
        encoding="utf-8",
    )
    done = isolator("design", brief, "--pick", "rubber", "--out", tmp_path / "out")
    assert done.code == 1
    assert "nearest feet" in done.out
    folder = tmp_path / "out" / "reading-room-printer"
    told = json.loads((folder / "result.json").read_text(encoding="utf-8"))
    (doubt,) = [line for line in told["warnings"] if line.startswith("the nearest feet")]
    assert doubt.startswith("the nearest feet cannot be drawn: foot-cup: holes: ")
    assert " mm of the foot's side; 0.5 mm is the least" in doubt
    (check,) = [each for each in told["checks"] if each["name"] == "room for its screw"]
    assert not check["passed"]
    assert check["advice"] == (
        "take a narrower pad, set the screws further apart, or glue the foot on"
    )
    # the motors' parts are drawn all the same
    assert list((folder / "parts").glob("*damper*.step"))
    assert not list((folder / "parts").glob("foot-*"))
    assert doubt.split(": ")[0] in (folder / "report.html").read_text(encoding="utf-8")
