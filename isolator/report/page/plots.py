"""All drawings of a report: the charts of the answer and those of each motor."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup

from isolator.brief.metal import Strip
from isolator.report.figures.cloud import quiet_against_sway
from isolator.report.figures.heard_over import heard_over
from isolator.report.figures.motor_figures import motor_figures
from isolator.report.figures.plan import feet_plan
from isolator.report.figures.speed_map import speed_map
from isolator.report.figures.transmissibility import transmissibility
from isolator.report.findings import Findings


class Plots(NamedTuple):
    """Drawings as SVG, by name; those of motors in the order of the findings."""

    charts: dict[str, Markup]
    motors: list[dict[str, Markup]]


def plots_of(
    findings: Findings,
    com_range: Sequence[tuple[float, float]] = (),
    metal: Sequence[Strip] = (),
) -> Plots:
    """Draw what there are data for; every figure escapes its own text.

    `com_range` holds the places [m] of the centre of mass as extras come and go; `metal` is what
    of the frame feet are fixed to.
    """
    chosen = findings.chosen
    drawn: dict[str, str] = {}
    if chosen.heard_over is not None and chosen.heard_over.speed.size > 1:
        drawn["heard_over"] = heard_over(chosen, chosen.heard_over)
    if curves := chosen.curves():
        drawn["transmissibility"] = transmissibility(curves, chosen.speeds, findings.ceiling_db)
    if chosen.speed_map.sources and chosen.speed_map.speed.size > 1:
        drawn["speed_map"] = speed_map(chosen)
    if findings.cloud is not None and findings.cloud.sway.size:
        drawn["cloud"] = quiet_against_sway(findings.cloud, chosen.sway.limit)
    if chosen.feet:
        drawn["plan"] = feet_plan(chosen.feet, findings.design, com_range, metal)
    return Plots({key: Markup(svg) for key, svg in drawn.items()}, motor_figures(findings))
