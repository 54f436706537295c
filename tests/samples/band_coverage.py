"""How well bands hold: fresh samples of all spreads against the bands that are told."""

from __future__ import annotations

from dataclasses import replace
from importlib import resources
from pathlib import Path
from typing import NamedTuple

import numpy as np

from isolator.brief import Brief, read_brief_text
from isolator.brief.places import foot_positions
from isolator.cards import load_cards
from isolator.design import Pad
from isolator.motors.bracket import Bracket, bracket_weights
from isolator.motors.choose import Place, choose
from isolator.motors.drive_train import mean_weights, tones_of
from isolator.motors.floor import Floors
from isolator.motors.modes import mode_frequencies
from isolator.motors.mount import Damper
from isolator.motors.sampled import Drawn
from isolator.motors.task import MotorTask, build_motor_task
from isolator.vibration import directions
from isolator.vibration.compared import Compared
from isolator.vibration.curves import transmissibility
from isolator.vibration.desk import stood_on
from isolator.vibration.evaluation import tool_sways
from isolator.vibration.excitation import MOTOR_SOURCES, fan_tones
from isolator.vibration.heard import desk_ear, strengths
from isolator.vibration.installation import Installation, build_installation
from isolator.vibration.isolation import decibel
from isolator.vibration.lines import line_weights, mean_loss
from isolator.vibration.own_feet import build_now_stand
from isolator.vibration.pushed import Through, axis_push
from isolator.vibration.sampled import Sampled, sampled
from isolator.vibration.spectrum import THIN, grid_for, spectrum, way_out
from isolator.vibration.spreads import SHARE, SHARP, Samples, draw, ends
from isolator.vibration.stand import Alike, Stand, one_pad, pads_stand

COMPARE = Path(__file__).parents[1] / "compare"
PRINTERS = {  # brief → material of the feet
    "reading-room": "iir-50",
    "story-corner": "sponge-3",
    "workshop": "pu-visco-30",
    "archive": "nbr-60",
    "gallery": "tpu-85-gyroid-15",
    "play-corner": "pe-30",
}
FRESH, OTHER_SEED = 1000, 7
HEARD = np.geomspace(2.0, 390.0, 17)  # [Hz], of pushes and of the curve
DAMPERS = ("bracket", "torque", "damper", "feet", "both")
"""How names of dampers' tones begin."""
WARM = 46.0  # of rubber under a motor at its warmest [°C]


class Held(NamedTuple):
    """One band: the share of fresh samples in it, its width over their 5 to 95 % range."""

    name: str
    share: float
    width: float


def brief_of(name: str) -> Brief:
    shipped = resources.files("isolator.examples") / f"{name}.toml"
    path = shipped if shipped.is_file() else COMPARE / f"{name}.toml"
    return read_brief_text(path.read_text(encoding="utf-8"), f"{name}.toml")


def feet_of(brief: Brief, material: str) -> Stand:
    """Discs of 28 mm under the printer's corners."""
    card = load_cards()[material]
    pad = Pad(
        shape="disc",
        first=0.028,
        second=0.0,
        thickness=0.014,
        layers=1,
        material=material,
        printed=card.family == "printed",
    )
    places = np.array(foot_positions(brief.feet, brief.printer.size, 4))
    group = Alike(pads=one_pad(card, pad), positions=places, cap=0.004, width=0.028)
    return pads_stand(brief.room, card, "feet", [group], 0.018)


class Asked(NamedTuple):
    """One printer, its feet, and dampers under its belt motors."""

    brief: Brief
    installation: Installation
    stand: Stand
    task: MotorTask
    dampers: dict[int, Damper]


def asked(name: str) -> Asked:
    """Return what one printer is asked about, dampers chosen with the samples that are told."""
    brief, cards = brief_of(name), load_cards()
    installation = build_installation(brief, cards)
    stand, task = feet_of(brief, PRINTERS[name]), build_motor_task(brief)
    samples = draw(installation.printer.extras)
    feet = sampled(stand, installation.printer, installation.excitation, samples, "feet")
    drawn = Drawn(samples=samples, feet=feet)
    dampers: dict[int, Damper] = {}
    for index in range(len(task.belts)):
        found = choose(task, {index: Place(tallest=0.02, warm=WARM)}, cards, drawn)
        dampers |= found.ranked[0] if found.ranked else {}
    return Asked(brief, installation, stand, task, dampers)


