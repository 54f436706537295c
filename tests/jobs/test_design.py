"""`isolator design` and `isolator draw`: whole runs on the briefs that are shipped."""

from __future__ import annotations

import csv
import json
import math
import re
from pathlib import Path
from statistics import fmean

import pytest
from command import Ran, example, isolator, replaced, tree

G = 9.80665


@pytest.fixture(scope="session")
def result(shipped) -> dict:
    text = (shipped.folder / "result.json").read_text(encoding="utf-8")
    return json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} is no JSON"))


@pytest.fixture(scope="session")
def manifest(shipped) -> dict:
    return json.loads((shipped.folder / "manifest.json").read_text(encoding="utf-8"))


def test_the_shipped_example_comes_out_whole(shipped, manifest: dict) -> None:
    assert shipped.ran.code == 0
    assert shipped.ran.err == ""
    assert str(shipped.folder / "report.html") in shipped.ran.out
    assert [path.name for path in shipped.out.iterdir()] == ["reading-room-printer"]
    made = {name: len(held) for name, held in tree(shipped.folder).items()}
    assert all(made.values())
    parts = {
        f"parts/{each['name']}.{kind}"
        for each in manifest["parts"]
        for kind in ("step", "stl", "3mf")
    }
    plans = {file for each in manifest["pads"] for file in each.get("cut_plan", ())}
    kinds = ("dxf", "svg", "pdf")
    assert plans == {f"templates/foot-pad-sheet.{kind}" for kind in kinds}
    pads = {f"templates/{each['name']}.{kind}" for each in manifest["pads"] for kind in kinds}
    for each in manifest["plates"]:
        low, high = each["print_time_s"]
        assert 0 < low < high
    drawings = {name for each in manifest["parts"] for name in each["drawing"]}
    plates = {each["file"] for each in manifest["plates"]}
    assert set(made) == parts | pads | plans | drawings | plates | {
        "design.toml",
        "brief.toml",
        "report.html",
        "result.json",
        "assembly.step",
        "assembly.glb",
        "shopping.csv",
        "squash/protocol.txt",
        "squash/readings.toml",
        "manifest.json",
    }
    assert len(drawings) == 2 * len(manifest["parts"])
    assert plates == {
        f"beds/{name}.3mf" for name in ("first-foot-petg", "petg", "asa", "asa-0-1-mm-layers")
    }
    html = (shipped.folder / "report.html").read_text(encoding="utf-8")
    assert all(name in html for name in drawings | plates)
    assert "one whole foot to try" in html
    assert "Printing times are estimates" in html
    assert any("cup" in name for name in parts)
    assert any("pulley-spacer" in name for name in parts)


def test_the_manifest_tells_every_part(shipped, manifest: dict) -> None:
    assert manifest["made_by"] == "isolator"
    for part in manifest["parts"]:
        assert re.fullmatch(r"[0-9a-f]{64}", part["sha256"])
        assert 0 < part["volume_m3"] < math.prod(part["box_m"])
        assert part["print_mass_kg"] > 0
        assert part["quantity"] >= 1
        assert all((shipped.folder / name).is_file() for name in part["files"])
        assert 'unit="millimeter"' in _model(shipped.folder / f"parts/{part['name']}.3mf")


def _model(path: Path) -> str:
    import zipfile

    with zipfile.ZipFile(path) as archive:
        return archive.read("3D/3dmodel.model").decode("utf-8")


BAND = {"low", "nominal", "high"}


def test_the_result_has_every_key_of_the_contract(result: dict) -> None:
    assert {
        "modes",
        "feet",
        "speeds",
        "loads",
        "sway",
        "stability",
        "motors",
        "checks",
        "candidates",
        "assumed",
        "sources",
    } <= set(result)
    assert len(result["modes"]) == 6
    for mode in result["modes"]:
        assert set(mode) == {"name", "frequency_hz", "damping_ratio"}
        band = mode["frequency_hz"]
        assert set(band) == BAND
        assert 0 < band["low"] < band["nominal"] < band["high"]
    for foot in result["feet"]:
        assert set(foot) == {"position_m", "load_n", "strain", "sag_m", "stiffness_n_per_m"}
    for speed in result["speeds"]:
        assert speed["verdict"] in {"quiet", "neutral", "amplified"}
        for line in speed["lines"]:
            assert {
                "source",
                "frequency_hz",
                "direction_deg",
                "transmissibility",
                "insertion_loss_db",
                "against_now_db",
            } <= set(line)
            assert set(line["insertion_loss_db"]) == {*BAND, "promised"}
    assert {line["source"] for line in result["speeds"][0]["lines"]} == {
        "turn",
        "belt tooth",
        "electrical",
        "twice electrical",
        "full step",
        "microstep",
        "electronics fan",
        "electronics fan blades",
    }
    assert {"worst_m", "stroke_m", "speed_m_per_s", "limit_m"} <= set(result["sway"])
    assert {"tip_margin", "slip_margin", "gravity_factor"} <= set(result["stability"])
    for motor in result["motors"]:
        assert {
            "name",
            "stack_height_m",
            "pulley_spacer_height_m",
            "shaft_left_m",
            "tilt_rad",
            "pulley_shift_m",
            "twist_frequency_hz",
            "screws",
            "checks",
        } <= set(motor)
        assert set(motor["twist_frequency_hz"]) == BAND
    for check in result["checks"]:
        assert set(check) == {
            *("name", "value", "limit", "unit", "relation", "passed", "binding"),
            *("advice", "would_pass"),
        }
    tally = result["candidates"]
    assert set(tally) == {"tried", "rejected", "passed", "shut_out", "quieter_without"}
    # every candidate was either stopped by one check or let through; so many are demanded
    assert tally["tried"] == tally["passed"] + sum(tally["rejected"].values())
    assert tally["tried"] >= 50_000


