"""The materials that ready-made mounts and bought dampers of data sheets stand for."""

from __future__ import annotations

import math

import numpy as np

from isolator.cards.card import Figure, Kind, Material, MountSheet
from isolator.cards.supply import Supply
from isolator.design.ends import ReadyMade
from isolator.physics.rubber.bonded import compression_ratio, shear_ratio, tilt_ratio

SHEET, GUESS = "data-sheet", "estimate"
SOURCES = (
    (SHEET, "The mount's data sheet, as the brief tells it"),
    (GUESS, "What is usual of natural rubber, as the sheet does not tell it (estimated)"),
)
TOLERANCE = 1.2
"""×/÷ on a mount's stiffness against its data sheet; common practice, no source."""


def mount_material(
    ident: str,
    name: str,
    size: ReadyMade,
    points: tuple[tuple[float, ...], tuple[float, ...]],
    *,
    across: float,
    highest: float,
    loss: tuple[float, bool],
    ratio: tuple[float, bool],
    found: str,
) -> Material:
    """Return a mount as a material.

    `points` are its loads [N] and the deflections under them [m], both rising from above 0;
    `across` [N/m] its stiffness sideways, 0 where it is not told, `highest` [N] what it may carry.
    `loss` and `ratio` are its loss factor and dynamic over static stiffness, each with whether its
    sheet tells it, `found` where it is got. What a sheet never tells, tilt and twist, follows from
    the stiffness along its axis as in a bonded cylinder of its size, and so does `across` where it
    is not told.
    """
    loads = np.array([0.0, *points[0]])
    strain = np.array([0.0, *points[1]]) / size.rubber
    along = loads[1] / (strain[1] * size.rubber)
    cylinder = ("disc", size.diameter, 0.0, size.rubber)
    bulging, area = float(compression_ratio(*cylinder)), math.pi / 4.0 * size.diameter**2
    sideways = float(shear_ratio(*cylinder)[0]) / 3.0 / bulging * along
    # second moment over area of a disc: diameter² / 16, its polar one twice that
    tilt = along * float(tilt_ratio(*cylinder)[0]) / bulging * size.diameter**2 / 16.0
    twist = along / 3.0 / bulging * size.diameter**2 / 8.0
    return Material(
        id=ident,
        name=name,
        family="rubber",
        note="Known by its data sheet.",
        loss_factor=_figure(loss[0], 1.3 if loss[1] else 1.6, told=loss[1]),
        dynamic_ratio=_figure(ratio[0], 1.2 if ratio[1] else 1.3, told=ratio[1]),
        reference_frequency=10.0,
        creep=_figure(0.05, 1.5),
        temperature=_figure(-0.001, 2.0),
        strain_limit=_figure(float(np.interp(highest, loads, strain)), 1.0, told=True),
        density=_figure(1100.0, 1.1),
        supply=Supply(found=found, kind="published", source=SHEET),
        stiffness_spread=TOLERANCE,
        sources=SOURCES,
        mount=MountSheet(
            strain=tuple(strain.tolist()),
            load=tuple(loads.tolist()),
            across=across if across > 0.0 else sideways,
            tilt=tilt,
            twist=twist,
            area=area,
        ),
    )


def damper_material(
    ident: str,
    name: str,
    *,
    spread: float,
    loss: tuple[float, float, bool],
    ratio: tuple[float, bool],
    conductivity: float | None,
    found: str,
) -> Material:
    """Return the rubber of a bought motor damper as a material.

    `spread` is ×/÷ on its stiffness, `loss` its loss factor, ×/÷ on that and whether its sheet
    tells it, `ratio` and `found` as in `mount_material`, `conductivity` [W/(m·K)] None where it is
    not told. Creep, temperature and strain are as of natural rubber.
    """
    return Material(
        id=ident,
        name=name,
        family="rubber",
        note="Known by its data sheet.",
        loss_factor=_figure(loss[0], loss[1], told=loss[2]),
        dynamic_ratio=_figure(ratio[0], 1.2 if ratio[1] else 1.3, told=ratio[1]),
        reference_frequency=10.0,
        creep=_figure(0.05, 1.5),
        temperature=_figure(-0.001, 2.0),
        strain_limit=_figure(0.15, 1.3),
        density=_figure(1100.0, 1.1),
        conductivity=None if conductivity is None else _figure(conductivity, 1.3, told=True),
        supply=Supply(found=found, kind="published", source=SHEET),
        stiffness_spread=spread,
        sources=SOURCES,
    )


def _figure(value: float, spread: float, *, told: bool = False) -> Figure:
    kind: Kind = "published" if told else "estimated"
    source = SHEET if told else GUESS
    return Figure(value=value, spread=spread, kind=kind, source=source, conditions="")
