"""What `isolator squash` refuses, each in a sentence."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from squash_words import FOAM, RUBBER, squash

from isolator.reading.notes import Notes
from isolator.recordings.squash_table import read_table

HEAD = "mass [g]; height [mm]\n"
GOOD = HEAD + "0; 20\n500; 19.4\n1000; 18.8\n2000; 17.5\n3000; 16.1\n4000; 14.5\n"
FOAM_ROWS = GOOD.replace(HEAD, "")
WRONG = {
    "no header": (
        FOAM_ROWS,
        FOAM,
        'header: found "0; 20"; wanted a column of mass or force and one of height or '
        'compression; head the columns with name and unit, such as "mass [g]; height '
        '[mm]"',
    ),
    "no units": (
        "mass; height\n" + FOAM_ROWS,
        FOAM,
        "line 1: found load with no unit; wanted one of mass or force, such as g or N; head "
        'the columns with name and unit, such as "mass [g]; height [mm]"',
    ),
    "odd unit": (
        GOOD.replace("[mm]", "[furlong/s]"),
        FOAM,
        'line 1: found height with the unit "furlong/s"; wanted one of length, such as '
        'mm; head the columns with name and unit, such as "mass [g]; height [mm]"',
    ),
    "a word": (
        GOOD.replace("18.8", "about 19"),
        FOAM,
        'line 4: found "about 19"; wanted a number under height; type it anew, or drop the row',
    ),
    "an empty cell": (
        GOOD.replace("18.8", ""),
        FOAM,
        "line 4: found an empty cell; wanted a number under height; type it anew, or drop the row",
    ),
    "a short row": (
        GOOD.replace("1000; 18.8", "1000"),
        FOAM,
        "line 4: found 1 of 2 cells; wanted a number a column; complete the row or drop it",
    ),
    "commas for both": (
        "mass [g], height [mm]\n0,5, 20,0\n",
        FOAM,
        "line 2: found 4 numbers under 2 heads; wanted one a column; part columns by ; or a tab",
    ),
    "two heights": (
        "mass [g]; height [mm]; compression [mm]\n0; 20; 0\n",
        FOAM,
        "line 1: found two columns of heights; wanted height or compression; leave one out",
    ),
    "a load below zero": (
        GOOD.replace("500;", "-500;"),
        FOAM,
        "line 3: found -4.9 N; wanted a load of zero or more; tare the scale first",
    ),
    "a slip of the digit": (
        GOOD.replace("17.5", "19.5"),
        FOAM,
        "line 5: found 19.5 mm under 19.6 N, squeezed less than at line 4; wanted more "
        "squeeze under more load; read it again, or drop the row",
    ),
    "the wrong name": (
        GOOD.replace("height", "compression"),
        FOAM,
        "header: found a compression that goes the wrong way with the load; wanted the "
        "right name over it; is the column the height?",
    ),
    "few loads": (
        HEAD + "0; 20\n2000; 17\n4000; 14\n",
        FOAM,
        "readings: found 3 different loads, 3 in one run up; wanted 5 or more in one run "
        "up, for foam; pile up the weight in smaller steps",
    ),
    "no squeeze": (
        GOOD.replace("; 1", "; 20 # 1").replace("20 # 19.4", "20"),
        FOAM,
        None,
    ),
    "beyond its height": (
        GOOD.replace("14.5", "0.1"),
        FOAM,
        "line 7: found a compression of 100 % of the height; wanted less than 95 %; check"
        " units, thickness and layers",
    ),
    "kilograms for grams": (
        GOOD.replace("[g]", "[kg]"),
        FOAM,
        "line 4: found 9807 N; wanted no more than 5000 N, the weight of half a ton; check "
        "the unit over the loads: is it g?",
    ),
    "one reading": (
        HEAD + "500; 19\n",
        FOAM,
        "readings: found 1 different load; wanted 5 or more in one run up, for foam; pile up the "
        "weight in smaller steps",
    ),
    "metres": (
        GOOD.replace("[mm]", "[m]"),
        FOAM,
        "line 2: found 20000 mm under 0 N; wanted within 10 % of 20 mm, which thickness and layers "
        "make; check the unit, and that load and height stand under their own heads",
    ),
    "another piece": (
        GOOD,
        FOAM.replace("--thickness 20mm", "--thickness 30mm"),
        "line 2: found 20 mm under 0 N; wanted within 10 % of 30 mm, which thickness and layers "
        "make; measure the piece again, without boards",
    ),
    "boards read too": (
        GOOD.replace("0; 20\n", "200; 26\n"),
        FOAM,
        "line 2: found 26 mm under 1.96 N; wanted within 10 % of 20 mm, which thickness and "
        "layers make; measure the piece again, without boards",
    ),
    "no shape": (
        GOOD,
        FOAM.replace("--shape disc ", ""),
        "command line: --shape: found nothing; wanted one of disc, ring, rectangle, "
        "square-with-hole; add --shape disc",
    ),
    "an odd family": (
        GOOD,
        FOAM.replace("family foam", "bonded --family felted"),
        None,
    ),
    "a bare size": (
        GOOD,
        FOAM.replace("40mm", "40"),
        None,
    ),
    "a hole as wide": (
        GOOD,
        FOAM.replace("disc --size 40mm", "ring --size 30mm --size 40mm"),
        "command line: --size: found a hole as wide as the piece; wanted less; swap the two sizes?",
    ),
    "faces unsaid": (
        GOOD,
        RUBBER.replace("--bonded ", ""),
        None,
    ),
    "a shipped id": (
        GOOD,
        FOAM.replace("own-foam", "pe-30"),
        'command line: --id: found "pe-30", which is shipped; wanted an id of its own; '
        "such as my-pe-30",
    ),
    "an odd id": (
        GOOD,
        FOAM.replace("own-foam", "Own_Foam"),
        'command line: --id: found "Own_Foam"; wanted a card\'s id: small letters, digits '
        'and hyphens, 40 at most; write it like "my-foam"',
    ),
    "lent by another family": (
        GOOD,
        FOAM + " --like nr-50",
        'like: found "nr-50", rubber; wanted a card of foam; see `isolator materials`',
    ),
    "lent by nobody": (
        GOOD,
        FOAM + " --like sponge-22",
        'like: found "sponge-22"; wanted the id of a material card; did you mean '
        "sponge-2, sponge-3, sponge-1?",
    ),
}


@pytest.mark.parametrize("what", WRONG)
def test_what_is_wrong_is_told_in_a_sentence(what: str, tmp_path: Path) -> None:
    text, words, told = WRONG[what]
    file = tmp_path / "own.csv"
    file.write_text(text, encoding="utf-8")
    ran = squash(file, words, tmp_path / "out")
    assert (ran.code, ran.out) == (2, "")
    (line,) = ran.err.splitlines()
    assert re.fullmatch(r".+: found .+; wanted .+; .+", line)
    if told is not None:
        where = "" if told.startswith("command line") else f"{file}: "
        assert line == where + told
    assert not (tmp_path / "out").exists()


def test_files_that_are_none_are_refused(tmp_path: Path) -> None:
    for name, content in (("a.csv", b"\xff\xfe\x00"), ("b.toml", b"[specimen"), ("c.csv", b"")):
        (tmp_path / name).write_bytes(content)
        ran = squash(tmp_path / name, FOAM, tmp_path / "out")
        assert (ran.code, ran.out) == (2, "")
        assert ran.err.startswith(f"{tmp_path / name}: ")
    assert squash(tmp_path / "none.csv", FOAM, tmp_path).code == 2
    file = tmp_path / "own.csv"
    file.write_text(GOOD, encoding="utf-8")
    ran = squash(file, FOAM, tmp_path, "--card", tmp_path / "other.toml")
    assert 'found "other.toml"; wanted own-foam.toml, after the card\'s id' in ran.err


@given(st.text(alphabet="0123456789,.;\t \nmass[g]height(m)-eE+−#", max_size=200))
def test_any_text_is_a_table_or_a_fault(text: str) -> None:
    for lines in (text, f"mass [g]; height [mm]\n{text}", f"mass_g,height_mm\n{text}"):
        notes = Notes("a.csv")
        found = read_table(lines, notes)
        assert (found is None) == bool(notes.faults)
        if found is not None:
            assert len({len(each.values) for each in found.columns} | {len(found.rows)}) == 1