def test_the_example_meets_its_brief(result: dict) -> None:
    assert result["passed"]
    assert all(check["passed"] for check in result["checks"])
    assert result["sway"]["worst_m"] <= 0.5e-3  # the brief's own limit
    weight = sum(foot["load_n"]["nominal"] for foot in result["feet"])
    # the spool half used; equilibrium is solved to 1e-9 of the weight
    assert weight == pytest.approx((11.8 + 0.6) * G, rel=1e-8)
    # moments about the middle: 11.8 kg at 11 mm, 0.6 kg at −165 mm
    turning = sum(foot["load_n"]["nominal"] * foot["position_m"][1] for foot in result["feet"])
    assert turning == pytest.approx((11.8 * 0.011 - 0.6 * 0.165) * G, abs=1e-6 * weight)


def test_bounce_is_what_the_feet_make_it(result: dict) -> None:
    _hold_bounce(result, 12.4, 0.10)


def _hold_bounce(result: dict, mass: float, drift: float) -> None:
    """Hold the bounce mode against √(Σk/m).

    Feet carry their stiffness at the bounce mode's own frequency, so nothing else enters but
    coupling with rocking: the centre of mass stands off the feet's middle by some mm.
    """
    upright = sum(foot["stiffness_n_per_m"][2] for foot in result["feet"])
    bounce = next(mode for mode in result["modes"] if mode["name"] == "bounce")
    expected = math.sqrt(upright / mass) / math.tau
    assert bounce["frequency_hz"]["nominal"] == pytest.approx(expected, rel=drift)


def test_the_report_is_one_file_that_asks_for_nothing(shipped) -> None:
    html = (shipped.folder / "report.html").read_text(encoding="utf-8")
    links = re.findall(r"""\b(?:src|href)\s*=\s*["']?([^"'\s>]*)""", html)
    assert links
    assert all(link.startswith(("data:", "#")) for link in links)
    assert "@import" not in html
    assert re.search(r"url\((?!['\"]?(?:data:|#))", html) is None
    assert "<script" not in html
    for word in ("pull the mains plug", "Speeds to avoid", "Make 4", "The price is sway"):
        assert word in html


