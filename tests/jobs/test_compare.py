"""`isolator compare`: recordings made from the model itself, from files to picture and JSON."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from command import Ran, example, isolator, tree
from numpy.typing import NDArray
from scipy.io import wavfile
from swept import automatic, swept

from isolator.brief import read_brief
from isolator.commands.known_cards import known_cards
from isolator.commands.manifest import write_json
from isolator.measuring.moves import Bed, Point, plan_moves
from isolator.physics.drive.stepper import LINES, belt_factors
from isolator.recordings.schedule import Schedule, Step
from isolator.report.json.schedule import schedule_json
from isolator.vibration.desk import stood_on
from isolator.vibration.excitation import motor_lines, ripples
from isolator.vibration.installation import build_installation
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.sampled import sampled
from isolator.vibration.spectrum import way_out
from isolator.vibration.spreads import draw
from isolator.vibration.stand import Stand, given_stand

RATE = 1000.0
GIVEN = "".join(
    f'\n[[feet.given]]\nposition = ["{x} mm", "{y} mm", "-9 mm"]\n'
    'stiffness = ["15100 N/m", "14900 N/m", "61000 N/m"]\nloss_factor = 0.17\n'
    for x, y in ((-182, -191), (182, -190), (181, 187), (-182, 186))
)
Tones = Callable[[Step], list[tuple[float, float]]]


@pytest.fixture(scope="module")
def schedule() -> Schedule:
    bed = Bed(size=(0.22, 0.22), zero=Point(0.0, 0.0), margin=0.015)
    return plan_moves(bed, 2.5, (0.03, 0.045, 0.07), (0.0, 45.0), 3.0).schedule


@pytest.fixture(scope="module")
def brief(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("compare") / "brief.toml"
    lines = example("reading-room").splitlines()
    kept = [line for line in lines if not line.startswith("positions = ")]
    path.write_text("\n".join(kept) + GIVEN, encoding="utf-8")
    return path


def model_tones(brief: Path, schedule: Schedule, which: str) -> Tones:
    """Return the desk's acceleration at every line in a step, by the model, up to one factor."""
    read = read_brief(brief)
    cards = known_cards(read)
    installation = build_installation(read, cards)
    now, given = build_now_stand(read, cards), given_stand(read.feet.given)
    stand: Stand | None = now if which == "now" else given
    assert stand is not None
    excitation = installation.excitation
    samples = draw(installation.printer.extras, 2)
    desk = stood_on(read.desk)
    stood = sampled(stand, installation.printer, excitation, samples, "feet")

    def lines(step: Step) -> list[tuple[float, str, int]]:
        factors = belt_factors(read.motion.layout, math.radians(step.direction_deg))
        each = [
            (motor_lines(read.motion, step.speed)[source] * factors[belt], source, motor)
            for source in LINES
            for motor, (belt, _) in enumerate(excitation.belts)
        ]
        return [(line, source, motor) for line, source, motor in each if 12.0 < line < 390.0]

    grid = np.unique([line for step in schedule.steps for line, _, _ in lines(step)])
    power = way_out(stood, desk, grid)[0]

    def tones(step: Step) -> list[tuple[float, float]]:
        energies: dict[float, float] = {}
        for line, source, motor in lines(step):
            own = (
                power[int(np.searchsorted(grid, line)), motor]
                * ripples(excitation, source)[motor] ** 2
            )
            # motors at one pitch are added as the model adds them, without their phases
            energies[line] = energies.get(line, 0.0) + own * line
        return [(line, 3.0 * math.sqrt(energy)) for line, energy in energies.items()]

    return tones


