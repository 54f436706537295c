"""Every tone at every speed asked about: its frequency, transmissibility and gain."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Group

from isolator.report.sentences import numbers, speeds
from isolator.report.terminal.tables import table
from isolator.vibration.results import Speed

HEADS = ("speed", "tone", "direction", "Hz", "T", "dB less", "worst direction")


def tones_table(told: Sequence[Speed], ceiling: float) -> Group:
    """Return the tones of the speeds asked about, motors' lines first; nothing beyond `ceiling`
    [dB] is promised."""
    rows = []
    for speed in told:
        # a speed is told once, beside its first tone
        lead = [numbers.readable(speed.speed, "m/s"), *[""] * (len(speed.lines) - 1)]
        for name, line in zip(lead, speed.lines, strict=True):
            rows.append(
                (
                    name,
                    line.source,
                    speeds.direction(line),
                    numbers.number(line.frequency),
                    numbers.ratio(line.transmissibility, ceiling),
                    numbers.decibel_band(line.insertion_loss, ceiling),
                    speeds.worst_words(line),
                )
            )
    return table("Tones: T and dB less than on rigid feet", HEADS, "rlrrrll", rows)
