"""`isolator squash`: a card of one's own from weights and heights, and what it refuses."""

from __future__ import annotations

import json
import re
from html import unescape
from importlib import resources
from pathlib import Path

import numpy as np
import pytest
from command import example, isolator, tree
from squash_words import FOAM, RUBBER, squash
from squashed import csv, piece, readings, rubber_block

from isolator.brief import read_brief_text
from isolator.brief.places import foot_positions
from isolator.cards import Material, load_card, load_cards
from isolator.design import Pad
from isolator.design.read import read_design
from isolator.vibration.evaluation import held
from isolator.vibration.installation import build_installation
from isolator.vibration.stand import Alike, one_pad, pads_stand

CARDS = load_cards()


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
    assert after["sway_m"] < before["sway_m"] < 0.6e-3
    names = [each["name"] for each in after["checks"]]
    assert {"sway", "pad strain", "foot width"} <= set(names)
    assert len(after["heard_change_db"]) == len(found["speeds_m_per_s"]) > 0
    ran = squash(file, words, shipped.out)
    assert len(ran.out.splitlines()) <= 25
    assert re.search(rf"(?m)^  {base.id}: bounce [0-9.]+ Hz \(nine of ten: ", ran.out)
    flat = " ".join(ran.out.split())
    assert f"sway 0.{round(1e5 * before['sway_m']):02d} mm; heard" in flat
    assert flat.count(f"; all {len(names)} checks hold") == 2
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
