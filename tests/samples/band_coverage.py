"""How well bands hold: fresh samples of all spreads against the bands that are told."""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from typing import NamedTuple

import numpy as np

from isolator.brief import Brief, read_brief_text
from isolator.brief.places import foot_positions
from isolator.cards import load_cards
from isolator.design import Pad
from isolator.vibration import directions
from isolator.vibration.desk import stood_on
from isolator.vibration.excitation import MOTOR_SOURCES
from isolator.vibration.installation import Installation, build_installation
from isolator.vibration.isolation import decibel
from isolator.vibration.lines import line_weights, summed
from isolator.vibration.sampled import sampled
from isolator.vibration.spectrum import spectrum
from isolator.vibration.spreads import Samples, draw, ends
from isolator.vibration.stand import Alike, Stand, build_now_stand, one_pad, pads_stand

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


def told(
    brief: Brief, installation: Installation, stand: Stand, samples: Samples
) -> dict[str, np.ndarray]:
    """Return everything that is told with a band (n,), the nominal sample first."""
    printer, excitation = installation.printer, installation.excitation
    desk, now = stood_on(installation.surroundings.desk), build_now_stand(brief, load_cards())
    found = sampled(stand, printer, excitation, samples, "feet")
    grid = directions.frequency_grid(700.0, 0.1)
    feet = spectrum(found, desk, grid)
    there = None
    if now is not None:
        there = spectrum(sampled(now, printer, excitation, samples, "now"), None, grid)
    values = {f"mode {name}": found.frequency(name) for name in found.names}
    values |= {f"load {i}": row for i, row in enumerate(found.system.feet.load.T)}
    for speed in brief.motion.speeds:
        for source in MOTOR_SOURCES:
            line = f"{source} at {1e3 * speed:.0f} mm/s"
            weights = line_weights(excitation, grid, source, speed, brief.motion.infill_angles)
            energy = summed(feet.feet, weights)
            values[f"loss, {line}"] = decibel(summed(feet.rigid, weights), energy)
            values[f"on the desk, {line}"] = decibel(
                summed(feet.desk_rigid, weights), summed(feet.desk, weights)
            )
            if there is not None:
                values[f"against now, {line}"] = decibel(summed(there.feet, weights), energy)
    return values


def coverage(name: str) -> list[Held]:
    """Return how well every band of one printer holds."""
    brief = brief_of(name)
    installation = build_installation(brief, load_cards())
    stand, extras = feet_of(brief, PRINTERS[name]), installation.printer.extras
    bands = told(brief, installation, stand, draw(extras))
    fresh = told(brief, installation, stand, draw(extras, FRESH, OTHER_SEED, even=False))
    rows = []
    for key, values in bands.items():
        low, high = ends(values)
        others = fresh[key][1:]
        needed = np.ptp(np.quantile(others, (0.05, 0.95)))
        if needed > 1e-9 * max(1.0, abs(float(values[0]))):
            share = float(((others >= low) & (others <= high)).mean())
            rows.append(Held(key, share, float((high - low) / needed)))
    return rows
