"""Findings made up for the tests of the report, with unequal numbers that hang together.

One mass on a hysteretic spring each way, whose transmissibility is the textbook curve
√((1 + η²)/((1 − r²)² + η²)) (from memory).
"""

from __future__ import annotations

from functools import cache

import numpy as np
import report_motors
from numpy.typing import NDArray
from report_drawn import COM_RANGE, design

from isolator.reading.notes import Assumed
from isolator.report.findings import Alternative, Cloud, Findings, Tally
from isolator.report.page.plots import Plots, plots_of
from isolator.vibration.band import Band, Check
from isolator.vibration.results import (
    AvoidRange,
    CreepRow,
    Curve,
    Evaluation,
    FootState,
    Heard,
    HeardOver,
    Line,
    Load,
    LoadPoint,
    Mode,
    Speed,
    SpeedMap,
    Stability,
    Sway,
    Worst,
)

HOSTILE = "<script>alert('x')</script> & $\\frac{1}$ [red]"
ETA = 0.21
EVENTS = {"turn": 1, "belt tooth": 20, "electrical": 50, "twice electrical": 100, "full step": 200}
MODES = {
    "sway in x": 5.1,
    "sway in y": 5.6,
    "twist about z": 7.3,
    "bounce": 9.7,
    "rocking about x": 12.4,
    "rocking about y": 13.1,
}
SCATTER = 1.17
DRIVEN = 13.1  # the mode that the push along x finds [Hz]


POINT = LoadPoint(
    frequency=25.0,
    transmitted=(0.01, 0.02, 0.17),
    transmissibility=0.17,
    insertion_loss=Band(low=12.0, nominal=15.4, high=18.0),
    on_desk=Band(low=9.0, nominal=11.3, high=14.0),
)


def through(f: NDArray[np.float64] | float, natural: float) -> NDArray[np.float64]:
    r = np.asarray(f, dtype=float) / natural
    return np.asarray(np.sqrt((1 + ETA**2) / ((1 - r**2) ** 2 + ETA**2)))


def loss(f: float, natural: float) -> float:
    return float(-20 * np.log10(through(f, natural)))


def spreading(f: float, natural: float, less: float = 0.0) -> Band:
    values = [loss(f, natural * k) - less for k in (1 / SCATTER, 1.0, SCATTER)]
    return Band(low=min(values), nominal=values[1], high=max(values))


def line(source: str, frequency: float, *, now: bool, worst: bool) -> Line:
    least = Worst(
        direction_deg=42.0, frequency=frequency / 9, insertion_loss=spreading(frequency / 9, DRIVEN)
    )
    return Line(
        source=source,
        frequency=frequency,
        direction_deg=None,
        worst=least if worst else None,
        transmissibility=float(through(frequency, DRIVEN)),
        insertion_loss=spreading(frequency, DRIVEN),
        against_now=spreading(frequency, DRIVEN, less=loss(frequency, 24.0)) if now else None,
        on_desk=spreading(frequency, DRIVEN, less=3.3),
    )


HEARD = {
    "amplified": Band(low=-1.2, nominal=2.4, high=4.7),
    "neutral": Band(low=-6.1, nominal=-2.7, high=0.6),
    "quiet": Band(low=-11.6, nominal=-8.2, high=-4.4),
}


def speed(value: float, verdict: str, *, now: bool) -> Speed:
    tones = [
        line(source, value / 0.040 * events, now=now, worst=True)
        for source, events in EVENTS.items()
    ]
    tones.append(line("fan", 83.0, now=now, worst=False))
    teeth = next(tone for tone in tones if tone.source == "belt tooth")
    return Speed(
        speed=value,
        verdict=verdict,
        decided_by=teeth,
        heard=Heard(
            desk=HEARD[verdict],
            frame=Band(low=0.0, nominal=0.0, high=0.0),
        ),
        lines=tuple(tones),
        amplified_share=0.09,
    )


def curve(axis: str, natural: float) -> Curve:
    f = np.geomspace(2.0, 400.0, 400)
    three = [through(f, natural * k) for k in (1 / SCATTER, 1.0, SCATTER)]
    return Curve(
        axis=axis,
        frequency=f,
        low=np.min(three, axis=0),
        nominal=three[1],
        high=np.max(three, axis=0),
        now=through(f, 24.0),
    )


def speed_map() -> SpeedMap:
    v = np.geomspace(0.020, 0.300, 281)
    events = np.array([*EVENTS.values(), 3200.0])
    f = events[:, None] * v[None, :] / 0.040
    return SpeedMap(
        speed=v,
        sources=(*EVENTS, "microstep"),
        frequency=f,
        insertion_loss=-20 * np.log10(through(f, DRIVEN)),
    )


