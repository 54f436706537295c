"""Readings of a squash test with the curve that was fitted to them."""

from __future__ import annotations

from matplotlib.figure import Figure

from isolator.measuring.chance import NINE_OF_TEN
from isolator.measuring.squash_fit import Fit
from isolator.report.figures.figure import BLUE, ORANGE, PALE, PAPER, SOFT, TEXT, Style, alone, box

SIZE = (640.0, 440.0)


def squash_curve(fit: Fit, title: str) -> str:
    """Return the picture of a squash test as an SVG file: load over area against compression."""
    strain, stress = fit.curve
    band = NINE_OF_TEN * fit.error
    scale, unit = (1e-6, "MPa") if float(stress.max()) >= 1e6 else (1e-3, "kPa")

    def paint(figure: Figure) -> None:
        axes = figure.add_axes(box(78.0, 58.0, 24.0, 44.0, figure))
        low, high = (scale * stress * (1.0 + sign * band) for sign in (-1.0, 1.0))
        axes.fill_between(100 * strain, low, high, color=PALE, lw=0, label="nine of ten")
        axes.plot(100 * strain, scale * stress, color=BLUE, label=fit.law)
        for at, (used, squeezed, load) in enumerate(fit.dots, 1):
            style: Style = {"color": ORANGE} if used else {"color": SOFT, "mfc": "none"}
            way = "up" if len(load) < 2 or load[-1] > load[0] else "down"
            told = f"way {at}, {way}, {'fitted' if used else 'shown alone'}"
            axes.plot(100 * squeezed, scale * load, "o-", ms=5, lw=0.7, label=told, **style)
        axes.set_xlabel("compression [% of the height]")
        axes.set_ylabel(f"load over area [{unit}]")
        axes.set_title(title, loc="left", fontsize=TEXT)
        axes.set_ylim(bottom=0.0)
        axes.legend(frameon=False, fontsize=10, loc="upper left")

    return alone("squash", SIZE, paint, PAPER)