def test_the_shopping_list_can_be_read(shipped) -> None:
    with (shipped.folder / "shopping.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert {"item", "quantity", "unit", "remark", "owned", "to buy"} == set(rows[0])
    pieces = {row["item"]: float(row["quantity"]) for row in rows if row["unit"] == "pieces"}
    # two in each of four slot feet: 4 mm of ear, 1.8 mm of profile, four fifths of 5 mm in the nut
    assert pieces["screw M5 x 10, button head, ISO 7380-1"] == 8
    assert pieces["slot nut M5 for 20 mm extrusion"] == 8
    assert {row["owned"] for row in rows if row["unit"] == "pieces"} == {"0"}


def _hashes(folder: Path) -> dict[str, str]:
    told = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    return {part["name"]: part["sha256"] for part in told["parts"]}


def test_a_sheet_drawn_again_is_the_same(tmp_path: Path, shipped) -> None:
    sheet = shipped.folder / "design.toml"
    ran = isolator("draw", sheet, "--out", tmp_path)
    again = tmp_path / "reading-room-printer"
    assert ran == (0, f"parts: {again / 'parts'}\n", "")
    assert _hashes(again) == _hashes(shipped.folder)
    assert (again / "design.toml").read_bytes() == sheet.read_bytes()
    # it is of the same sheet, and so is what was told of it
    assert (again / "report.html").read_bytes() == (shipped.folder / "report.html").read_bytes()


def test_a_sheet_drawn_again_in_place_keeps_its_report_true(tmp_path: Path, shipped) -> None:
    folder = tmp_path / "reading-room-printer"
    for name, held in tree(shipped.folder).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(held)
    assert isolator("draw", folder / "design.toml", "--out", tmp_path).code == 0
    assert (folder / "report.html").read_bytes() == (shipped.folder / "report.html").read_bytes()
    before = json.loads((folder / "result.json").read_text(encoding="utf-8"))
    shopping = (folder / "shopping.csv").read_bytes()
    _edit(folder / "design.toml", "sole", '"3.2 mm"')
    thick = float(re.search(r'(?m)^thickness = "([\d.]+) mm"', _text(folder))[1])
    _edit(folder / "design.toml", "thickness", f'"{thick * 2} mm"')
    _edit(folder / "design.toml", "label", '"MINE"')
    edited = _text(folder)
    ran = isolator("draw", folder / "design.toml", "--out", tmp_path)
    assert (ran.code, ran.err) == (0, "")
    after = json.loads((folder / "result.json").read_text(encoding="utf-8"))
    sags = [fmean(foot["sag_m"] for foot in found["feet"]) for found in (before, after)]
    assert sags[1] > 1.5 * sags[0]  # a pad twice as thick gives way by about twice as much
    pad = re.search(r'this foot is "([A-Z\d-]+ [\dX/.]+)X', ran.out)[1]
    assert pad.startswith(
        re.search(r'foot\.pad\][^[]*?\nmaterial = "([a-z\d-]+)"', edited)[1].upper()
    )
    told = [line for line in ran.out.splitlines() if line.startswith("check: ")]
    was = float(re.search(r'(?m)^sag = "([\d.]+) mm"', edited)[1])
    stop = float(re.search(r'(?m)^stop = "([\d.]+) mm"', edited)[1])
    said = dict(line.removeprefix("check: ").split(": ", 1) for line in told)
    assert said.keys() == {"foot[1].sag", "foot[1].stop", "foot[1].label"}
    assert said["foot[1].sag"] == (
        f"the sheet says {was:.3g} mm; it is {sags[1] * 1e3:.3g} mm under the printer's weight"
    )
    assert said["foot[1].stop"].startswith(f"the sheet says {stop:.3g} mm; it is ")
    assert said["foot[1].label"] == (
        f'the sheet says "MINE", and that is engraved; this foot is "{pad}X{thick * 2:g}"'
    )
    html = (folder / "report.html").read_text(encoding="utf-8")
    assert "worked out again for the sheet as it was drawn" in html
    assert (folder / "shopping.csv").read_bytes() != shopping
    # what was drawn by hand outlives the next design, and the ones after
    for _ in range(2):
        assert isolator("design", "--out", tmp_path, "--quiet") == (0, "", "")
        (copy,) = folder.glob("design.edited-*.toml")
        assert copy.read_text(encoding="utf-8") == edited
        # and the same brief gives the same feet
        for name in ("result.json", "design.toml"):
            assert (folder / name).read_bytes() == (shipped.folder / name).read_bytes()
        assert _hashes(folder) == _hashes(shipped.folder)


def _text(folder: Path) -> str:
    return (folder / "design.toml").read_text(encoding="utf-8")


def _edit(sheet: Path, key: str, value: str) -> None:
    text = replaced(sheet.read_text(encoding="utf-8"), key, value)
    sheet.write_text(text, encoding="utf-8")


def test_an_edited_sheet_is_drawn_as_edited(tmp_path: Path, shipped) -> None:
    sheet = tmp_path / "bigger.toml"
    sheet.write_bytes((shipped.folder / "design.toml").read_bytes())
    before = json.loads((shipped.folder / "manifest.json").read_text(encoding="utf-8"))
    first = float(re.search(r'(?m)^first = "([\d.]+) mm"', sheet.read_text())[1])
    _edit(sheet, "first", f'"{first + 7.5} mm"')
    assert isolator("draw", sheet, "--out", tmp_path / "out").code == 0
    folder = tmp_path / "out" / "reading-room-printer"
    after = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    old, new = ({part["name"]: part for part in told["parts"]} for told in (before, after))
    for name in ("foot-cup", "foot-sole"):
        grown = new[name]["box_m"][0] - old[name]["box_m"][0]
        assert grown == pytest.approx(7.5e-3, abs=1e-7)  # the kernel joins within 1e-7 m
    assert new["left-damper-wedge"]["sha256"] == old["left-damper-wedge"]["sha256"]


@pytest.mark.parametrize(
    ("name", "masses"),
    [
        # printer and extras at the middle of their ranges
        ("story-corner", (7.4, 0.725, 0.175)),
        ("workshop", (15.8, 13.1, 2.9, 4.7, 3.4, 1.275, 0.55)),
    ],
)
def test_every_example_designs(tmp_path: Path, name: str, masses: tuple[float, ...]) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(example(name), encoding="utf-8")
    ran: Ran = isolator("design", brief, "--out", tmp_path / "out", "--json")
    assert (ran.code, ran.err) == (0, "")
    found = ran.json()
    weight = sum(foot["load_n"]["nominal"] for foot in found["feet"])
    assert weight == pytest.approx(sum(masses) * G, rel=1e-8)  # m·g, equilibrium to 1e-9
    _hold_bounce(found, sum(masses), 0.10)
    (folder,) = (tmp_path / "out").iterdir()
    assert (folder / "report.html").stat().st_size > 100_000
    assert list((folder / "parts").glob("*.step"))
    assert json.loads((folder / "result.json").read_text(encoding="utf-8")) == found


def test_a_starter_passes_as_it_stands(tmp_path: Path) -> None:
    brief = tmp_path / "mine.toml"
    assert isolator("start", brief).code == 0
    ran = isolator("design", brief, "--out", tmp_path / "out", "--json")
    assert (ran.code, ran.err) == (0, "")
    assert ran.json()["passed"]
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["my-printer"]
