"""A material that nobody has is refused wherever a brief names it."""

from __future__ import annotations

from pathlib import Path

from command import example, isolator


def test_a_damper_of_an_unknown_material_is_refused(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    text = example("reading-room")
    assert "[damper]" not in text
    brief.write_text(f'{text}\n[damper]\nmaterials = ["nr-41"]\n', encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out")
    assert ran.code == 2
    assert ran.err.startswith(
        f'{brief}: damper.materials[1]: found "nr-41"; wanted the id of a material card; '
        "did you mean nr-40"
    )
