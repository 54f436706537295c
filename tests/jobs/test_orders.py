"""`isolator orders`: sources, resonances, hum, speeds and rattle that were put into a recording."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import Ran, example, isolator
from numpy.typing import NDArray
from scipy.io import wavfile
from swept import swept

from isolator.brief import read_brief
from isolator.commands.manifest import write_json
from isolator.measuring.moves import Bed, Point, plan_moves
from isolator.measuring.tones import belts_of
from isolator.recordings.schedule import Schedule, Step
from isolator.report.json.schedule import schedule_json

RATE = 4000
SPEEDS = (0.03, 0.04, 0.05, 0.06, 0.07, 0.08)
RESONANCE, DAMPING, HUM = 211.0, 0.03, 50.0
ODD = 3700.0
"""Cycles a metre of something that is none of the motors' lines."""
Array = NDArray[np.float64]


@pytest.fixture(scope="module")
def brief(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("orders") / "brief.toml"
    path.write_text(example("reading-room"), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def schedule() -> Schedule:
    bed = Bed(size=(0.22, 0.22), zero=Point(0.0, 0.0), margin=0.02)
    return plan_moves(bed, 2.5, SPEEDS, (0.0, 30.0), 2.0).schedule


def test_the_line_of_a_belts_teeth_is_found_and_named(brief: Path, tmp_path: Path) -> None:
    """Teeth of 2.00 mm: the line is the belt's speed over 2 mm."""
    bed = Bed(size=(0.22, 0.22), zero=Point(0.0, 0.0), margin=0.02)
    speeds = (0.03, 0.06, 0.08, 0.1, 0.12)
    planned = plan_moves(bed, 2.5, speeds, (45.0, 90.0), 2.0).schedule

    def tones(step: Step) -> list[tuple[float, float]]:
        # crossed belts: along 45° one runs √2 times as fast as the tool
        belt = step.speed * {45.0: 2.0**0.5, 90.0: 1.0}[step.direction_deg]
        return [(belt / 2e-3, 4e-3)]

    samples = swept(planned, 1000, tones, room=1e-3)
    wavfile.write(tmp_path / "map.wav", 1000, (3e4 * samples).astype(np.int16))
    write_json(tmp_path / "schedule.json", schedule_json(planned))
    ran = run(tmp_path, brief, "--json")
    assert (ran.code, ran.err) == (0, "")
    # at 30 mm/s along 90° it lies below what is heard; along 45° it is too near to that
    (line,) = ran.json()["orders"]["sources"]
    assert (line["source"], line["steps"]) == ("belt tooth", 8)
    assert 1.0 / line["cycles_per_m"] == pytest.approx(2e-3, rel=1e-9)
    assert line["part"] == "belt teeth that meet pulleys and idlers"
    # named beside both fields, though it comes up from below them
    drawn = (tmp_path / "o" / "reading-room-printer-orders" / "order-map.svg").read_text("utf-8")
    assert drawn.count(">belt tooth</text>") == 2


def record(folder: Path, brief: Path, schedule: Schedule, rattle: bool) -> None:
    """Write a recording: 400 steps a turn of 40 mm make 2500, 5000 and 10 000 cycles a metre."""
    motion = read_brief(brief).motion

    def tones(step: Step) -> list[tuple[float, float]]:
        out = []
        for factor in belts_of(motion, step.direction_deg):
            for order, amount in ((2500.0, 4e-3), (5000.0, 3e-3), (10_000.0, 4e-3), (ODD, 2e-3)):
                line = order * step.speed * factor
                share = line / RESONANCE
                grown = 1.0 / abs(1.0 - share**2 + 2j * DAMPING * share)
                out.append((line, amount * (0.3 + grown)))
        return out

    def more(time: Array) -> Array:
        out = 4e-3 * np.sin(2.0 * np.pi * HUM * time)
        random = np.random.default_rng(6)
        for step in schedule.steps if rattle else ():
            if step.speed > 0.045:
                continue
            # once a belt tooth of 2 mm
            apart = 2e-3 / step.speed / belts_of(motion, step.direction_deg)[0]
            for start in np.arange(step.start, step.end, apart):
                at = int(np.searchsorted(time, start))
                burst = 0.06 * np.exp(-np.arange(40) / 6.0) * random.standard_normal(40)
                out[at : at + 40] += burst
        return out

    samples = swept(schedule, RATE, tones, room=2e-3, extra=more, clock=0.98)
    wavfile.write(folder / "map.wav", RATE, (3e4 * samples).astype(np.int16))
    write_json(folder / "schedule.json", schedule_json(schedule))


def run(folder: Path, brief: Path, *words: object) -> Ran:
    moves = ("--schedule", folder / "schedule.json", "--brief", brief, "--out", folder / "o")
    return isolator("orders", folder / "map.wav", *moves, *words)


@pytest.fixture(scope="module")
def ran(brief: Path, schedule: Schedule) -> Ran:
    record(brief.parent, brief, schedule, rattle=True)
    found = run(brief.parent, brief, "--rail", "7.94 mm", "--json")
    assert (found.code, found.err) == (0, "")
    return found


def test_what_follows_the_speed_is_named_and_what_stands_still_is_not(ran: Ran) -> None:
    told = ran.json()["orders"]
    assert told["clock_ratio"] == pytest.approx(0.98, rel=0.002)
    found = {each["source"]: each["cycles_per_m"] for each in told["sources"]}
    assert found == pytest.approx(
        {"electrical": 2500.0, "twice electrical": 5000.0, "full step": 10_000.0, "": ODD},
        rel=0.01,
    )
    assert told["sources"][0]["source"] == "electrical"
    assert told["sources"][0]["part"] == "a motor whose coil currents have an offset"
    assert [each["frequency_hz"] for each in told["resonances"]] == [
        pytest.approx(RESONANCE, rel=0.03)
    ]
    assert told["steady_hz"] == [pytest.approx(HUM, abs=0.2)]


def test_speeds_at_which_a_line_meets_the_resonance_are_to_avoid(ran: Ran) -> None:
    told = ran.json()["orders"]
    # along x 5000 cycles a metre meet 211 Hz at 42 mm/s, 2500 at 84 mm/s, 3700 at 57 mm/s; along
    # 30° the fast belt has its own
    ranges = [(each["low_m_per_s"], each["high_m_per_s"]) for each in told["avoid"]]
    assert any(low <= 0.04 <= high for low, high in ranges)
    assert not any(low <= 0.07 <= high for low, high in ranges)
    first = next(each for each in told["avoid"] if each["low_m_per_s"] <= 0.04)
    assert first["directions_deg"] == [0.0]
    # told and drawn where it was measured alone
    line = next(line for line in told["told"] if line.startswith("avoid 35 to 45 mm/s"))
    assert line.startswith("avoid 35 to 45 mm/s, along 0°: ")
    # crossed belts: along x both motors turn at one speed
    assert line.endswith("; not sure, two motors at one speed add up or cancel there")


def test_rattle_comes_back_with_the_belts_teeth(ran: Ran) -> None:
    told = ran.json()["orders"]
    assert {each["source"] for each in told["rattle"]} == {"belt tooth"}
    assert {each["speed_m_per_s"] for each in told["rattle"]} == {0.03, 0.04}
    first = told["rattle"][0]
    assert (first["speed_m_per_s"], first["direction_deg"]) == (0.03, 0.0)
    assert first["rate_hz"] == pytest.approx(15.0)
    assert told["play"]["clearance_m"] == pytest.approx([51e-6, 60e-6])
    assert told["told"][-2:] == [
        "rattles at 30 and 40 mm/s: bursts that come back with every belt tooth; feet do nothing "
        "for it",
        "a rail of 7.94 mm in usual bearings for 8 mm leaves 51 to 60 µm; rails of the usual fits "
        "leave h6 −9 to 9 µm, h7 −9 to 15 µm and g6 −4 to 14 µm: more than the 29 µm of a sliding "
        "fit; that is likely what rattles; change the rail",
    ]


def test_without_bursts_there_is_no_rattle(brief: Path, schedule: Schedule, ran: Ran) -> None:
    folder = brief.parent / "calm"
    folder.mkdir()
    record(folder, brief, schedule, rattle=False)
    told = run(folder, brief, "--rail", "7.996 mm", "--json").json()["orders"]
    assert told["rattle"] == []
    assert told["rattle_heard"]
    assert told["told"][-1] == (
        "a rail of 7.996 mm in usual bearings for 8 mm leaves −5 to 4 µm; rails of the usual fits "
        "leave h6 −9 to 9 µm, h7 −9 to 15 µm and g6 −4 to 14 µm"
    )
    for words, last in (
        (
            ("--rail", "6.35 mm"),
            "no play is told: measure the bore of the bearing for a rail of 6.35 mm (--bore)",
        ),
        (
            ("--rail", "8.02 mm", "--bore", "8.03 mm"),
            "a rail of 8.02 mm in a bore of 8.03 mm leaves 10 µm; rails of the usual fits leave "
            "h6 30 to 39 µm, h7 30 to 45 µm and g6 35 to 44 µm",
        ),
        (
            ("--rail", "8.02 mm", "--bore", "8 mm"),
            "a rail of 8.02 mm in a bore of 8 mm leaves −20 µm; rails of the usual fits leave "
            "h6 0 to 9 µm, h7 0 to 15 µm and g6 5 to 14 µm: such a rail cannot go in; measure both "
            "again",
        ),
    ):
        assert run(folder, brief, *words, "--json").json()["orders"]["told"][-1] == last
    low = run(folder, brief, "--rate", "1500", "--json")
    assert low.code == 2  # the moves then take much longer than the schedule says
    assert "found moves that" in low.err or "found nothing" in low.err


def test_the_picture_names_its_axes_and_ridges(brief: Path, ran: Ran) -> None:
    folder = brief.parent / "o" / "reading-room-printer-orders"
    assert {each.name for each in folder.iterdir()} == {
        "manifest.json",
        "order-map.svg",
        "orders.txt",
        "result.json",
    }
    drawn = (folder / "order-map.svg").read_text(encoding="utf-8")
    for words in (
        "50 Hz",
        "frequency [Hz]",
        "speed of the tool [mm/s]",
        "along 30°",
        "full step",
        "every 0.27 mm",
        "the room",
    ):
        assert words in drawn
