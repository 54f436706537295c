"""Facts that every builder of printers knows: what the answers have to agree with.

Common practice, no source, each of them.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from command import example, isolator, replaced

from isolator.brief import read_brief_text
from isolator.cards import load_cards
from isolator.commands.design import solve
from isolator.report.findings import Findings
from isolator.report.json.result import to_json

LIGHT = """
name = "Light printer on bumpers"
[printer]
mass = "6.2 kg"
size = ["360 mm", "380 mm", "410 mm"]
[motion]
layout = "crossed-belt"
gantry_height = "340 mm"
tool_mass = "0.3 kg"
acceleration = "2000 mm/s^2"
speeds = ["50 mm/s", "80 mm/s"]
[feet.now]
material = "{now}"
shape = "disc"
size = ["24 mm"]
thickness = "10 mm"
bonded = true
[desk]
kind = "rigid"
"""
HOLDS = LIGHT.replace("2000 mm/s^2", "600 mm/s^2") + '[limits]\nsway = "2 mm"\n'
"""So gentle that its checks hold, and no paver is tried."""
STOCK = """
[stock]
materials = ["pe-30"]
shapes = ["disc"]
widths = ["24 mm", "25 mm", "2 mm"]
thicknesses = ["10 mm"]
max_layers = 1
"""


def checked(tmp_path: Path, text: str, *words: str) -> dict:
    brief = tmp_path / "brief.toml"
    brief.write_text(text, encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out", "--json", *words)
    assert (ran.code, ran.err) == (0, "")
    return ran.json()


def electrical(found: dict) -> dict[tuple[float, float], float]:
    """Return the nominal loss [dB] of every electrical line by speed and direction."""
    return {
        (speed["speed_m_per_s"], line["direction_deg"]): line["insertion_loss_db"]["nominal"]
        for speed in found["speeds"]
        for line in speed["lines"]
        if line["source"] == "electrical"
    }


# common practice, no source: hard bumpers do next to nothing for a light printer, foam of the same
# footprint does much, and gives way more
def test_hard_bumpers_against_foam_of_the_same_footprint(tmp_path: Path) -> None:
    ways = [f"--direction={angle} deg" for angle in (0, 45, 90)]
    hard = checked(tmp_path, HOLDS.format(now="nr-70"), *ways)
    soft = checked(tmp_path, HOLDS.format(now="pe-30"), *ways)
    rubber, foam = electrical(hard), electrical(soft)
    assert set(rubber) == set(foam)
    assert len(rubber) >= 6
    # "several dB" at the very least, along the axes, on the diagonal and in the mean
    assert min(foam[key] - rubber[key] for key in foam) > 5.0
    assert soft["sway"]["worst_m"] > 1.5 * hard["sway"]["worst_m"]
    top = [max(mode["frequency_hz"]["nominal"] for mode in each["modes"]) for each in (hard, soft)]
    assert top[0] > 1.5 * top[1]


# common practice, no source: the same, told to somebody who has the bumpers and is offered the foam
def test_the_answer_tells_gain_and_price_of_foam_over_bumpers() -> None:
    found = designed(LIGHT.format(now="nr-70") + STOCK, "foam")
    assert found.design is not None
    assert found.now is not None
    pad = found.design.feet[0].pad
    assert pad.material == "pe-30"
    assert (pad.first, pad.thickness) == pytest.approx((0.024, 0.010))
    (gain,) = [line for line in found.answer if line.startswith("Heard on a hard floor")]
    assert "against the feet there now" in gain
    told = re.findall(r"(\d+) dB\(A\) quieter", gain)
    assert min(map(float, told)) > 5
    (price,) = [line for line in found.answer if line.startswith("The price is sway")]
    millimetres = float(re.search(r"sway: \D*([\d.]+) mm", price).group(1))
    # two digits are told, which is at most 5 % off
    assert millimetres == pytest.approx(1e3 * found.chosen.sway.worst, rel=0.05)
    assert found.chosen.sway.worst > 1.5 * found.now.sway.worst


def designed(text: str, pick: str = "") -> Findings:
    brief = read_brief_text(text, "brief.toml")
    return solve(brief, load_cards(), lambda what, done, total: None, pick)


# common practice, no source: a plate between motor and frame draws the shaft back by its height,
# and the pulley has to go up by as much to stay in line with its belt
@pytest.mark.parametrize("plate", [5.0, 3.5])
def test_a_plate_raises_every_pulley_by_its_height(tmp_path: Path, plate: float) -> None:
    motors = checked(tmp_path, plated(f'"{plate} mm"'))["motors"]
    spacers = {motor["name"]: motor["pulley_spacer_height_m"] for motor in motors}
    # the stand-offs of the brief, 4 and 5 mm: crossed belts run in two planes; whole layers
    assert spacers == pytest.approx(
        {"left": 4e-3 + plate / 1e3, "right": 5e-3 + plate / 1e3}, abs=1.01e-4
    )
    left = {motor["name"]: motor["shaft_left_m"] for motor in motors}
    assert left == pytest.approx(
        {"left": (20 - plate) / 1e3, "right": (19 - plate) / 1e3}, abs=1.01e-4
    )


def plated(height: str) -> str:
    """Return the shipped brief with a plain plate of this height under both motors."""
    return re.sub(r"(?m)^pull = .*$", f"spacer_plate = {height}", example("reading-room"))


# common practice, no source: set screws need some 8 mm of shaft
def test_a_shaft_that_runs_out_is_said_and_fails() -> None:
    stock = '\n[stock]\nmaterials = ["iir-50"]\nshapes = ["disc"]\n'
    # 20 mm of shaft, 4 and 9 mm of stand-off, a plate of 5 mm: 11 mm are left, and 6 mm
    text = plated('"5 mm"').replace('shaft_length = "24 mm"', 'shaft_length = "20 mm"')
    text = text.replace('pulley_standoff = "5 mm"', 'pulley_standoff = "9 mm"')
    found = to_json(designed(text + stock))
    assert not found["passed"]
    shafts = {check["name"]: check for check in found["checks"] if "shaft" in check["name"]}
    good, bad = (shafts[f"shaft under the pulley of {name}"] for name in ("left", "right"))
    assert (good["passed"], bad["passed"]) == (True, False)
    assert (good["value"], bad["value"]) == pytest.approx((11.0, 6.0))
    assert "2.6 mm thinner" in bad["advice"]
    assert any(line.startswith(f"Not met: {bad['name']}.") for line in found["answer"])
    # the feet themselves are none the worse
    assert [check["name"] for check in found["checks"] if not check["passed"]] == [bad["name"]]


# common practice, no source: with 20 teeth of 2 mm and 200 steps one 15 Hz mode is met at 3 mm/s by
# the full steps, at 12 mm/s by the electrical line, at 30 mm/s by the belt's teeth; one at 30 Hz at
# twice those speeds
@pytest.mark.parametrize("own", [15.0, 30.0])
def test_crossing_speeds_of_a_mode(tmp_path: Path, own: float) -> None:
    mass, x, y = 11.0, 0.16, 0.13
    spring = mass * (math.tau * own) ** 2 / 4
    # radii of gyration equal to the feet's distances, all in one plane: all six modes at 15 Hz
    feet = "".join(
        f'[[feet.given]]\nposition = ["{a} m", "{b} m", "0.1 m"]\n'
        f"stiffness = {[f'{spring:.9g} N/m'] * 3}\nloss_factor = 0.05\n"
        for a, b in ((-x, -y), (x, -y), (x, y), (-x, y))
    )
    inertia = [f"{mass * r:.12g} kg*m^2" for r in (y * y, x * x, x * x + y * y)]
    text = f"""
