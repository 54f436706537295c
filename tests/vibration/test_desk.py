"""The desk under a whole printer: what it feels through the feet, of any size or of none."""

from __future__ import annotations

from dataclasses import replace
from importlib import resources

import numpy as np
import pytest
from one_body import on_feet, rigid_source

from isolator.brief import Brief, Desk, read_brief_text
from isolator.brief.places import foot_positions
from isolator.cards import load_cards
from isolator.design import Pad
from isolator.physics.bodies.plate import Plate, receptance
from isolator.vibration.desk import StoodOn, stood_on, under
from isolator.vibration.evaluation import Question, appraise
from isolator.vibration.installation import build_installation
from isolator.vibration.isolation import decibel, on_desk
from isolator.vibration.sampled import sampled
from isolator.vibration.spectrum import spectrum
from isolator.vibration.spreads import draw
from isolator.vibration.stand import Alike, Stand, contact_width, one_pad, pads_stand
from isolator.vibration.system import System

BOARD = Desk(
    kind="plate",
    material="mdf",
    thickness=0.018,
    youngs_modulus=3.5e9,
    density=730.0,
    poisson=0.25,
    loss_factor=0.05,
)
TABLE = replace(BOARD, size=(1.4, 0.7), leg_inset=0.05)
PLACES = np.array([[0.2, 0.1], [-0.1, 0.15], [-0.1, -0.25]])
WIDTHS = np.full(3, 0.025)
HEIGHT = 0.03


def body() -> System:
    """One printer on three unequal feet, its centre of mass well above them."""
    arms = np.column_stack([PLACES, [-0.2, -0.2, -0.2]])
    linear = np.array([[2100.0, 1700, 5200], [1900, 2300, 4100], [2500, 1500, 6100]])
    angular = np.array([[1.1, 2.3, 0.7], [3.1, 1.9, 0.9], [0.4, 2.2, 1.7]])
    return on_feet(linear[None], 0.2, arms=arms, angular=angular, load=[40.0, 30.0, 40.0])


def felt(desk: StoodOn, hertz: np.ndarray, push: list[float]) -> tuple[np.ndarray, np.ndarray]:
    """Power into a desk on the feet and on rigid ones (f,)."""
    system = body()
    # the elastic centres of `body` lie 0.2 m under its middle
    below = under(desk, PLACES, WIDTHS, HEIGHT + 0.2, hertz)
    found = on_desk(system, rigid_source(system, hertz, push), below)
    return found.feet[0, :, 0], found.rigid[0, :, 0]


OFF_CENTRE = [0.0, 0.0, 1.0, 0.05, -0.1, 0.0]
SIDEWAYS = [1.0, 0.3, 0.0, 0.0, 0.2, 0.0]


@pytest.mark.parametrize("push", [OFF_CENTRE, SIDEWAYS], ids=["upright", "sideways"])
@pytest.mark.parametrize("desk", [TABLE, replace(TABLE, support="edges"), BOARD])
def test_no_frequency_has_a_step(desk: Desk, push: list[float]) -> None:
    # finely swept: resonances are 5 % wide, steps of a thousandth follow them smoothly
    hertz = np.exp(np.arange(np.log(4.0), np.log(1500.0), 1e-3))
    powers = felt(stood_on(desk), hertz, push)
    assert all(np.all(power > 0.0) for power in powers)
    levels = decibel(powers[1], powers[0])
    assert np.abs(np.diff(levels)).max() < 0.8  # [dB]
    assert np.abs(np.diff(levels, 2)).max() < 0.1


def test_what_a_desk_carries_is_as_good_as_a_denser_board() -> None:
    # 14.7 kg over 1.4 m by 0.7 m: 15 kg/m², and as much again of 18 mm is 833.3 kg/m³ more
    loaded = stood_on(replace(TABLE, carries=14.7))
    denser = stood_on(replace(TABLE, density=730.0 + 15.0 / 0.018))
    assert loaded.plate.mass_per_area == pytest.approx(0.018 * 730.0 + 15.0, rel=1e-12)
    hertz = np.geomspace(8.0, 900.0, 40)
    for own, other in zip(
        felt(loaded, hertz, OFF_CENTRE), felt(denser, hertz, OFF_CENTRE), strict=True
    ):
        np.testing.assert_allclose(own, other, rtol=1e-9)
    light = felt(stood_on(TABLE), hertz, OFF_CENTRE)[0]
    assert felt(loaded, hertz, OFF_CENTRE)[0][-1] < light[-1]


@pytest.mark.parametrize("push", [OFF_CENTRE, SIDEWAYS], ids=["upright", "sideways"])
def test_a_heavier_desk_feels_less(push: list[float]) -> None:
    hertz = np.geomspace(20.0, 800.0, 60)
    boards = [replace(BOARD, thickness=thick) for thick in (0.012, 0.018, 0.03, 0.06)]
    powers = [felt(stood_on(desk), hertz, push)[0] for desk in boards]
    assert np.all(np.diff(powers, axis=0) < 0.0)
    # and of tables of one size, in the mean: each meets the printer's own modes elsewhere
    tables = [replace(TABLE, thickness=thick) for thick in (0.012, 0.018, 0.03, 0.06)]
    sums = [np.log(felt(stood_on(desk), hertz, push)[0]).mean() for desk in tables]
    assert np.all(np.diff(sums) < 0.0)


