"""A folder that is there already, with a manifest of any kind, and who may read a new one."""

from __future__ import annotations

import os
import stat
from dataclasses import replace
from pathlib import Path

import pytest
from command import isolator
from sheets import design

from isolator.commands.manifest import MARK
from isolator.commands.output import publish
from isolator.design.write import write_design

UNREADABLE = (
    "{0}: found a manifest.json that is cut off or of another kind; wanted a place of its own for "
    "the output; move it away, rename the brief, or choose another --out"
)
FOREIGN = UNREADABLE.replace(
    "a manifest.json that is cut off or of another kind",
    "something that this program did not write",
)
BROKEN = {
    "cut off": (b'{"made_by": "isol', UNREADABLE),
    "empty": (b"", UNREADABLE),
    "no text": (b"\xff\xfe\x00", UNREADABLE),
    "a list": (b"[1, 2]", UNREADABLE),
    "deep": (b"[" * 100_000, UNREADABLE),
    "of another program": (b'{"made_by": "cake"}', FOREIGN),
}


@pytest.mark.parametrize("what", BROKEN)
@pytest.mark.parametrize("command", ["design", "draw"])
def test_a_manifest_that_tells_nothing(tmp_path: Path, command: str, what: str) -> None:
    folder = tmp_path / "out" / "bare"
    folder.mkdir(parents=True)
    content, told = BROKEN[what]
    (folder / MARK).write_bytes(content)
    (folder / "design.toml").write_text("edited = true\n", encoding="utf-8")
    brief, sheet = tmp_path / "brief.toml", tmp_path / "design.toml"
    brief.write_text(
        'name = "bare"\n[printer]\nmass = "9 kg"\nsize = ["380 mm", "410 mm", "450 mm"]\n'
        '[motion]\nlayout = "moving-bed"\nspeeds = ["50 mm/s"]\n',
        encoding="utf-8",
    )
    sheet.write_text(write_design(replace(design(), slug="bare")), encoding="utf-8")
    ran = isolator(command, brief if command == "design" else sheet, "--out", tmp_path / "out")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == told.format(folder) + "\n"
    assert (folder / MARK).read_bytes() == content


def test_a_folder_that_may_not_be_looked_into(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "out" / "reading-room-printer").mkdir(parents=True)

    def denied(folder: Path) -> object:
        raise PermissionError(13, "Permission denied", str(folder))

    monkeypatch.setattr(Path, "iterdir", denied)
    ran = isolator("design", "--out", tmp_path / "out")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == (
        f"{tmp_path}/out: found permission denied; wanted a place that can be written to; "
        "choose another folder with --out\n"
    )


@pytest.mark.parametrize(("umask", "mode"), [(0o022, 0o755), (0o077, 0o700), (0o002, 0o775)])
def test_a_new_folder_follows_the_umask(tmp_path: Path, umask: int, mode: int) -> None:
    before = os.umask(umask)
    try:
        folder = publish(tmp_path, "made", lambda fresh: None, None).folder
    finally:
        os.umask(before)
    assert stat.S_IMODE(folder.stat().st_mode) == mode
