"""`isolator check`: given feet, designed feet and the feet there now, against closed forms."""

from __future__ import annotations

import json
import math
import shutil
from pathlib import Path

import numpy as np
import pytest
from command import example, isolator, quick_room, replaced, without

G = 9.80665

BOX = """
name = "Box on four springs"
[printer]
mass = "12 kg"
size = ["400 mm", "420 mm", "480 mm"]
center_of_mass = ["0 mm", "0 mm", "100 mm"]
inertia = ["0.1452 kg*m^2", "0.2028 kg*m^2", "0.2352 kg*m^2"]
[frame]
kind = "rigid"
[motion]
layout = "crossed-belt"
speeds = ["50 mm/s", "90 mm/s"]
[desk]
kind = "rigid"
[limits]
sway = "20 mm"
"""
"""12 kg; radii of gyration 0.11, 0.13 and 0.14 m; centre of mass 0.1 m above the frame's foot."""

PLACES = ((-0.15, -0.12), (0.15, -0.12), (0.15, 0.12), (-0.15, 0.12))
STIFFNESS = (2000.0, 2000.0, 5000.0)


def box(height: float, loss: float = 0.2, more: str = "") -> str:
    """Return the box on four equal springs whose elastic centres stand at `height` [m]."""
    feet = "".join(
        f'[[feet.given]]\nposition = ["{x} m", "{y} m", "{height} m"]\n'
        f"stiffness = {[f'{k} N/m' for k in STIFFNESS]}\nloss_factor = {loss}\n"
        for x, y in PLACES
    )
    return BOX + feet + more