@pytest.fixture(scope="module")
def files(brief: Path, schedule: Schedule) -> Path:
    """Return a folder with both recordings: the second in another order, unit and clock, with a
    gap."""
    folder = brief.parent
    write_json(folder / "schedule.json", schedule_json(schedule))
    for name, which, clock in (("before", "now", 1.0), ("after", "feet", 1.04)):
        tones = model_tones(brief, schedule, which)
        along = [
            swept(
                schedule,
                RATE,
                lambda s, c=share, t=tones: [(f, c * a) for f, a in t(s)],
                room=2e-5,
                clock=clock,
                seed=seed,
            )
            for share, seed in ((0.5, 11), (0.4, 12), (0.77, 13))
        ]
        time = np.arange(len(along[0])) / RATE
        _write(folder / f"{name}.csv", time, along, foreign=name == "after")
    whole = (folder / "before.csv").read_text(encoding="utf-8").splitlines()
    # the same feet again: no change
    (folder / "again.csv").write_text("\n".join([whole[0], *whole[3:]]), encoding="utf-8")
    return folder


def _write(path: Path, time: NDArray[np.float64], along: list, foreign: bool) -> None:
    columns, head, form = [time, *along], "t [s],x [m/s^2],y [m/s^2],z [m/s^2]", "%.9g"
    if foreign:
        kept = (time < 21.0) | (time > 21.8)
        columns = [1e3 * time, *(each / 9.80665 for each in along[::-1])]
        columns = [each[kept] for each in columns]
        head = "t [ms],z [g],y [g],x [g]"
    np.savetxt(path, np.column_stack(columns), form, ",", header=head, comments="")


@pytest.fixture(scope="module")
def ran(files: Path, brief: Path) -> Ran:
    words = ("compare", files / "before.csv", files / "after.csv", "--brief", brief)
    ran = isolator(*words, "--schedule", files / "schedule.json", "--out", files / "o", "--json")
    assert (ran.code, ran.err) == (0, "")
    return ran


def test_the_models_change_is_recovered(ran: Ran) -> None:
    told = ran.json()["compare"]
    assert told["clock_ratio"] == pytest.approx(1.04, rel=0.002)
    assert told["unit"] == "dB"
    assert [(step["speed_m_per_s"], step["direction_deg"]) for step in told["steps"]] == [
        (speed, angle) for angle in (0.0, 45.0) for speed in (0.03, 0.045, 0.07)
    ]
    for step in told["steps"]:
        measured, model = step["change_db"], step["predicted_db"]
        assert measured["nominal"] == pytest.approx(model["nominal"], abs=1.0)
        assert measured["low"] < measured["nominal"] < measured["high"]
        assert model["low"] < model["nominal"] < model["high"]
        assert step["by_lines"]
        assert step["beats"] is (step["direction_deg"] == 0.0)
        wide = measured["high"] - measured["low"]
        assert wide > 30.0 if step["beats"] else wide < 2.0
        assert step["rms"]["after"] == pytest.approx(
            step["rms"]["before"] * 10.0 ** (measured["nominal"] / 20.0)
        )
        tones = {tone["source"]: tone for tone in step["tones"]}
        assert "electrical" in tones
        assert tones.keys() <= set(LINES)
    # along 45° one belt alone runs, √2 times as fast: its lines lie there
    along = next(tone for tone in told["steps"][4]["tones"] if tone["source"] == "electrical")
    assert along["frequency_hz"] == pytest.approx(45.0 / 40.0 * 100.0 * math.sqrt(2.0))
    assert {"centre_hz", "change_db", "near_room"} == told["bands"][0].keys()


