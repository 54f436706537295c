"""`isolator squash`: a card of one's own from weights and heights, and what it refuses."""

from __future__ import annotations

import json
import os
import re
from html import unescape
from importlib import resources
from pathlib import Path

import numpy as np
import pytest
from command import Ran, example, isolator, tree
from hypothesis import given
from hypothesis import strategies as st
from squashed import csv, foam_piece, off, piece, readings, rubber_block

from isolator.brief import read_brief_text
from isolator.brief.places import foot_positions
from isolator.cards import Material, load_card, load_cards
from isolator.design import Pad
from isolator.design.read import read_design
from isolator.reading.notes import Notes
from isolator.recordings.squash_table import read_table
from isolator.vibration.evaluation import held
from isolator.vibration.installation import build_installation
from isolator.vibration.stand import Alike, one_pad, pads_stand

CARDS = load_cards()
FOAM = "--family foam --shape disc --size 40mm --thickness 20mm --id own-foam"
RUBBER = "--family rubber --shape disc --size 30mm --thickness 10mm --bonded --id own-rubber"
LIGHT = [0, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]


def squash(file: Path, words: str, out: Path, *more: object) -> Ran:
    return isolator("squash", file, *words.split(), "--out", out, *more)


@pytest.fixture
def foam_csv(tmp_path: Path) -> Path:
    told = piece(family="foam", first=0.040, thickness=0.020)
    rng = np.random.default_rng(8)
    found = readings(foam_piece(off(told, rng), CARDS["sponge-2"]), LIGHT, rng, height=0.0203)
    path = tmp_path / "foam.csv"
    path.write_text(csv(found), encoding="utf-8")
    return path


def bounce(card: Material) -> float:
    """Bounce [Hz] of the shipped example's printer on four discs of a card."""
    text = (resources.files("isolator.examples") / "reading-room.toml").read_text(encoding="utf-8")
    brief = read_brief_text(text, "reading-room.toml")
    installation = build_installation(brief, dict(CARDS))
    pad = Pad(
        shape="disc",
        first=0.028,
        second=0.0,
        thickness=0.014,
        layers=1,
        material=card.id,
        printed=False,
    )
    places = np.array(foot_positions(brief.feet, brief.printer.size, 4))
    group = Alike(pads=one_pad(card, pad), positions=places, cap=0.004, width=0.028)
    stand = pads_stand(brief.room, card, "feet", [group], 0.018)
    modes = held(installation, stand, brief.motion.speeds).modes
    return next(mode.frequency.nominal for mode in modes if mode.name == "bounce")


def test_a_card_from_squashed_foam_predicts_the_bounce_of_feet(
    foam_csv: Path, tmp_path: Path
) -> None:
    ran = squash(foam_csv, FOAM + " --like sponge-1", tmp_path, "--json")
    assert (ran.code, ran.err) == (0, "")
    told = ran.json()["squash"]
    card = load_card(Path(told["card"]["file"]))
    assert told["card"]["id"] == card.id == "own-foam"
    assert bounce(card) == pytest.approx(bounce(CARDS["sponge-2"]), rel=0.05)
    # the lent damping and dynamic ratio are estimates; the curve is measured
    assert card.curve is not None
    assert (card.curve.kind, card.loss_factor.kind) == ("measured", "estimated")
    modulus = told["card"]["youngs_modulus_pa"]
    assert modulus["low"] < modulus["nominal"] < modulus["high"]
    assert card.youngs_modulus is not None
    assert card.youngs_modulus.value == pytest.approx(modulus["nominal"], rel=1e-3)


def test_a_terminal_tells_it_on_one_screen_and_a_brief_takes_the_card(
    foam_csv: Path, tmp_path: Path
) -> None:
    ran = squash(foam_csv, FOAM, tmp_path)
    lines = ran.out.splitlines()
    assert (ran.code, ran.err) == (0, "")
    assert len(lines) <= 25
    assert lines[0] == "Own squash test, own-foam (own-foam), foam"
    assert lines[1].startswith("Young's modulus: ")
    assert set(tree(tmp_path / "cards")) == {"own-foam.toml", "own-foam.svg"}
    brief = tmp_path / "brief.toml"
    text = example("reading-room").replace("[limits]", '[stock]\ncards = "cards"\n\n[limits]', 1)
    brief.write_text(text, encoding="utf-8")
    ran = isolator("materials", "own-foam", "--cards", tmp_path / "cards", "--json")
    assert ran.json()["materials"][0]["family"] == "foam"


