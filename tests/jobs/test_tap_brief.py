"""`isolator tap --brief`: modes matched with the model's, and a corrected copy of the brief."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from command import example, isolator
from recorded import lines, text
from taps_made import Tapping

from isolator.brief import read_brief
from isolator.commands import tapped_copy
from isolator.commands.known_cards import known_cards
from isolator.commands.tapped_copy import corrected_text
from isolator.measuring.tap_found import Corrected, TappedFoot
from isolator.measuring.tap_model import ModelModes, Scales, model_modes
from isolator.vibration.band import Band
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.printer import build_printer
from isolator.vibration.stand import given_stand


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


def test_a_copy_that_is_written_anew_keeps_the_bands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As where a brief is laid out as nobody thought of."""
    monkeypatch.setattr(tapped_copy, "_reads", lambda text, wanted: False)
    text = corrected_text(_started(tmp_path), CORRECTED, tmp_path / "out" / "taps-tap")
    copy = tmp_path / "copy.toml"
    copy.write_text(text, encoding="utf-8")
    assert read_brief(copy).frame.frequency == (26.0, 22.0)
    assert "# frame.frequency by taps: 25 to 27 Hz, 21 to 23 Hz\n" in text
    assert "# feet.given[3].loss_factor by taps: 0.18 to 0.24\n" in text


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