def test_what_is_told_and_drawn(ran: Ran, files: Path) -> None:
    folder = files / "o" / "reading-room-printer-compare"
    assert {path.name for path in folder.iterdir()} == {
        "changes.svg",
        "changes.txt",
        "manifest.json",
        "result.json",
    }
    lines = (folder / "changes.txt").read_text(encoding="utf-8").splitlines()
    assert lines[0].endswith(
        " over all steps, by the lines that stand out of the room; shaking of the desk, "
        "10 to 400 Hz"
    )
    assert lines[3] == (
        "predicted (feet alone) and measured bands meet in 3 of 3 steps that are sure and stand "
        "clear of the room; those predicted are some 17 dB wide"
    )
    assert lines[4].startswith("quieter in the third octaves at ")
    # crossed belts: along x both motors turn at one speed, and no step of these is best or worst
    assert lines[1].startswith("best at 70 mm/s along 45°: ")
    assert lines[2].startswith("worst at 30 mm/s along 45°: ")
    assert lines[6] == (
        "change in dB, ± nine of ten; in brackets predicted, feet alone; ? two motors at one speed"
    )
    assert lines[7].split() == ["mm/s", "0°", "45°"]
    assert [line.split()[0] for line in lines[8:11]] == ["30", "45", "70"]
    assert [line.split()[1].startswith("?") for line in lines[8:11]] == [True] * 3
    assert [line.split()[3].startswith("?") for line in lines[8:11]] == [False] * 3
    assert lines[11:] == [
        "check: the clock of the second recording runs 4.0 % fast against the moves, or the "
        "printer moves otherwise than the schedule says; frequencies are put right by that",
        "check: the second recording has a gap of 0.8 s, left out",
        "check: in 3 of 6 steps two motors turn at one speed: their tones add up or cancel, "
        "differently in each recording; none of these steps alone is sure, and their bands say so",
        "check: bands hold what scatters within each recording; recorders put down elsewhere add "
        "to it: record the same feet twice to see how much",
        "check: predicted is what leaves through the feet into the desk",
    ]
    drawn = (folder / "changes.svg").read_text(encoding="utf-8")
    for words in (
        "two motors at one speed: not sure",
        "predicted, feet alone",
        "along 0°",
        "along 45°",
        "change [dB], minus is quieter",
        "speed of the tool",
    ):
        assert words in drawn


def refused(files: Path, *words: object) -> str:
    ran = isolator("compare", *words, "--out", files / "none")
    assert (ran.code, ran.out) == (2, "")
    assert not (files / "none").exists()
    return ran.err.replace(str(files), "F")


def test_what_cannot_be_compared_is_refused_in_a_sentence(files: Path, schedule: Schedule) -> None:
    moves = ("--schedule", files / "schedule.json")
    before = files / "before.csv"
    assert refused(files, before, files / "x.csv", *moves).startswith("F/x.csv: found no such file")
    rate = 400
    random = np.random.default_rng(4)
    sound = {
        "short": random.standard_normal(20 * rate),
        "room": random.standard_normal(round(1.2 * schedule.length) * rate),
    }
    for name, samples in sound.items():
        wavfile.write(files / f"{name}.wav", rate, (3e3 * samples).astype(np.int16))
    whole = f"the {schedule.length:.0f} s of the moves in F/schedule.json"
    assert refused(files, files / "short.wav", before, *moves) == (
        f"F/short.wav: found 20 s; wanted {whole}; record from before the start to the end\n"
    )
    assert refused(files, files / "room.wav", before, *moves) == (
        "F/room.wav: found nothing that goes and stops as the moves do; wanted a recording of the "
        "moves in F/schedule.json; record close to the printer in a quiet room, automatic gain "
        "off, or check the files\n"
    )
    assert refused(files, before, before, *moves, "--rate", "100") == (
        "F/before.csv: found a recording that is good for no more than 40 Hz; wanted 60 Hz or "
        "more; record faster, or with a steadier clock\n"
    )
    assert refused(files, before, files / "after.csv", *moves, "--place", "lap") == (
        'command line: --place: found "lap"; wanted one of air, desk, printer; write one of these '
        "words\n"
    )
    bare = {"steps": schedule_json(schedule)["steps"][:3]}  # type: ignore[index]
    write_json(files / "bare.json", bare)
    assert refused(files, before, before, "--schedule", files / "bare.json") == (
        "F/bare.json: pauses: found 2 of them; wanted 4 pauses or more; take moves with pauses "
        "between steps, as `isolator sweep` writes them\n"
    )
    one = np.loadtxt(before, delimiter=",", skiprows=1)[:, :2]
    np.savetxt(files / "one.csv", one, "%.9g", ",", header="t [s],x [m/s^2]", comments="")
    assert refused(files, before, files / "one.csv", *moves) == (
        "F/one.csv: found 1 channel, 3 channels in F/before.csv; wanted as many channels in "
        "both; name them with --columns\n"
    )
    assert refused(files, files / "room.wav", files / "short.wav", *moves, "--columns", "t,x") == (
        'command line: --columns: found "t,x"; wanted none, as F/room.wav is a sound file, which '
        "has no columns; leave out --columns\n"
    )
    wavfile.write(files / "loud.wav", 1000, one[:, 1].astype(np.float32))
    assert refused(files, before, files / "loud.wav", *moves) == (
        "F/loud.wav: found samples in full scale, those of F/before.csv in m/s^2; wanted two "
        "recordings of one kind; record both the same way\n"
    )