def evaluation(*, now: bool = True) -> Evaluation:
    loads = (29.4, 31.2, 27.9, 33.5)
    places = ((-0.18, -0.19), (0.18, -0.19), (-0.18, 0.19), (0.18, 0.19))
    return Evaluation(
        ceiling=30.0,
        modes=tuple(
            Mode(
                name=name,
                frequency=Band(low=f / SCATTER, nominal=f, high=f * SCATTER),
                damping_ratio=0.093 + 0.001 * i,
            )
            for i, (name, f) in enumerate(reversed(MODES.items()))
        ),
        highest=SCATTER * max(MODES.values()),
        feet=tuple(
            FootState(
                position=(x, y, -0.0065),
                load=Band(low=0.93 * load, nominal=load, high=1.12 * load),
                strain=None if i == 3 else 0.31 + 0.01 * i,
                sag=0.0031 + 0.0001 * i,
                stiffness=(3100.0 + i, 3200.0 + i, 11050.0 + i),
            )
            for i, ((x, y), load) in enumerate(zip(places, loads, strict=True))
        ),
        speeds=(
            speed(0.040, "amplified", now=now),
            speed(0.060, "neutral", now=now),
            speed(0.100, "quiet", now=now),
        ),
        loads=(Load(name="shaken shelf", points=(POINT,)),),
        sway=Sway(
            worst=0.00031,
            at_feet=0.00012,
            axis="y",
            stroke=0.012,
            speed=0.085,
            limit=0.0005,
            step=0.00017,
            usual=Band(low=0.00021, nominal=0.00026, high=0.00029),
        ),
        stability=Stability(tip_margin=4.3, slip_margin=2.7, gravity_factor=0.88, force_factor=2.2),
        avoid=(
            AvoidRange(low=0.0205, high=0.0262, source="belt tooth", mode="rocking about y"),
            AvoidRange(low=0.0238, high=0.0301, source="belt tooth", mode="rocking about x"),
            AvoidRange(low=0.172, high=0.214, source="turn", mode="sway in x"),
        ),
        isolates_from=0.052,
        curves=lambda: (curve("x", DRIVEN), curve("y", 12.4), curve("z", 9.7)),
        speed_map=speed_map(),
        creep=(
            CreepRow(label="a day", seconds=86400.0, sag=0.0037, tilt=0.0004),
            CreepRow(label="a month", seconds=2.6e6, sag=0.0041, tilt=0.0007),
            CreepRow(label="a year", seconds=3.15e7, sag=0.0044, tilt=0.0009),
        ),
        tilt=(0.0011, -0.0023),
        share=0.86,
        baseline="feet there now" if now else "ordinary rubber bumpers, 20 mm by 10 mm",
        heard_over=HeardOver(
            speed=np.array([0.02, 0.06, 0.3]),
            low=np.array([-1.0, -6.1, -12.0]),
            nominal=np.array([2.5, -2.7, -9.0]),
            high=np.array([4.8, 0.6, -5.0]),
        ),
        works_from=0.073,
    )


OTHER = Alternative(
    kind="foam",
    why="chosen",
    material="Sponge, grade 2",
    shape="rectangle",
    size=(0.040, 0.030, 0.010),
    layers=1,
    feet=4,
    heard=tuple(HEARD.values()),
    sway=0.00031,
    sway_limit=0.0005,
    where="specialist online",
    chosen=True,
)
TODAY = Alternative(
    kind="keep",
    why="what stands there now",
    material="",
    shape="",
    size=(0.0, 0.0, 0.0),
    layers=0,
    feet=4,
    heard=(Band(low=0.0, nominal=0.0, high=0.0),) * 3,
    sway=0.00009,
    sway_limit=0.0005,
    where="",
    chosen=False,
)


def checks(*, passing: bool = True) -> tuple[Check, ...]:
    return (
        Check(
            name="sway at the tool",
            value=0.00031 if passing else 0.00074,
            limit=0.0005,
            unit="m",
            passed=passing,
            remedy="sway",
        ),
        Check(name="slip margin", value=2.7, limit=1.5, unit="-", passed=True),
        Check(name="strain", value=0.34, limit=0.45, unit="-", passed=True),
    )


def cloud() -> Cloud:
    rng = np.random.default_rng(7)
    natural = rng.uniform(3.0, 28.0, 60_000)
    sway = 0.0021 * (4.0 / natural) ** 2 * rng.lognormal(0.0, 0.25, natural.size)
    quiet = -20 * np.log10(through(50.0 / natural, 1.0)) + rng.normal(0.0, 1.0, natural.size)
    passed = (sway < 0.0005) & (rng.random(natural.size) < 0.3)
    families = np.array(["rubber", "foam", "printed"])
    chosen = int(np.argmax(np.where(passed, quiet, -99.0)))
    return Cloud(
        gain_db=quiet,
        sway=sway,
        passed=passed,
        family=families[rng.integers(0, 3, natural.size)],
        chosen=chosen,
    )


def findings(*, passing: bool = True, searched: bool = True, name: str = "") -> Findings:
    return Findings(
        name=name or "Reading-room printer",
        slug="reading-room-printer",
        version="0.1.0",
        answer=(
            "Four feet on 40 × 30 × 10 mm blocks of sponge quieten 60 and 100 mm/s.",
            "At 40 mm/s the belt teeth still come through; print slow layers at 50 mm/s.",
        ),
        chosen=evaluation(),
        now=evaluation(now=False),
        checks=(*checks(passing=passing), *report_motors.checks(tilting=not passing)),
        ceiling_db=30.0,
        motors=report_motors.motors(tilting=not passing),
        tally=Tally(
            tried=60_000,
            rejected={"sway": 31_210, "strain": 9_875},
            passed=17_411,
            seconds=0.8,
            shut_out={"strain": ("foam",)},
            without={"strain": 3.5},
        )
        if searched
        else None,
        cloud=cloud() if searched else None,
        alternatives=(OTHER, TODAY) if searched else (),
        material="Sponge, grade 2",
        design=design() if searched else None,
        make=("4 cups and 4 soles, printed in PETG", "4 pads, 40 × 30 mm, cut from 10 mm sponge"),
        assumed=(Assumed(key="motion.stroke", value="1 to 100 mm", why="the usual range"),),
        warnings=("The spool sits off the middle: two feet carry a fifth more.",),
        sources=("Gent, 1958: hardness and modulus of rubber (from memory).",),
        cautions=("Slab: two people.",),
    )


@cache
def plots(*, searched: bool = True) -> Plots:
    """The charts of these findings, drawn once: no check is seen in them."""
    return plots_of(findings(searched=searched), COM_RANGE)
