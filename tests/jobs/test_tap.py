"""`isolator tap` as a whole: recordings in, modes, verdict, picture and cautions out."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import example, isolator
from recorded import G, lines, text
from scipy.io import wavfile
from taps_made import Tapping

from isolator.brief import read_brief
from isolator.commands.known_cards import known_cards
from isolator.commands.tapped_copy import corrected_text
from isolator.measuring.tap_found import Corrected, TappedFoot
from isolator.measuring.tap_model import ModelModes, Scales, model_modes
from isolator.vibration.band import Band
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.printer import build_printer
from isolator.vibration.stand import given_stand

TWO = Tapping(
    frequency=np.array([7.0, 19.0]),
    damping=np.array([0.05, 0.03]),
    shapes=np.array([[1.0, 0.2, 0.1], [-0.1, 0.4, 1.0]]),
    count=4,
)


@pytest.fixture(scope="module")
def taps(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four taps as z, y, x in g, times in milliseconds."""
    file = tmp_path_factory.mktemp("taps") / "four taps.csv"
    time, samples = TWO.tapped(seed=4)
    x, y, z = samples.T / G
    file.write_text(text("time_ms;az (g);ay (g);ax (g)", lines((time * 1e3, z, y, x), ";", 7)))
    return file


def test_modes_with_bands_and_a_verdict(taps: Path) -> None:
    ran = isolator("tap", taps, "--json")
    assert (ran.code, ran.err) == (0, "")
    told = ran.json()["tap"]
    assert set(told["recording"]) >= {
        *("rate_hz", "jitter", "gaps", "repeats", "clipped", "usable_hz")
    }
    assert told["recording"]["rate_hz"] == pytest.approx(400.0)
    assert told["recording"]["channels"] == ["z", "y", "x"]
    assert told["recording"]["unit"] == "m/s^2"
    for mode, hertz, ratio in zip(told["modes"], TWO.frequency, TWO.damping, strict=True):
        assert mode["taps"] == 4
        assert mode["frequency_hz"]["nominal"] == pytest.approx(hertz, rel=0.005)
        assert mode["damping_ratio"]["nominal"] == pytest.approx(ratio, rel=0.1)
        low, nominal, high = (mode["damping_ratio"][end] for end in ("low", "nominal", "high"))
        assert 0.0 < low < nominal < high


def test_what_a_terminal_shows(taps: Path) -> None:
    ran = isolator("tap", taps, "--desk")
    first, *rest = ran.out.splitlines()
    assert first == "The desk alone: 2 modes from 4 taps, up to 150 Hz"
    assert rest[0].startswith("  7.0") or rest[0].startswith("  6.9")
    assert "in 4 taps" in rest[1]
    assert rest[2].startswith(f"{taps}: ")
    assert rest[2].endswith(" s at 400 Hz, channels z, y, x; usable from 0.29 to 160 Hz")
    assert rest[3] == (
        "note: A swing that no tap starts is not in the list: tap along x, y and z, one hit each "
        "time."
    )
    assert rest[4] == (
        "note: Frequencies are as true as the recorder's clock: one that is 4 % off shifts all of "
        "them by 4 %, and nothing in a recording tells but a known tone (--known-tone)."
    )
    assert len(rest) == 5


def test_picture_and_result_go_into_a_folder(taps: Path, tmp_path: Path) -> None:
    ran = isolator("tap", taps, "--out", tmp_path, "--json")
    folder = tmp_path / "four taps-tap"
    assert (folder / "tap.svg").read_text().count("<svg") == 1
    assert (folder / "tap.json").read_text() == ran.out
    again = isolator("tap", taps, "--out", tmp_path)
    assert again.out.splitlines()[-1] == f"picture: {folder / 'tap.svg'}"
    other = tmp_path / taps.name
    other.write_bytes(taps.read_bytes())
    ran = isolator("tap", other, "--out", tmp_path)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.strip() == (
        f"{folder}: found what another recording told ({taps}); wanted a place of its own for the "
        "output; move it away, rename the recording, or choose another --out"
    )