def test_rubber_in_one_toml_is_the_same_as_in_csv_with_options(tmp_path: Path) -> None:
    found = readings(rubber_block(piece(), CARDS["nr-50"], 1.9e6, 1.0), [0, 5, 10, 15, 20, 25, 30])
    table = tmp_path / "own.csv"
    table.write_text(csv(found, separator="\t"), encoding="utf-8")
    first = squash(table, RUBBER, tmp_path / "a", "--json").json()["squash"]
    mass, place = (
        ", ".join(f"{each:.3f}" for each in scale * values)
        for scale, values in ((1e3 / 9.80665, found.force), (1e3, found.place))
    )
    file = tmp_path / "own.toml"
    file.write_text(
        '[specimen]\nfamily = "rubber"\nshape = "disc"\nsize = ["30 mm"]\nthickness = "10 mm"\n'
        'faces = "bonded"\nid = "own-rubber"\n[readings]\n'
        f'"mass [g]" = [{mass}]\n"compression (mm)" = [{place}]\n',
        encoding="utf-8",
    )
    second = squash(file, "", tmp_path / "b", "--json").json()["squash"]
    assert second["card"]["youngs_modulus_pa"]["nominal"] == pytest.approx(1.9e6, rel=2e-3)
    assert first["fit"]["law"] == second["fit"]["law"] == "neo-Hookean block"
    nominals = [each["card"]["youngs_modulus_pa"]["nominal"] for each in (first, second)]
    assert nominals[0] == pytest.approx(nominals[1], rel=1e-3)


def test_a_print_is_fitted_as_a_whole_by_the_card_of_its_filling(tmp_path: Path) -> None:
    base = CARDS["tpu-85-gyroid-25"]
    told = piece(family="printed", first=0.025, thickness=0.012)
    found = readings(rubber_block(told, base, 12e6, 1.0), [0, 5, 10, 15, 20, 25, 30])
    table = tmp_path / "own.csv"
    table.write_text(csv(found), encoding="utf-8")
    words = "--family printed --shape disc --size 25mm --thickness 12mm --bonded --id own-print"
    ran = squash(table, words, tmp_path)
    assert ran.code == 2
    assert "wanted the card of a print with the infill and walls of the piece" in ran.err
    ran = squash(table, f"{words} --like tpu-85-gyroid-25", tmp_path, "--json")
    card = load_card(tmp_path / "cards" / "own-print.toml")
    assert card.solid_modulus is not None
    assert card.solid_modulus.value == pytest.approx(12e6, rel=5e-3)
    assert (card.infill, card.pattern, card.wall) == (base.infill, base.pattern, base.wall)
    whole = ran.json()["squash"]["card"]["youngs_modulus_pa"]["nominal"]
    assert 0.1 < whole / 12e6 < 0.5  # a quarter filled, its wall beside


def test_a_warm_kitchen_is_taken_out(foam_csv: Path, tmp_path: Path) -> None:
    slopes = []
    for name, words in (("cold", ""), ("warm", " --temperature 30degC")):
        words = FOAM.replace("own-foam", name) + words + " --like sponge-2"
        assert squash(foam_csv, words, tmp_path).code == 0
        card = load_card(tmp_path / "cards" / f"{name}.toml")
        assert card.curve is not None
        slopes.append(card.curve.stress[-1])
    # −0.4 % a kelvin on the card of sponge: at 20 °C it is stiffer than it was at 30
    assert slopes[1] / slopes[0] == pytest.approx(np.exp(0.004 * 10), rel=1e-3)


def test_only_a_card_of_a_squash_test_that_nobody_edited_is_replaced(
    foam_csv: Path, tmp_path: Path
) -> None:
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    card = tmp_path / "cards" / "own-foam.toml"
    first = card.read_bytes()
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    assert card.read_bytes() == first
    mine = first.replace(b"Own squash test, own-foam", b"The grey one")
    card.write_bytes(mine)
    ran = squash(foam_csv, FOAM, tmp_path)
    assert (ran.code, ran.err) == (
        2,
        f"{card}: found a card that was edited since; wanted a place of its own for the card; "
        "choose another --id, or move it away\n",
    )
    card.write_text("mine", encoding="utf-8")
    assert squash(foam_csv, FOAM, tmp_path).code == 2
    assert card.read_text(encoding="utf-8") == "mine"


def test_only_a_plot_of_a_squash_test_that_nobody_edited_is_replaced(
    foam_csv: Path, tmp_path: Path
) -> None:
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    card, plot = (tmp_path / "cards" / f"own-foam.{end}" for end in ("toml", "svg"))
    first = card.read_bytes()
    told = {
        "mine": "something that no squash test wrote",
        plot.read_text(encoding="utf-8").replace("#", "##"): "a plot that was edited since",
    }
    for text, got in told.items():
        plot.write_text(text, encoding="utf-8")
        ran = squash(foam_csv, f"{FOAM} --temperature 30degC", tmp_path)
        assert (ran.code, ran.err) == (
            2,
            f"{plot}: found {got}; wanted a place of its own for the card; choose another --id, or "
            "move it away\n",
        )
        assert (card.read_bytes(), plot.read_text(encoding="utf-8")) == (first, text)
    card.unlink()
    assert squash(foam_csv, FOAM, tmp_path).code == 2
    assert not card.exists()