name = "One mode"
[printer]
mass = "{mass} kg"
size = ["400 mm", "420 mm", "480 mm"]
center_of_mass = ["0 mm", "0 mm", "100 mm"]
inertia = {inertia}
[frame]
kind = "rigid"
[motion]
layout = "motor-per-axis"
infill_angles = ["0 deg", "90 deg"]
belt_stiffness = "9000 N/mm"
belt_pitch = "2 mm"
pulley_teeth = 20
steps_per_turn = 200
gantry_height = "100 mm"
speeds = ["50 mm/s", "90 mm/s"]
[desk]
kind = "rigid"
[limits]
sway = "20 mm"
{feet}"""
    at_15 = {"full step": 3e-3, "twice electrical": 6e-3, "electrical": 12e-3, "belt tooth": 30e-3}
    # raised by 3 dB or more where |1 − r²| < 10^(−3/20), for so small a loss factor
    share = 10 ** (-3 / 20)
    # beside each edge, outside and inside; above a mode what a rotor's field lets go of the moving
    # masses takes up to 2 %
    beside = [
        (source, speed * own / 15.0 * edge * off, (edge < 1.0) == (off > 1.0))
        for source, speed in at_15.items()
        for edge in (math.sqrt(1 - share), math.sqrt(1 + share))
        for off in (0.97, 1.03)
    ]
    words = [f"--speed={1e3 * speed:.6f} mm/s" for _, speed, _ in beside]
    found = checked(tmp_path, text, *words)
    assert [mode["frequency_hz"]["nominal"] for mode in found["modes"]] == pytest.approx([own] * 6)
    for (source, _, inside), speed in zip(beside, found["speeds"], strict=True):
        (line,) = [each for each in speed["lines"] if each["source"] == source]
        assert (line["insertion_loss_db"]["nominal"] < -3.0) == inside, (source, speed)


# common practice, no source: doubling the speed doubles every motor line
def test_lines_go_with_the_speed(tmp_path: Path) -> None:
    text = replaced(example("reading-room"), "speeds", '["37 mm/s", "74 mm/s"]')
    slow, fast = checked(tmp_path, text)["speeds"]
    for one, two in zip(slow["lines"], fast["lines"], strict=True):
        assert (one["source"], one["direction_deg"]) == (two["source"], two["direction_deg"])
        twice = 1.0 if "fan" in one["source"] else 2.0  # fans turn at their own speed
        assert two["frequency_hz"] == pytest.approx(twice * one["frequency_hz"])


# common practice, no source: a heavy slab on foam is the other classic: at the same pressure in the
# pads it isolates as well and sways less
def test_a_heavy_slab_on_foam_sways_less(tmp_path: Path) -> None:
    bare, slab = 6.2, 14.5
    text = HOLDS.format(now="pe-30").replace('mass = "6.2 kg"\n', "")
    lump = '[[printer.lump]]\nname = "{}"\nmass = "{} kg"\nposition = {}\nsize = {}\n'
    printer = lump.format("printer", bare, ["0 mm", "0 mm", "185 mm"], ["350 mm"] * 3)
    light = checked(tmp_path, text + printer.replace("'", '"'))
    # the printer stands 40 mm higher; pads of the same foam, wider, so that each square millimetre
    # carries what it did before
    width = 24 * math.sqrt((bare + slab) / bare)
    higher = printer.replace("185 mm", "225 mm") + lump.format(
        "slab", slab, ["0 mm", "0 mm", "20 mm"], ["360 mm", "380 mm", "40 mm"]
    )
    raised = text.replace('"340 mm"', '"380 mm"').replace('"24 mm"', f'"{width:.6f} mm"')
    heavy = checked(tmp_path, raised + higher.replace("'", '"'))
    strains = [each["feet"][0]["strain"] for each in (light, heavy)]
    assert strains[1] == pytest.approx(strains[0], rel=1e-4)  # the same pressure
    assert heavy["sway"]["worst_m"] < 0.6 * light["sway"]["worst_m"]
    bounce = [
        next(mode["frequency_hz"]["nominal"] for mode in each["modes"] if mode["name"] == "bounce")
        for each in (light, heavy)
    ]
    # f = (1/2π)·√(g·E/(σ·t)) knows no mass; 2 %: the spring-pot's rise and coupling with rocking
    assert bounce[1] == pytest.approx(bounce[0], rel=0.02)
    assert min(electrical(heavy).values()) > 6.0  # every drone line still halved at least