def told(about: Asked, samples: Samples) -> dict[str, np.ndarray]:
    """Return everything that is told with a band (n,), the nominal sample first."""
    brief, installation = about.brief, about.installation
    printer, excitation = installation.printer, installation.excitation
    desk, now = stood_on(installation.surroundings.desk), build_now_stand(brief, load_cards())
    found = sampled(about.stand, printer, excitation, samples, "feet")
    grid = directions.frequency_grid(700.0, 0.1)
    feet = spectrum(found, desk, grid)
    there = None
    if now is not None:
        there = way_out(sampled(now, printer, excitation, samples, "now"), None, grid, THIN)
    before = sampled(now or installation.bumpers, printer, excitation, samples, "now")
    soft = desk if desk.material else None
    compared = Compared(
        excitation=excitation,
        grid=grid,
        before=way_out(before, soft, grid),
        after=feet.desk if soft else feet.feet,
        ear=desk_ear(desk, grid),
        strong=strengths(excitation, samples),
        ceiling=200.0,
    )
    values = {f"mode {name}": found.frequency(name) for name in found.names}
    values |= {f"load {i}": row for i, row in enumerate(found.system.feet.load.T)}
    heard = compared.changes(brief.motion.speeds)
    for at, speed in enumerate(brief.motion.speeds):
        values[f"heard at {1e3 * speed:.0f} mm/s"] = heard[:, at]
    values["sway"] = tool_sways(excitation, found, brief.motion.speeds)
    for speed in brief.motion.speeds:
        for source in MOTOR_SOURCES:
            line = f"{source} at {1e3 * speed:.0f} mm/s"
            weights = line_weights(excitation, grid, source, speed, brief.motion.infill_angles)
            values[f"loss, {line}"] = mean_loss(feet.rigid, feet.feet, weights)
            values[f"on the desk, {line}"] = mean_loss(feet.desk_rigid, feet.desk, weights)
            if there is not None:
                values[f"against now, {line}"] = mean_loss(there, feet.feet, weights)
    return values | pushed(about, found) | damped(about, Drawn(samples=samples, feet=found))


def pushed(about: Asked, stand: Sampled) -> dict[str, np.ndarray]:
    """Return what is told of fans, of the user's own forces and of the curve."""
    installation = about.installation
    excitation, desk = installation.excitation, stood_on(installation.surroundings.desk)
    pushes = [
        (f"1 N along {axis}", HEARD, axis_push(excitation, stand.system, axis)) for axis in "xyz"
    ]
    pushes += [
        (tone.source, np.array([tone.frequency]), tone.push) for tone in fan_tones(excitation.fans)
    ]
    values = {}
    for name, frequency, push in pushes:
        through = Through(stand, frequency, [push], desk)
        losses = decibel(through.rigid, through.feet), decibel(through.desk_rigid, through.desk)
        for what, both in zip(("loss", "on the desk"), losses, strict=True):
            values |= {f"{what}, {name} at {f:.3g} Hz": both[:, i] for i, f in enumerate(frequency)}
    curve = transmissibility(excitation, stand, HEARD)
    for i, f in enumerate(HEARD):
        values |= {f"curve {axis} at {f:.3g} Hz": curve[:, i, at] for at, axis in enumerate("xyz")}
    return values


def damped(about: Asked, drawn: Drawn) -> dict[str, np.ndarray]:
    """Return what is told of motors on dampers."""
    task, values = about.task, {}
    dampers = {
        index: replace(one, rubber=drawn.rubber(one.offered.material, task.room, WARM))
        for index, one in about.dampers.items()
    }
    if not dampers:
        return {}
    tones, speeds = tones_of(task.motion), np.array(task.motion.speeds)
    grid = grid_for(task.excitation, task.motion.speeds, 0.1)
    floor = Floors(task, drawn, grid).over(dampers)
    for index, one in dampers.items():
        belt, motor = task.belts[index]
        bracket = Bracket(task, index, drawn, grid)
        heard = bracket_weights(task, index, grid, speeds)
        changes = bracket.changes(one.offered, one.rubber, heard)
        for at, speed in enumerate(speeds):
            values[f"bracket of {motor.name} at {1e3 * speed:.0f} mm/s"] = changes[:, at]
        bolted, soft = bracket.torque.energies(one.offered, one.rubber)
        weights = mean_weights(task.motion, belt, tones.frequency.tolist(), grid)
        energies = [each[..., index] @ weights for each in floor]
        values |= {f"{motor.name} {name}": f for name, f in mode_frequencies(motor, one).items()}
        for at, (source, speed) in enumerate(zip(tones.source, tones.speed, strict=True)):
            line = f"{motor.name}, {source} at {1e3 * speed:.0f} mm/s"
            own = weights[:, at]
            values[f"torque of {line}"] = decibel(bolted @ own, soft @ own)
            for name, after in zip(("damper", "feet", "both"), energies[1:], strict=True):
                values[f"{name} of {line}"] = decibel(energies[0][:, at], after[:, at])
    return values


def at_one_frequency(name: str) -> bool:
    """Return whether a band is of one sharp frequency, or of a damper."""
    return " Hz" in name or name.split()[0] in DAMPERS


def coverage(name: str) -> list[Held]:
    """Return how well every band of one printer holds."""
    about = asked(name)
    extras = about.installation.printer.extras
    bands = told(about, draw(extras))
    fresh = told(about, draw(extras, FRESH, OTHER_SEED, even=False))
    rows = []
    for key, values in bands.items():
        low, high = ends(values, SHARP if at_one_frequency(key) else SHARE)
        others = fresh[key][1:]
        needed = np.ptp(np.quantile(others, (0.05, 0.95)))
        if needed > 1e-9 * max(1.0, abs(float(values[0]))):
            share = float(((others >= low) & (others <= high)).mean())
            rows.append(Held(key, share, float((high - low) / needed)))
    return rows