def test_one_recording_given_twice_is_refused(files: Path) -> None:
    moves, before = ("--schedule", files / "schedule.json"), files / "before.csv"
    link, copy = files / "link.csv", files / "copy.csv"
    link.symlink_to(before)
    copy.write_bytes(before.read_bytes() + b"\n")
    for other in (before, link, copy):
        assert refused(files, before, other, *moves) == (
            f"F/{other.name}: found the very samples of F/before.csv; wanted two recordings, one "
            "on the old feet and one on the new; name both files\n"
        )


def test_recordings_the_wrong_way_round_and_dead_channels_are_told(
    files: Path, brief: Path, tmp_path: Path
) -> None:
    whole = np.loadtxt(files / "before.csv", delimiter=",", skiprows=1)
    whole[:, 3] = 0.2
    dead = tmp_path / "dead.csv"
    np.savetxt(dead, whole, "%.9g", ",", header="t [s],x [g],y [g],z [g]", comments="")
    words = ("compare", files / "after.csv", dead, "--brief", brief, "--out", tmp_path)
    ran = isolator(*words, "--schedule", files / "schedule.json", "--unit", "m/s^2")
    assert (ran.code, ran.err) == (0, "")
    checks = [line for line in ran.out.splitlines() if line.startswith("check: ")]
    assert (
        "check: the second recording has nothing on channel z: levels are those of the rest; mend "
        "the cable, or save of both recordings what is alive"
    ) in checks
    assert (
        "check: it is louder where quieter is predicted of every step: is the first recording that "
        "of the old feet?"
    ) in checks


def test_a_unit_that_cannot_be_right_is_told(files: Path, tmp_path: Path) -> None:
    """Gravity shows it: 9.8 where the header says g."""
    for name, unit in (("before", "m/s^2"), ("again", "g")):
        head, *rows = (files / f"{name}.csv").read_text(encoding="utf-8").splitlines()
        table = np.array([row.split(",") for row in rows], dtype=float)
        table[:, 3] += 9.80665
        head = head.replace("m/s^2", unit)
        np.savetxt(tmp_path / f"{name}.csv", table, "%.9g", ",", header=head, comments="")
    words = ("compare", tmp_path / "before.csv", tmp_path / "again.csv", "--out", tmp_path)
    ran = isolator(*words, "--schedule", files / "schedule.json", "--json")
    told = ran.json()["compare"]
    assert told["whole"]["change_db"]["nominal"] == pytest.approx(0.0, abs=0.02)
    assert (
        "the second recording: the file's unit cannot be right: gravity shows m/s², which was "
        "taken. Otherwise say --unit"
    ) in told["warnings"]