def test_more_loss_less_power_where_it_resonates() -> None:
    hertz = np.geomspace(10.0, 300.0, 400)
    peaks = [
        felt(stood_on(replace(TABLE, loss_factor=loss)), hertz, OFF_CENTRE)[1].max()
        for loss in (0.02, 0.05, 0.1)
    ]
    assert peaks[0] > peaks[1] > peaks[2]


def test_a_rigid_desk_shows_a_soft_one_beside_it() -> None:
    stand_in = stood_on(replace(BOARD, kind="rigid", material="rigid", thickness=0.0, density=0.0))
    assert stand_in.material == ""
    assert stand_in.plate == stood_on(BOARD).plate


def test_where_the_printer_stands_matters() -> None:
    hertz = np.array([12.0, 30.0, 64.0])
    middle = felt(stood_on(TABLE), hertz, OFF_CENTRE)[1]
    moved = felt(stood_on(replace(TABLE, position=(0.3, -0.05))), hertz, OFF_CENTRE)[1]
    assert np.all(np.abs(np.log(moved / middle)) > 0.1)
    # the same place from the other side, all turned round
    mirrored = felt(stood_on(replace(TABLE, size=(0.7, 1.4))), hertz, OFF_CENTRE)[1]
    assert np.all(np.abs(np.log(mirrored / middle)) > 0.01)


def test_a_hollow_board_is_stiff_and_light() -> None:
    hollow = replace(BOARD, thickness=0.04, skin=0.003, core_density=40.0, density=800.0)
    plate, solid = stood_on(hollow).plate, stood_on(replace(BOARD, thickness=0.04)).plate
    assert 0.35 < plate.bending / solid.bending < 0.5
    assert plate.mass_per_area == pytest.approx(2 * 0.003 * 800 + 0.034 * 40)


SIZES = {
    "reading-room": 'size = ["1600 mm", "800 mm"]\n',
    "story-corner": 'size = ["1200 mm", "600 mm"]\nsupport = "edges"\n',
    "workshop": 'size = ["1500 mm", "750 mm"]\nposition = ["-100 mm", "20 mm"]\n',
}


def soft_stand(brief: Brief) -> Stand:
    """Four discs of soft rubber under a printer."""
    card = load_cards()["nr-40"]
    pad = Pad(
        shape="disc",
        first=0.022,
        second=0.0,
        thickness=0.018,
        layers=1,
        material=card.id,
        printed=False,
    )
    feet = replace(brief.feet, positions=None)
    places = np.array(foot_positions(feet, brief.printer.size, 4))
    group = Alike(pads=one_pad(card, pad), positions=places, cap=0.01, width=contact_width(pad))
    return pads_stand(brief.room, card, "soft discs", [group], 0.028)


@pytest.mark.parametrize("name", SIZES)
def test_every_line_and_load_is_told_on_a_desk_of_known_size(name: str) -> None:
    text = (resources.files("isolator.examples") / f"{name}.toml").read_text(encoding="utf-8")
    sized = text.replace("[desk]\n", f"[desk]\n{SIZES[name]}")
    found, endless = (
        appraise(
            build_installation(brief, load_cards()),
            soft_stand(brief),
            Question(speeds=brief.motion.speeds[:1], frequencies=(30.0, 150.0)),
        )
        for brief in (read_brief_text(each, f"{name}.toml") for each in (sized, text))
    )
    for one, other in zip(told(found), told(endless), strict=True):
        assert np.all(np.isfinite(one))
        assert one != other  # its modes count


def test_a_desk_is_worked_out_once_for_all_samples(monkeypatch: pytest.MonkeyPatch) -> None:
    text = (resources.files("isolator.examples") / "reading-room.toml").read_text(encoding="utf-8")
    brief = read_brief_text(text, "reading-room.toml")
    installation = build_installation(brief, load_cards())
    samples = draw(installation.printer.extras, 16)
    stand = sampled(
        soft_stand(brief), installation.printer, installation.excitation, samples, "feet"
    )
    asked: list[int] = []

    def counted(plate: Plate, contacts: np.ndarray, widths: np.ndarray, hertz: np.ndarray):
        asked.append(len(hertz))
        return receptance(plate, contacts, widths, hertz)

    monkeypatch.setattr("isolator.vibration.desk.receptance", counted)
    grid = np.geomspace(10.0, 200.0, 20)
    found = spectrum(stand, stood_on(brief.desk), grid)
    assert len(found.desk) >= 9
    assert asked == [20]


def told(found) -> list[tuple[float, float, float]]:
    """Bands of all that is told on the desk."""
    rows = [line for speed in found.speeds for line in speed.lines]
    rows += [point for load in found.loads for point in load.points]
    assert len(rows) > 5
    return [(row.on_desk.low, row.on_desk.nominal, row.on_desk.high) for row in rows]