def test_a_sound_recording_of_taps(tmp_path: Path) -> None:
    """48 kHz is thinned out first; a microphone's numbers have no unit."""
    loud = Tapping(
        frequency=TWO.frequency * 4, damping=TWO.damping, shapes=TWO.shapes, rate=48_000.0, count=3
    )
    _, samples = loud.tapped(seed=2)
    wave = (samples[:, 0] / np.abs(samples[:, 0]).max() * 2e4).astype(np.int16)
    wavfile.write(tmp_path / "desk.wav", 48_000, wave)
    told = isolator("tap", tmp_path / "desk.wav", "--json").json()["tap"]
    assert (told["recording"]["unit"], told["recording"]["calibrated"]) == ("full scale", False)
    found = [mode["frequency_hz"]["nominal"] for mode in told["modes"]]
    assert found == pytest.approx([28.0, 76.0], rel=0.005)


WRONG = {
    "two things": (
        ("--desk", "--hard"),
        "command line: --desk and --hard: found both; wanted one of them, or none for a printer on "
        "its feet; tap the desk in a recording of its own",
    ),
    "a desk and a brief": (
        ("--desk", "--brief", "room.toml"),
        "command line: --desk and --brief: found both; wanted one of them: a desk alone tells "
        "nothing of feet and frame; leave out --brief",
    ),
    "no such tone": (
        ("--known-tone", "50"),
        "command line: --known-tone: found 50 Hz; wanted a steady tone that stands out in FILE "
        "within 8% of it; name another tone, or leave it out",
    ),
    "a rate in metres": (
        ("--rate", "3 m"),
        'command line: --rate: found "3 m"; wanted a frequency, in one of its units; if it is in '
        'Hz, write it like "3 Hz"',
    ),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_cannot_be_meant_is_refused(taps: Path, case: str) -> None:
    words, message = WRONG[case]
    ran = isolator("tap", taps, *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.strip().replace(str(taps), "FILE") == message


SLOW = {
    "asked": (
        400.0,
        ("--highest", "0.001 Hz"),
        "command line: --highest: found 0.001 Hz; wanted 2 Hz or more; raise it, or leave it out",
    ),
    "recorded": (
        0.5,
        (),
        "FILE: found 0.5 samples a second, good for no more than 0.2 Hz; wanted a recording that "
        "is good for 2 Hz or more; record faster, or correct --rate or --time-unit",
    ),
}


@pytest.mark.parametrize("case", SLOW)
def test_what_is_too_slow_for_any_mode_is_refused(tmp_path: Path, case: str) -> None:
    rate, words, message = SLOW[case]
    file = tmp_path / "slow.csv"
    noise = np.random.default_rng(1).normal(size=(400, 3))
    file.write_text(text("t [s],x [g],y [g],z [g]", lines((np.arange(400) / rate, *noise.T))))
    ran = isolator("tap", file, *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.strip().replace(str(file), "FILE") == message


def test_each_file_is_named_once_and_one_without_taps_is_told(taps: Path, tmp_path: Path) -> None:
    ran = isolator("tap", taps, taps.parent / "." / taps.name)
    assert ran.code == 2
    assert ran.err.strip().endswith(
        "found the same file twice; wanted each recording once; name it once"
    )
    noise = np.random.default_rng(3).normal(0.0, 0.1, (2000, 3))
    file = tmp_path / "quiet.csv"
    file.write_text(text("t [s],x [g],y [g],z [g]", lines((np.arange(2000) / 400.0, *noise.T))))
    assert f"note: {file}: no tap in it rings out." in isolator("tap", taps, file).out


def test_a_recording_in_which_nobody_tapped(tmp_path: Path) -> None:
    noise = np.random.default_rng(3).normal(0.0, 0.1, (2000, 3))
    file = tmp_path / "quiet.csv"
    file.write_text(text("t [s],x [g],y [g],z [g]", lines((np.arange(2000) / 200.0, *noise.T))))
    ran = isolator("tap", file)
    assert ran.code == 2
    assert ran.err.strip() == (
        f"{file}: found no tap that rings out; wanted a quiet second, a tap with a knuckle, three "
        "quiet seconds; five times or more; fix the sensor to what you tap, and record again with "
        "motors and fans off"
    )


@pytest.fixture(scope="module")
def printer_taps(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path, ModelModes]:
    """The brief of a printer, and taps on it, its feet softer and its frame stiffer than told."""
    folder = tmp_path_factory.mktemp("printer")
    brief_file = folder / "room.toml"
    brief_file.write_text(example("reading-room"), encoding="utf-8")
    brief = read_brief(brief_file)
    stand = build_now_stand(brief, known_cards(brief))
    assert stand is not None
    case = build_printer(brief).nominal
    feet, _ = stand.settled(case, "nominal")
    model = model_modes(case, feet, Scales(sideways=0.75, upright=0.85, frame=1.3))
    shapes = np.random.default_rng(9).normal(size=(7, 3))
    made = Tapping(
        frequency=model.frequency[:7],
        damping=(model.feet + model.frame)[:7],
        shapes=shapes,
        rate=800.0,
    )
    time, samples = made.tapped(seed=1)
    file = folder / "taps.csv"
    file.write_text(text("t [s],x [m/s^2],y [m/s^2],z [m/s^2]", lines((time, *samples.T))))
    return brief_file, file, model


def test_a_brief_is_corrected_in_a_copy(
    printer_taps: tuple[Path, Path, ModelModes], tmp_path: Path
) -> None:
    brief, file, model = printer_taps
    before = brief.read_bytes()
    told = isolator("tap", file, "--brief", brief, "--out", tmp_path, "--json").json()["tap"]
    assert brief.read_bytes() == before
    corrected = told["corrected"]
    assert corrected["feet_of"] == "feet there now"
    for key, truth in (("feet_sideways", 0.75), ("feet_upright", 0.85), ("feet_loss", 1.0)):
        assert corrected[key]["low"] < truth < corrected[key]["high"]
    names = {each["name"] for each in told["modes"]}
    assert {"frame twist", "bounce", "twist"} < names
    assert [each["name"] for each in corrected["matched"]] == [
        each["name"] for each in told["modes"]
    ]
    for each in corrected["matched"]:
        assert each["corrected_hz"] == pytest.approx(each["tapped_hz"], rel=0.02)
    copy = tmp_path / "taps-tap" / "corrected.toml"
    after = read_brief(copy)
    feet = given_stand(after.feet.given).settled(build_printer(after).nominal, "nominal")[0]
    found = model_modes(build_printer(after).nominal, feet, Scales())
    # stiffness of given feet does not rise with frequency: 2 % over the modes
    np.testing.assert_allclose(found.frequency[:6], model.frequency[:6], rtol=0.03)
    checked = isolator("check", copy, "--json").json()
    assert checked["judged"]["feet"] == "given"


def test_modes_of_another_printer_are_doubted(
    printer_taps: tuple[Path, Path, ModelModes], taps: Path, tmp_path: Path
) -> None:
    brief, _, _ = printer_taps
    own = isolator("tap", printer_taps[1], "--brief", brief).out
    words = ("tap", taps, "--brief", brief, "--out", tmp_path)
    other = isolator(*words, "--json").json()["tap"]
    assert not (tmp_path / "four taps-tap" / "corrected.toml").exists()
    assert "corrected copy" not in isolator(*words).out
    assert "The match is poor" not in own
    assert "Nothing is corrected" in " ".join(other["warnings"])
    assert other["corrected"]["feet"] == []


@pytest.fixture(scope="module")
def hard_taps(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Taps on a printer that stands hard: its frame along y, along x and in twist."""
    made = Tapping(
        frequency=np.array([23.0, 29.0, 44.0]),
        damping=np.array([0.03, 0.02, 0.025]),
        shapes=np.array([[0.1, 1.0, 0.2], [1.0, 0.1, 0.1], [0.6, 0.7, 0.1]]),
    )
    time, samples = made.tapped(seed=3)
    file = tmp_path_factory.mktemp("hard") / "hard.csv"
    file.write_text(text("t [s],x [m/s^2],y [m/s^2],z [m/s^2]", lines((time, *samples.T))))
    return file


def test_a_frame_tapped_standing_hard_goes_into_the_copy(hard_taps: Path, tmp_path: Path) -> None:
    brief = tmp_path / "room.toml"
    brief.write_text(example("story-corner"), encoding="utf-8")
    ran = isolator("tap", hard_taps, "--hard", "--brief", brief, "--out", tmp_path)
    assert (ran.code, ran.err) == (0, "")
    after = read_brief(tmp_path / "hard-tap" / "corrected.toml")
    assert after.frame.frequency == pytest.approx((29.0, 23.0, 44.0), rel=0.005)
    assert after.frame.damping == pytest.approx((0.02, 0.03, 0.025), rel=0.1)
    assert after.feet == read_brief(brief).feet
    told = [line.split(", ")[1] for line in ran.out.splitlines() if line.startswith("  ")]
    assert told == ["frame leans along y", "frame leans along x", "frame twists about z"]


def test_a_frame_that_a_brief_takes_as_rigid_stays_so(hard_taps: Path, tmp_path: Path) -> None:
    brief = _started(tmp_path, '# frame.kind = "open"', 'frame.kind = "rigid"')
    ran = isolator("tap", hard_taps, "--hard", "--brief", brief, "--out", tmp_path)
    assert "The brief takes the frame as rigid, so there is no copy: " in ran.out
    assert "corrected copy" not in ran.out
    assert not (tmp_path / "hard-tap" / "corrected.toml").exists()


def _band(nominal: float) -> Band:
    """Return a band of a tenth down and a fifth up."""
    return Band(low=0.9 * nominal, nominal=nominal, high=1.2 * nominal)


CORRECTED = Corrected(
    feet_of="feet there now",
    matched=None,
    feet=tuple(
        TappedFoot(
            position=(x, y, 0.0),
            stiffness=(_band(2e4), _band(2e4), _band(5e4)),
            angular=(_band(0.0), _band(0.0), _band(0.0)),
            loss_factor=_band(0.2),
        )
        for x, y in ((-0.15, -0.16), (0.15, -0.16), (0.0, 0.16))
    ),
    frame=(Band(low=25.0, nominal=26.0, high=27.0), Band(low=21.0, nominal=22.0, high=23.0)),
    frame_damping=(_band(0.03), _band(0.02)),
)


def _started(folder: Path, old: str = "", new: str = "") -> Path:
    """Return the brief that `isolator start` writes into a folder, a line of it changed."""
    brief = folder / "started.toml"
    assert isolator("start", brief).code == 0
    text = brief.read_text(encoding="utf-8")
    assert old in text
    brief.write_text(text.replace(old, new), encoding="utf-8")
    return brief


LAYOUTS = {
    "keys with dots": ("", ""),
    "frame in braces": ('# frame.kind = "open"', 'frame = {kind = "open"}'),
    "feet in braces": ('feet.attachment = "adhesive"', 'feet = {attachment = "adhesive"}'),
    "given already": (
        '# frame.kind = "open"',
        'feet.given = [{position = ["0 mm", "1 mm", "0 mm"]}]\nframe.kind = "open"',
    ),
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_copy_says_the_same_however_the_brief_is_typed(tmp_path: Path, layout: str) -> None:
    brief = _started(tmp_path, *LAYOUTS[layout])
    text = corrected_text(brief, CORRECTED, tmp_path / "out" / "taps-tap")
    copy = tmp_path / "copy.toml"
    copy.write_text(text, encoding="utf-8")
    after = read_brief(copy)
    assert after.frame.frequency == (26.0, 22.0)
    assert after.frame.kind == "open"
    assert after.feet.attachment == "adhesive"
    assert [foot.stiffness for foot in after.feet.given] == [(2e4, 2e4, 5e4)] * 3
    assert "# 2. How heavy is it, and how large?" in text
    beside = [line.split("  # ")[1] for line in text.splitlines() if "  # by taps" in line]
    beside += [line.split(" # ")[1] for line in text.splitlines() if "] # by taps" in line]
    assert set(beside) == {
        "by taps: 18 to 24 N/mm, 18 to 24 N/mm, 45 to 60 N/mm",
        "by taps: 0.18 to 0.24",
        "by taps: 25 to 27 Hz, 21 to 23 Hz",
        "by taps: 0.027 to 0.036, 0.018 to 0.024",
    }


def test_a_copy_of_a_started_brief_finds_its_cards_from_where_it_lies(
    hard_taps: Path, tmp_path: Path
) -> None:
    brief = _started(tmp_path, '#stock.cards = "my-cards"', 'stock.cards = "my-cards"')
    (tmp_path / "my-cards").mkdir()
    ran = isolator("tap", hard_taps, "--hard", "--brief", brief, "--out", tmp_path / "out")
    assert (ran.code, ran.err) == (0, "")
    copy = tmp_path / "out" / "hard-tap" / "corrected.toml"
    assert f"corrected copy of the brief: {copy}" in ran.out
    after = read_brief(copy)
    assert after.frame.frequency == pytest.approx((29.0, 23.0, 44.0), rel=0.005)
    assert after.stock.cards is not None
    assert after.stock.cards.samefile(tmp_path / "my-cards")
