"""Taps on the model's own printer with other feet and frame: what was changed is found again."""

from __future__ import annotations

import numpy as np
import pytest
from command import example

from isolator.brief.read import read_brief_text
from isolator.commands.known_cards import known_cards
from isolator.measuring.folds import folds
from isolator.measuring.tap_frame import hard_modes
from isolator.measuring.tap_match import Matched, Spreads, match
from isolator.measuring.tap_model import ModelModes, Scales, model_modes
from isolator.measuring.tapped import TappedMode
from isolator.physics.bodies.frame import BENT_NAMES, bent_mode_names
from isolator.physics.bodies.rigid import mode_names
from isolator.vibration.band import Band
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.printer import MassCase, build_printer
from isolator.vibration.supports import FeetBatch
from isolator.vibration.system import build, exact_modes

TRUTH = Scales(sideways=1.3, upright=0.8, frame=1.1)
LOSS, FRAME_LOSS = 1.4, 0.8
SPREADS = Spreads(feet=0.25, frame=0.35)


@pytest.fixture(scope="module")
def printer() -> tuple[MassCase, FeetBatch]:
    brief = read_brief_text(example("reading-room"), "reading-room.toml")
    stand = build_now_stand(brief, known_cards(brief))
    assert stand is not None
    case = build_printer(brief).nominal
    return case, stand.settled(case, "nominal")[0]


def tapped(model: ModelModes, which: list[int], seed: int = 0) -> list[TappedMode]:
    """Return modes as tapped, frequencies off by 0.2 %, dampings by 3 %."""
    rng = np.random.default_rng(seed)
    modes = []
    for n in which:
        hertz = float(model.frequency[n]) * np.exp(rng.normal(0.0, 0.002))
        ratio = float(LOSS * model.feet[n] + FRAME_LOSS * model.frame[n])
        ratio *= np.exp(rng.normal(0.0, 0.03))
        modes.append(
            TappedMode(
                frequency=Band(low=hertz * 0.997, nominal=hertz, high=hertz * 1.003),
                damping=Band(low=ratio * 0.95, nominal=ratio, high=ratio * 1.05),
                taps=6,
                share=0.1,
                shape=np.array([1.0, 0.2, 0.1]),
            )
        )
    return modes


def holds(found: Matched | None) -> None:
    assert found is not None
    assert found.feet_damping is not None
    for band, truth in (
        (found.sideways, TRUTH.sideways),
        (found.upright, TRUTH.upright),
        (found.feet_damping, LOSS),
    ):
        assert band.low < truth < band.high
    assert found.frame is not None
    assert found.frame.low < TRUTH.frame < found.frame.high


def test_a_stiff_frame_leaves_the_modes_of_a_rigid_printer(
    printer: tuple[MassCase, FeetBatch],
) -> None:
    """They are those of the evaluation of feet, worked out there another way, damping too."""
    case, feet = printer
    found = model_modes(case, feet, Scales(frame=300.0))
    wanted = exact_modes(build(feet, case))
    np.testing.assert_allclose(found.frequency[:6], wanted.frequency[0], rtol=1e-3)
    np.testing.assert_allclose(found.feet[:6], wanted.damping[0], rtol=2e-3)
    np.testing.assert_allclose(found.frame[:6], 0.0, atol=1e-4)


def test_modes_have_the_names_of_what_they_do() -> None:
    """Of a frame that leans softly on hard feet: the base hardly moves in its own three."""
    share = np.array([0.9, 0.95, 0.97, 0.96, 0.98, 0.99, 0.7, 0.8, 0.85])
    order = [6, 7, 8, 1, 0, 5, 2, 3, 4]
    shapes = np.diag(np.sqrt(share))[:, order] + 0.1
    assert bent_mode_names(shapes, np.eye(9)) == [BENT_NAMES[n] for n in order]
    six = [2, 0, 1, 5, 4, 3]
    assert bent_mode_names(np.eye(6)[:, six], np.eye(6)) == mode_names(np.eye(6)[:, six], np.eye(6))


def test_feet_and_frame_are_found_again(printer: tuple[MassCase, FeetBatch]) -> None:
    case, feet = printer
    model = model_modes(case, feet, TRUTH)
    found = match(tapped(model, [0, 1, 2, 3, 4, 5, 6]), case, feet, SPREADS)
    holds(found)
    assert found is not None
    assert found.sideways.nominal == pytest.approx(TRUTH.sideways, rel=0.05)
    assert found.upright.nominal == pytest.approx(TRUTH.upright, rel=0.05)
    for pair, name in zip(found.pairs, model.names, strict=False):
        assert name in pair.names
    # twins of a square printer: frequency does not tell which is which
    assert {*found.pairs[0].names, *found.pairs[1].names} == {"frame x", "frame y"}
    assert found.pairs[2].names == ("frame twist",)
    assert [pair.after for pair in found.pairs] == pytest.approx(model.frequency[:7], rel=0.01)


def test_fewer_modes_leave_wider_bands(printer: tuple[MassCase, FeetBatch]) -> None:
    case, feet = printer
    model = model_modes(case, feet, TRUTH)
    many = match(tapped(model, [0, 1, 2, 3, 4, 5, 6]), case, feet, SPREADS)
    few = match(tapped(model, [0, 2, 3]), case, feet, SPREADS)
    holds(few)
    assert many is not None
    assert few is not None
    # no mode that was tapped moves up and down
    assert few.upright.high / few.upright.low > 1.3 * many.upright.high / many.upright.low


def test_modes_of_another_printer_correct_nothing(printer: tuple[MassCase, FeetBatch]) -> None:
    case, feet = printer
    model = model_modes(case, feet, Scales(sideways=0.01, upright=0.01, frame=0.1))
    assert match(tapped(model, [0, 1, 2]), case, feet, SPREADS) is None


def test_a_frame_tapped_standing_hard_tells_its_directions() -> None:
    def mode(hertz: float, *shape: float) -> TappedMode:
        band = Band(low=hertz, nominal=hertz, high=hertz)
        return TappedMode(frequency=band, damping=band, taps=3, share=0.2, shape=np.array(shape))

    modes = [mode(22.0, 0.1, 0.2, 1.0), mode(27.0, 0.0, 1.0, 0.3), mode(41.0, 0.3, 0.5, 0.4)]
    # channels of the file are z, y, x
    found = hard_modes(modes, ("z", "y", "x"))
    assert [m.frequency.nominal for m in found] == [22.0, 27.0, 41.0]
    upright = mode(33.0, 1.0, 0.6, 0.7)
    assert hard_modes([*modes[:2], upright], ("z", "y", "x")) == tuple(modes[:2])
    assert hard_modes(modes[1:], ("z", "y", "x")) == ()
    assert hard_modes(modes, ("left", "right")) == ()


def test_where_motors_tones_fold_down() -> None:
    """2 mm pitch and 20 teeth: 60 mm/s is 1.5 turns a second, 400 full steps a turn are 600 Hz."""
    motion = read_brief_text(example("reading-room"), "reading-room.toml").motion
    found = {fold.source: fold for fold in folds(motion, [0.06], 500.0)}
    assert found["full step"].frequency == pytest.approx(600.0)
    assert found["full step"].seen == pytest.approx(100.0)
    assert "turn" not in found
    assert folds(motion, [0.06], 50_000.0) == ()