def test_card_and_plot_come_together_or_not_at_all(
    foam_csv: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk fails as the second of the two is put in place."""
    replace = os.replace
    put: list[Path] = []

    def fail(made: Path, file: Path) -> None:
        if len(put) % 2:
            put.clear()
            raise OSError(28, "No space left on device")
        put.append(file)
        replace(made, file)

    monkeypatch.setattr(os, "replace", fail)
    cards = tmp_path / "cards"
    ran = squash(foam_csv, FOAM, tmp_path)
    assert (ran.code, ran.err) == (
        2,
        f"{cards / 'own-foam.toml'}: found no space left on device; wanted a place that can be "
        "written to; choose another --out\n",
    )
    assert list(cards.iterdir()) == []
    monkeypatch.undo()
    assert squash(foam_csv, FOAM, tmp_path).code == 0
    before = tree(cards)
    monkeypatch.setattr(os, "replace", fail)
    assert squash(foam_csv, f"{FOAM} --temperature 30degC", tmp_path).code == 2
    assert tree(cards) == before


def test_what_the_card_changes_of_designed_feet(shipped, tmp_path: Path) -> None:
    (foot, *_) = read_design(shipped.folder / "design.toml").feet
    base = CARDS[foot.pad.material]
    assert base.youngs_modulus is not None
    stiffer = 1.5 * base.youngs_modulus.value
    block = rubber_block(piece(faces="slipping"), base, stiffer, 0.0)
    file, card = tmp_path / "own.csv", tmp_path / "own-rubber.toml"
    file.write_text(csv(readings(block, [0, 1, 2, 3, 4, 5, 6])), encoding="utf-8")
    words = f"{RUBBER.replace('--bonded', '--slipping')} --like {base.id} --card {card}"
    words += f" --brief {resources.files('isolator.examples') / 'reading-room.toml'}"
    found = squash(file, words, shipped.out, "--json").json()["squash"]["feet"]
    before, after = found["before"], found["after"]
    assert (before["material"], after["material"]) == (base.id, "own-rubber")
    rise = after["bounce_hz"]["nominal"] / before["bounce_hz"]["nominal"]
    # stiffness alone would make it √1.5; stiffer pads are squeezed less, along a flatter curve
    assert 1.1 < rise < 1.5**0.5 + 0.02
    assert after["strain"] < before["strain"]
    assert len(after["heard_change_db"]) == len(found["speeds_m_per_s"]) > 0
    ran = squash(file, words, shipped.out)
    assert len(ran.out.splitlines()) <= 25
    assert re.search(rf"(?m)^  {base.id}: bounce [0-9.]+ Hz \(", ran.out)
    told = squash(file, words, tmp_path / "elsewhere")
    assert "found no feet designed from it" in told.err


def test_design_tells_what_to_squash_and_with_which_weights(shipped) -> None:
    place = shipped.folder / "squash"
    text = (place / "protocol.txt").read_text(encoding="utf-8")
    brief = resources.files("isolator.examples") / "reading-room.toml"
    ran = isolator("squash", "--plan", brief, "--out", shipped.out)
    assert (ran.code, ran.err) == (0, "")
    assert len(ran.out.splitlines()) <= 25
    told = " ".join(ran.out.split())
    assert told.replace(f"{shipped.out}/", "out/") == " ".join(text.split())
    assert f"isolator squash {place / 'readings.toml'}; " in told
    assert text.startswith("Squash a piece of your own: ")
    steps = [line.partition(". ")[2] for line in text.splitlines()[2:]]
    report = (shipped.folder / "report.html").read_text(encoding="utf-8")
    assert all(f"<li>{step}</li>" in unescape(report) for step in steps)
    manifest = json.loads((shipped.folder / "manifest.json").read_text(encoding="utf-8"))
    assert {"squash/protocol.txt", "squash/readings.toml"} <= set(manifest["written_sha256"])
    assert isolator("squash").err == (
        "command line: FILE: found nothing; wanted a file of readings; name it, or ask for a "
        "protocol with --plan BRIEF\n"
    )


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
        "line 1: found load with no unit; wanted one such as g, N, mm or s; head the "
        'columns with name and unit, such as "mass [g]; height [mm]"',
    ),
    "odd unit": (
        GOOD.replace("[mm]", "[furlong/s]"),
        FOAM,
        'line 1: found height with the unit "furlong/s"; wanted one such as g, N, mm or '
        's; head the columns with name and unit, such as "mass [g]; height [mm]"',
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