def test_automatic_gain_is_said_and_no_level_without_a_calibration(
    files: Path, schedule: Schedule, brief: Path, tmp_path: Path
) -> None:
    def tones(step: Step) -> list[tuple[float, float]]:
        return [(1250.0 * step.speed, 0.02), (2500.0 * step.speed, 0.03)]

    plain = [swept(schedule, RATE, tones, room=0.006, seed=seed) for seed in (1, 2)]
    turned = automatic(0.4 * plain[1], RATE, 0.01, back=3.0)
    for name, samples in (("before", plain[0]), ("after", turned)):
        wavfile.write(tmp_path / f"{name}.wav", round(RATE), (2e4 * samples).astype(np.int16))
    moves = ("--schedule", files / "schedule.json", "--out", tmp_path)
    both = (tmp_path / "before.wav", tmp_path / "after.wav")
    told = isolator("compare", *both, *moves, "--json").json()["compare"]
    assert told["automatic_gain"] == {"before": False, "after": True}
    said = "pauses grow louder by themselves: automatic gain is suspected"
    assert told["warnings"][0] == f"in the second recording {said}"
    assert told["warnings"][1].startswith("changes are told against the room's noise behind each")
    # levels are told against each other alone
    assert (
        "neither recording is calibrated: changes alone are told, no level in dB"
        in (told["warnings"])
    )
    assert {key for step in told["steps"] for key in step if "level" in key or "rms" in key} == {
        "level_over_loudest_db"
    }
    mapped = isolator("orders", both[1], *moves, "--brief", brief, "--json").json()["orders"]
    assert mapped["automatic_gain"]
    assert mapped["warnings"][-1] == (
        f"in the recording {said}; how loud speeds are against each other is not sure then"
    )


def test_without_a_brief_steps_that_may_beat_are_none_of_the_extremes(files: Path) -> None:
    words = ("compare", files / "before.csv", files / "after.csv", "--out", files / "bare")
    ran = isolator(*words, "--schedule", files / "schedule.json")
    assert (ran.code, ran.err) == (0, "")
    assert "best at" not in ran.out
    assert "worst at" not in ran.out
    assert (
        "check: along 0° and 45° two motors may turn at one speed, and add up or cancel: that is "
        "not in the bands, and such steps are named neither best nor worst; give --brief, which "
        "knows\n"
    ) in ran.out


def test_what_other_recordings_told_is_kept(files: Path, brief: Path) -> None:
    moves = ("--schedule", files / "schedule.json", "--brief", brief, "--out", files / "kept")
    first = isolator("compare", files / "before.csv", files / "after.csv", *moves)
    folder = files / "kept" / "reading-room-printer-compare"
    there = tree(folder)
    assert isolator("compare", files / "before.csv", files / "after.csv", *moves) == first
    assert tree(folder) == there
    ran = isolator("compare", files / "before.csv", files / "again.csv", *moves)
    assert ran.out.startswith("about the same (")
    day = date.today()
    copies = [f"changes.{day}.svg", f"changes.{day}.txt", f"result.{day}.json"]
    assert ran.out.splitlines()[-1] == (
        f"earlier results were others: kept as {copies[0]}, {copies[1]} and {copies[2]}"
    )
    for copy in copies:
        stem, _, kind = copy.partition(f".{day}")
        assert (folder / copy).read_bytes() == there[stem + kind]
        assert (folder / (stem + kind)).read_bytes() != there[stem + kind]


def test_the_recorder_on_the_printer_gets_no_prediction(files: Path, brief: Path) -> None:
    words = ("compare", files / "before.csv", files / "again.csv", "--brief", brief)
    moves = ("--schedule", files / "schedule.json", "--place", "printer", "--out", files / "p")
    ran = isolator(*words, *moves, "--json")
    told = ran.json()["compare"]
    assert told["whole"]["change_db"]["nominal"] == pytest.approx(0.0, abs=0.02)
    assert {step["predicted_db"] for step in told["steps"]} == {None}
    assert told["warnings"][-1] == (
        "on the printer itself nothing is predicted: soft feet let it move more"
    )