def checked(tmp_path: Path, text: str, *words: str) -> dict:
    brief = tmp_path / "brief.toml"
    brief.write_text(text, encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out", "--json", *words)
    assert (ran.code, ran.err) == (0, "")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["brief.toml"]  # nothing is drawn
    return ran.json()


def frequencies(found: dict) -> dict[str, float]:
    return {mode["name"]: mode["frequency_hz"]["nominal"] for mode in found["modes"]}


def coupled(slide: float, lever: float, rock: float, mass: float, inertia: float) -> list[float]:
    """Natural frequencies [Hz] of sway coupled with rocking, the roots of the quadratic."""
    a, b = slide / mass, rock / inertia
    c = lever**2 / (mass * inertia)
    half = math.sqrt((a - b) ** 2 / 4 + c)
    return [math.sqrt((a + b) / 2 + sign * half) / math.tau for sign in (-1, 1)]


def test_the_symmetric_box_with_gravity(tmp_path: Path) -> None:
    # Symmetric body on four supports, Himelblau and Rubin in Harris' Shock and Vibration Handbook
    # ch. 3 (closed forms from memory), less m·g·h of rocking stiffness [derived]
    found = checked(tmp_path, box(0.0))
    rocking_x = 4 * (5000 * 0.12**2 + 2000 * 0.1**2) - 12 * G * 0.1
    rocking_y = 4 * (5000 * 0.15**2 + 2000 * 0.1**2) - 12 * G * 0.1
    sway_y, rock_x = coupled(8000, 8000 * 0.1, rocking_x, 12, 12 * 0.11**2)
    sway_x, rock_y = coupled(8000, 8000 * 0.1, rocking_y, 12, 12 * 0.13**2)
    expected = {
        "bounce": math.sqrt(20000 / 12) / math.tau,
        "twist": math.sqrt(8000 * (0.15**2 + 0.12**2) / (12 * 0.14**2)) / math.tau,
        "sway x": sway_x,
        "sway y": sway_y,
        "rocking x": rock_x,
        "rocking y": rock_y,
    }
    assert expected["bounce"] == pytest.approx(6.497473, rel=1e-6)  # the published rows,
    assert expected["twist"] == pytest.approx(5.638449, rel=1e-6)  # to their last digit
    assert frequencies(found) == pytest.approx(expected, rel=1e-9)  # two ways of rounding
    names = [mode["name"] for mode in found["modes"]]
    assert names == sorted(names, key=frequencies(found).__getitem__)
    # rocking stiffness over what it would be without gravity, sway free: the worse axis
    left = (rocking_x - (800**2) / 8000) / (rocking_x - (800**2) / 8000 + 12 * G * 0.1)
    assert found["stability"]["gravity_factor"] == pytest.approx(left, rel=1e-9)


def test_unequal_feet_agree_with_a_matrix_of_its_own(tmp_path: Path) -> None:
    feet = (
        ((-0.16, -0.11, -0.02), (1900, 2300, 5200)),
        ((0.14, -0.13, -0.01), (2100, 1700, 4700)),
        ((0.15, 0.12, 0.0), (2600, 2000, 6100)),
        ((-0.13, 0.14, -0.03), (1500, 2200, 4400)),
    )
    text = BOX + "".join(
        f"[[feet.given]]\nposition = {[f'{p} m' for p in place]}\n"
        f"stiffness = {[f'{k} N/m' for k in spring]}\n"
        for place, spring in feet
    )
    com = np.array([0.0, 0.0, 0.1])
    stiffness, loads = np.zeros((6, 6)), _shares(feet, 12 * G)
    for (place, spring), load in zip(feet, loads, strict=True):
        x, y, z = np.array(place) - com
        motion = np.hstack([np.eye(3), [[0, z, -y], [-z, 0, x], [y, -x, 0]]])
        stiffness += motion.T @ np.diag(spring) @ motion
        # a vertical force fixed to the body: P·z on both rocking terms [derived]
        stiffness[3, 3] += load * z
        stiffness[4, 4] += load * z
    mass = np.diag([12, 12, 12, 0.1452, 0.2028, 0.2352])
    values = np.sort(np.linalg.eigvals(np.linalg.inv(mass) @ stiffness).real)
    found = checked(tmp_path, text)
    told = [mode["frequency_hz"]["nominal"] for mode in found["modes"]]
    # the weight balances about the centre of mass, so nothing couples twist with rocking
    assert told == pytest.approx(np.sqrt(values) / math.tau, rel=1e-7)  # the solver's tolerance
    carried = [foot["load_n"]["nominal"] for foot in found["feet"]]
    assert carried == pytest.approx(loads, rel=1e-7)  # the same


def _shares(feet: tuple, weight: float) -> list[float]:
    """Loads of linear springs under a rigid plate, by its three equations of equilibrium."""
    rows = [(1.0, place[0], place[1], spring[2]) for place, spring in feet]
    matrix, right = np.zeros((3, 3)), np.array([weight, 0.0, 0.0])
    for one, x, y, k in rows:
        basis = np.array([one, x, y])
        matrix += k * np.outer(basis, basis)
    settle = np.linalg.solve(matrix, right)
    return [k * float(np.dot((one, x, y), settle)) for one, x, y, k in rows]


# Transmissibility with a constant loss factor, √((1 + η²)/((1 − r²)² + η²)); J. C. Snowdon, NBS
# Handbook 128 (1979), from memory; rows computed apart from this project
RATIOS = (0.5, 0.9, 1.0, math.sqrt(2.0), 1.5, 2.0, 3.0, 5.0, 10.0)
HYSTERETIC = {
    0.1: (1.328229, 4.680694, 10.049876, 1, 0.801430, 0.334810, 0.125614, 0.041874, 0.010151),
    0.2: (1.313827, 3.696786, 5.099020, 1, 0.805597, 0.339182, 0.127436, 0.042490, 0.010301),
    0.4: (1.267098, 2.432149, 2.692582, 1, 0.820634, 0.355862, 0.134461, 0.044870, 0.010879),
}


@pytest.mark.parametrize("loss", HYSTERETIC)
def test_a_push_through_the_centre_is_the_textbook_curve(tmp_path: Path, loss: float) -> None:
    # elastic centres level with the centre of mass: every mode by itself, gravity without a lever
    push = '[[load]]\nname = "{0}"\nforce = {1}\nposition = ["0 mm", "0 mm", "100 mm"]\n'
    down = push.format("down", ["0 N", "0 N", "1.7 N"])
    aside = push.format("aside", ["0.6 N", "0 N", "0 N"])
    text = box(0.1, loss, down + aside)
    bounce, sway = math.sqrt(20000 / 12) / math.tau, math.sqrt(8000 / 12) / math.tau
    words = [f"--frequency={own * ratio:.12f} Hz" for own in (bounce, sway) for ratio in RATIOS]
    found = checked(tmp_path, text, *words)
    upright, sideways = found["loads"]
    assert (upright["name"], sideways["name"]) == ("down", "aside")
    for points, axis, force, off in (
        (upright["frequencies"][: len(RATIOS)], 2, 1.7, 0.0),
        # sideways what hangs on the belts gives a little: (f/f_belt)² of its share of the mass
        (sideways["frequencies"][len(RATIOS) :], 0, 0.6, 9e-3),
    ):
        told = [point["transmissibility"] for point in points]
        assert told == pytest.approx(HYSTERETIC[loss], abs=1e-6, rel=off)  # the rows' last digit
        sums = [point["transmitted_n"] for point in points]
        assert [each[axis] for each in sums] == pytest.approx(
            [force * row for row in HYSTERETIC[loss]],
            abs=2e-6,  # the same, times the force
            rel=off,
        )
        across = [each[other] for each in sums for other in range(3) if other != axis]
        assert max(across) < 1e-12 * force * 11  # nothing couples


def test_speeds_and_frequencies_are_the_ones_asked_for(tmp_path: Path) -> None:
    load = '[[load]]\nname = "hum"\nforce = ["0 N", "0 N", "1 N"]\n'
    found = checked(
        tmp_path,
        box(0.0, more=load),
        "--speed",
        "60 mm/s",
        "--speed",
        "4 in/s",
        "--frequency",
        "25 Hz",
        "--frequency",
        "1500 rpm",
        "--direction=0 deg",
        "--direction=45 deg",
    )
    assert [each["speed_m_per_s"] for each in found["speeds"]] == pytest.approx([0.06, 0.1016])
    asked = [point["frequency_hz"] for point in found["loads"][0]["frequencies"]]
    assert asked == pytest.approx([25.0, 25.0])
    # 20 teeth of 2 mm, 200 full steps a turn: 60 mm/s is 1.5 turns a second
    lines = {
        line["source"]: line["frequency_hz"]
        for line in found["speeds"][0]["lines"]
        if line["direction_deg"] == 0.0
    }
    assert lines == pytest.approx(
        {
            "turn": 1.5,
            "belt tooth": 30,
            "electrical": 75,
            "twice electrical": 150,
            "full step": 300,
            "microstep": 4800,
        }
    )
    # on a diagonal one of two crossed belts runs at √2 of the speed, the other stands
    diagonal = [
        line["frequency_hz"]
        for line in found["speeds"][0]["lines"]
        if line["direction_deg"] == 45.0 and line["source"] == "electrical"
    ]
    assert diagonal == pytest.approx([75 * math.sqrt(2)])


def test_the_brief_asks_where_the_command_does_not(tmp_path: Path) -> None:
    found = checked(tmp_path, box(0.0))
    assert [each["speed_m_per_s"] for each in found["speeds"]] == [0.05, 0.09]
    assert found["loads"] == []
    assert found["candidates"] == {
        "tried": 0,
        "rejected": {},
        "passed": 0,
        "shut_out": {},
        "quieter_without": {},
    }
    assert not any("against_now_db" in line for each in found["speeds"] for line in each["lines"])
    assert "now" not in found


def test_feet_there_now_are_what_given_feet_are_held_against(tmp_path: Path) -> None:
    now = '[feet.now]\nmaterial = "nr-70"\nshape = "disc"\nsize = ["19 mm"]\nthickness = "8 mm"\n'
    found = checked(tmp_path, box(0.0, more=now))
    lines = [line for each in found["speeds"] for line in each["lines"]]
    gain = [each["against_now_db"] for each in lines if each["source"] == "full step"]
    assert min(band["low"] for band in gain) > 6.0  # springs far below the line beat hard rubber
    assert all(band["low"] <= band["nominal"] <= band["high"] for band in gain)
    assert frequencies(found["now"])["bounce"] > 5 * frequencies(found)["bounce"]


def test_only_feet_there_now_are_checked_themselves(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(example("reading-room"), encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out", "--json")
    found = ran.json()
    assert ran.code == 0  # the check is done, whatever it finds
    assert "now" not in found
    assert not any("against_now_db" in line for each in found["speeds"] for line in each["lines"])
    load = sum(foot["load_n"]["nominal"] for foot in found["feet"])
    assert load == pytest.approx((11.8 + 0.6) * G, rel=1e-9)  # spool half used
    assert all(0.0 < foot["strain"] < 0.15 for foot in found["feet"])


def test_feet_there_now_are_compared_with_nothing(tmp_path: Path) -> None:
    now = '[feet]\n[feet.now]\nmaterial = "nr-70"\nsize = ["19 mm"]\nthickness = "8 mm"\n'
    brief = tmp_path / "brief.toml"
    brief.write_text(BOX + now, encoding="utf-8")
    words = ("check", brief, "--out", tmp_path / "out")
    told = isolator(*words).out.splitlines()
    head = next(at for at, line in enumerate(told) if line.startswith("Box"))
    assert (
        told[head] == "Box on four springs: these are the feet there now: nothing to compare with."
    )
    told = told[head:]
    assert [line.split()[0] for line in told if line.startswith("  ") and line[2] != " "] == [
        "CHECKS",
        "NOTES",
        "GUESSED",
    ]
    assert sum("full step" in line for line in told) == 2  # every tone, at both speeds
    assert not [line for line in told if "avoid" in line or "louder" in line or "quieter" in line]
    found = isolator(*words, "--json").json()
    assert found["answer"][0] == "These are the feet there now: nothing to compare with."
    assert [found[key] for key in ("baseline", "works_from_m_per_s", "avoid", "heard_over")] == [
        None,
        None,
        [],
        None,
    ]
    names = [each["name"] for each in found["checks"] if " of " not in each["name"]]
    assert names[:8] == [
        "every foot carries",
        "standing upright",
        "tipping",
        "sliding",
        "sway",
        "modes below the motors",
        "level",
        "thread in motor left",
    ]
    assert [(each["verdict"], each["heard_change_db"]) for each in found["speeds"]] == [
        ("neutral", None),
        ("neutral", None),
    ]
    assert all(each["reason"].endswith("Hz is heard most") for each in found["speeds"])
    assert "remedy" not in found


def test_designed_feet_are_found_where_they_were_put(tmp_path: Path, shipped) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(example("reading-room"), encoding="utf-8")
    ran = isolator("check", brief, "--out", shipped.out, "--json")
    assert (ran.code, ran.err) == (0, "")
    found, designed = ran.json(), shipped.folder / "result.json"
    told = json.loads(designed.read_text(encoding="utf-8"))
    for key in ("modes", "feet", "speeds", "sway", "stability", "creep"):
        assert found[key] == told[key], key  # one evaluation, whoever asks for it


def test_designed_feet_are_found_where_the_brief_says(tmp_path: Path, shipped) -> None:
    (tmp_path / "mine.toml").write_bytes((shipped.folder / "design.toml").read_bytes())
    brief = tmp_path / "brief.toml"
    text = without(example("reading-room"), "[feet]")
    brief.write_text(text + '[feet]\ndesign = "mine.toml"\n', encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "nowhere", "--speed", "60 mm/s", "--json")
    assert (ran.code, ran.err) == (0, "")
    places = {tuple(foot["position_m"][:2]) for foot in ran.json()["feet"]}
    assert places == {(-0.182, -0.191), (0.182, -0.191), (0.182, 0.187), (-0.182, 0.187)}


def refused(tmp_path: Path, text: str) -> list[str]:
    brief = tmp_path / "brief.toml"
    brief.write_text(text, encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out")
    assert (ran.code, ran.out) == (2, "")
    return [line.removeprefix(f"{brief}: ") for line in ran.err.splitlines()]


def test_no_feet_at_all(tmp_path: Path) -> None:
    assert refused(tmp_path, without(example("reading-room"), "[feet.now]")) == [
        "feet: found no feet to check; wanted [[feet.given]], feet.design, or [feet.now]; add one "
        "of them, run `isolator design` on this brief first, or, if it was designed into another "
        "folder, name that with --out"
    ]


def test_a_design_that_is_not_there(tmp_path: Path) -> None:
    text = without(example("reading-room"), "[feet]") + '[feet]\ndesign = "mine.toml"\n'
    assert refused(tmp_path, text) == [
        'feet.design: found "mine.toml"; wanted a file that is there; write it relative to the '
        "brief's own folder"
    ]


def test_a_card_that_nobody_has(tmp_path: Path) -> None:
    assert refused(tmp_path, replaced(example("reading-room"), "material", '"nr-71"')) == [
        'feet.now.material: found "nr-71"; wanted the id of a material card; did you mean nr-70, '
        "nr-60, nr-50?"
    ]


def test_feet_too_soft_to_stand_on(tmp_path: Path) -> None:
    soft = box(0.0).replace("5000.0 N/m", "80 N/m").replace("2000.0 N/m", "300 N/m")
    lines = refused(tmp_path, soft)
    assert lines == [
        "feet: found given feet that do not hold the printer; wanted feet that carry it upright; "
        "the printer tips over on them; set the feet further apart or take stiffer ones"
    ]


def test_the_feet_of_another_brief_are_not_judged(tmp_path: Path, shipped) -> None:
    shutil.copytree(shipped.out, tmp_path / "out")
    brief = tmp_path / "brief.toml"
    # the same name, another printer
    brief.write_text(replaced(example("reading-room"), "mass", '"7.7 kg"'), encoding="utf-8")
    text = without(brief.read_text(encoding="utf-8"), "[feet.now]")
    brief.write_text(text, encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out")
    assert ran == (
        2,
        "",
        f"{brief}: feet: found no feet to check; wanted [[feet.given]], feet.design, or "
        "[feet.now]; add one of them, run `isolator design` on this brief first, or, if it was "
        "designed into another folder, name that with --out\n",
    )


def test_a_design_says_that_it_takes_no_feet_from_a_file(tmp_path: Path, shipped) -> None:
    sheet = shipped.folder / "design.toml"
    brief = tmp_path / "brief.toml"
    text = without(quick_room(), "[feet]")
    brief.write_text(f'{text}\n[feet]\ndesign = "{sheet}"\n', encoding="utf-8")
    ran = isolator("design", brief, "--out", tmp_path / "out", "--json")
    assert (ran.code, ran.err) == (0, "")
    assert ran.json()["warnings"][0] == (
        f"feet.design is not used here: these feet are new. The feet of {sheet} are judged by "
        "`isolator check` and drawn by `isolator draw`"
    )
