"""Briefs as files: names of folders, files that are none, designs beside them."""

from __future__ import annotations

from pathlib import Path

import pytest
from briefs import PLACES, swapped

from isolator.brief import read_brief
from isolator.design.naming import folder_name
from isolator.reading.faults import InputError


@pytest.mark.parametrize(
    ("name", "folder"),
    [
        ("Reading-room printer", "reading-room-printer"),
        ("../../etc/passwd", "etc-passwd"),
        ("Ünser Drucker №3", "unser-drucker-no3"),
        ("図書館", "printer"),
        ("NUL", "printer-nul"),
        ("..", "printer"),
        ("a" * 79, "a" * 60),
    ],
)
def test_a_name_becomes_a_folder_and_never_a_path(name: str, folder: str) -> None:
    assert folder_name(name) == folder


def test_files_that_are_no_brief_are_told_so(tmp_path: Path) -> None:
    def refusal(path: Path) -> str:
        with pytest.raises(InputError) as error:
            read_brief(path)
        return str(error.value).replace(str(tmp_path), "DIR")

    (tmp_path / "binary.toml").write_bytes(b"name = 1\n\x00\xff\xfe\x7fELF")
    (tmp_path / "large.toml").write_text("# long\n" * 30_000)
    (tmp_path / "line.toml").write_text('name = "a"\n[printer]\nmass = 11.8 kg\n')
    (tmp_path / "deep.toml").write_text("a = " + "[" * 5000)
    (tmp_path / "dots.toml").write_text("a." * 90_000 + "b = 1")  # 32 GB to a naive reader
    (tmp_path / "digits.toml").write_text("a = " + "9" * 5000)
    assert refusal(tmp_path) == "DIR: found a folder; wanted a brief; name the file inside it"
    assert refusal(tmp_path / "none.toml") == (
        "DIR/none.toml: found no such file; wanted a brief; "
        "check the path, or write a starter with `isolator start FILE`"
    )
    assert refusal(tmp_path / "binary.toml") == (
        "DIR/binary.toml: found bytes that are no text in line 2; wanted text in UTF-8; "
        "save it as UTF-8 text"
    )
    assert refusal(tmp_path / "large.toml") == (
        "DIR/large.toml: found more than 200 kB; wanted a brief; is this the right file?"
    )
    assert refusal(tmp_path / "line.toml") == (
        "DIR/line.toml: found a line that is no TOML: Expected newline or end of document after "
        "a statement (at line 3, column 13); wanted TOML; "
        'quantities and texts stand in quotes ("18 mm"), plain numbers bare (17), names of tables '
        "in [brackets]"
    )
    assert refusal(tmp_path / "deep.toml") == (
        "DIR/deep.toml: found brackets nested too deep; wanted TOML; remove them"
    )
    assert refusal(tmp_path / "dots.toml") == (
        "DIR/dots.toml: found a line of more than 250 dots; wanted a brief; is this the right file?"
    )
    assert refusal(tmp_path / "digits.toml") == (
        "DIR/digits.toml: found a number of thousands of digits; wanted TOML; shorten it"
    )


def test_a_design_beside_the_brief_is_found(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "design.toml").write_text("")
    (tmp_path / "brief.toml").write_text(swapped((PLACES, 'design = "out/design.toml"')))
    assert read_brief(tmp_path / "brief.toml").feet.design == tmp_path / "out" / "design.toml"
