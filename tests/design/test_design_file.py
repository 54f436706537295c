"""design.toml: written, read back, refused with every fault at once."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets import ATTACHMENTS, SHAPES, design, foot, spacer

import isolator
from isolator.brief.read import read_brief
from isolator.design.read import read_design
from isolator.design.write import write_design
from isolator.reading.faults import InputError

DESIGN = design(
    foot("cup", "ring", "bolt", "small"),
    replace(foot("printed", "rectangle", "slot-30", "large"), name='hinten "links"'),
    spacers=(spacer("left"), spacer("right", 23)),
)


@pytest.mark.parametrize("attachment", ATTACHMENTS)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("kind", ["cup", "printed"])
def test_a_design_comes_back_as_it_went(kind, shape, attachment, tmp_path):
    sheet = replace(DESIGN, feet=(foot(kind, shape, attachment, "usual"),))
    path = tmp_path / "design.toml"
    path.write_text(write_design(sheet), encoding="utf-8")
    assert read_design(path) == sheet


def test_writing_what_was_read_gives_the_same_text(tmp_path):
    text = write_design(DESIGN)
    path = tmp_path / "design.toml"
    path.write_text(text, encoding="utf-8")
    assert write_design(read_design(path)) == text
    assert "# compression of the pad at which the rim touches what is below" in text


def test_other_units_are_taken(tmp_path):
    path = tmp_path / "design.toml"
    text = write_design(DESIGN).replace('nozzle = "0.4 mm"', 'nozzle = "0.015748031496063 in"')
    path.write_text(text, encoding="utf-8")
    # 15 digits were typed
    assert read_design(path).print.nozzle == pytest.approx(4e-4, rel=1e-12)


def test_every_fault_is_told_at_once(tmp_path):
    text = write_design(DESIGN)
    for old, new in (
        ('version = "0.1.0"', 'verson = "0.1.0"'),
        ('slug = "reading-room-printer"', 'slug = "../etc"'),
        ('nozzle = "0.4 mm"', "nozzle = 0.4"),
        ('layer = "0.2 mm"', 'layer = "nan mm"'),
        ('kind = "cup"', 'kind = "cupp"'),
        ('sole = "2.6 mm"', 'sole = "2.6 kg"'),
        ('second = "9.1 mm"', 'second = "91 mm"'),
        ("layers = 2", "layers = 0"),
        ("frame_size = 17", "frame_size = 18"),
        ('bore = "5 mm"', 'bore = "-5 mm"'),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    path = tmp_path / "sheet.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_design(path)
    told = {fault.key: fault for fault in caught.value.faults}
    assert set(told) == {
        "version",
        "verson",
        "slug",
        "print.nozzle",
        "print.layer",
        "foot[1].kind",
        "foot[1].sole",
        "foot[1].pad.second",
        "foot[1].pad.layers",
        "motor_spacer[1].frame_size",
        "motor_spacer[1].bore",
    }
    assert told["verson"].line() == (
        f"{path}: verson: found an unknown key; wanted a key of the design; did you mean version?"
    )
    assert told["slug"].line() == (
        f'{path}: slug: found "../etc"; wanted lower-case letters, digits and single hyphens; '
        "it names the folder of the output"
    )
    assert told["foot[1].pad.second"].line() == (
        f"{path}: foot[1].pad.second: found 91 mm; wanted less than first, 21.3 mm; "
        "lower it or raise first"
    )
    assert told["motor_spacer[1].frame_size"].line() == (
        f"{path}: motor_spacer[1].frame_size: found 18; wanted one of 14, 17, 23; "
        "write it bare, as 17"
    )


@pytest.mark.parametrize(
    ("content", "got"),
    [
        (b"\xff\xfe\x00", "bytes that are no text"),
        (b"a = " + b"[" * 5000, "brackets nested too deep"),
        (b"x" * 1_000_001, "more than 1 MB"),
    ],
)
def test_a_file_that_is_none_is_refused(content, got, tmp_path):
    path = tmp_path / "design.toml"
    path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        read_design(path)
    (fault,) = caught.value.faults
    assert (fault.key, fault.got, fault.wanted) == ("", got, "a design")


def test_a_brief_is_no_design_and_the_other_way_round(tmp_path):
    example = Path(isolator.__file__).parent / "examples/reading-room.toml"
    with pytest.raises(InputError) as caught:
        read_design(example)
    assert [each.line() for each in caught.value.faults] == [
        f"{example}: found a brief; wanted a design; run `isolator design` on it; that writes the "
        "design.toml that can be drawn"
    ]
    sheet = tmp_path / "design.toml"
    sheet.write_text('name = "Old"\nslug = "old"\n', encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_brief(sheet)
    assert [each.line() for each in caught.value.faults] == [
        f"{sheet}: found a design; wanted a brief; name the brief that it was made from; a "
        "design.toml is drawn by `isolator draw`"
    ]


def test_missing_file_and_folder_are_refused(tmp_path):
    for path, got in ((tmp_path / "none.toml", "no such file"), (tmp_path, "a folder")):
        with pytest.raises(InputError) as caught:
            read_design(path)
        assert caught.value.faults[0].line() == (
            f"{path}: found {got}; wanted a design; name a design.toml that this program wrote"
        )


@settings(max_examples=150)
@given(st.data())
def test_no_mutation_gives_anything_but_faults_or_a_design(tmp_path_factory, data):
    lines = write_design(DESIGN).splitlines()
    at = data.draw(st.integers(0, len(lines) - 1))
    value = data.draw(
        st.sampled_from(
            [
                "nan",
                "inf",
                "-1",
                "0",
                "true",
                "[]",
                "{}",
                '""',
                '"nan mm"',
                '"1e400 mm"',
                '"2*3 mm"',
                '"-4 mm"',
                '"../../x"',
                "[[1]]",
                "1979-05-27",
                '"0 mm"',
                '"5 kg"',
            ]
        )
    )
    key = lines[at].split("=")[0].strip()
    lines[at] = data.draw(st.sampled_from([f"{key} = {value}", "", lines[at] * 2, f"[{key}]"]))
    path = tmp_path_factory.mktemp("mutated") / "design.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    try:
        read = read_design(path)
    except InputError:
        return  # refused with its faults: nothing else may come out
    assert write_design(read).count("[[foot]]") == len(read.feet)
    assert read.print.nozzle > 0
