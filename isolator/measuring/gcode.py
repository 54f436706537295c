"""Test moves as G-code: words of RS-274 as printers take them, and nothing that heats."""

from __future__ import annotations

from collections.abc import Iterator

from isolator.measuring.moves import LIFT, LIFT_SPEED, TRAVEL, Move, Moves, Point

WORDS = ("G0", "G1", "G4", "G21", "G28", "G90", "M84")
"""All commands that a file of test moves holds. Of G4 the word P counts milliseconds, as printers
take it."""


def gcode_lines(moves: Moves) -> Iterator[str]:
    """Yield the commands, one a line: units, homing, lift, the moves, motors off."""
    yield "G21"
    yield "G90"
    yield "G28"
    yield f"G1 Z{_millimetres(LIFT)} F{_feed(LIFT_SPEED)}"
    yield _line(moves.begin, TRAVEL)
    for command in moves.commands:
        if isinstance(command, Move):
            yield _line(command.to, command.speed)
        else:
            yield f"G4 P{round(command.seconds * 1e3)}"
    yield "M84"


def _line(to: Point, speed: float) -> str:
    return f"G1 X{_millimetres(to.x)} Y{_millimetres(to.y)} F{_feed(speed)}"


def _millimetres(length: float) -> str:
    """Return a length to the micrometre.

    >>> _millimetres(0.0125), _millimetres(-1e-12)
    ('12.500', '0.000')
    """
    return f"{round(length * 1e3, 3) + 0.0:.3f}"


def _feed(speed: float) -> str:
    """Return a speed in mm a minute.

    >>> _feed(0.06), _feed(0.0125)
    ('3600', '750')
    """
    return f"{speed * 6e4:.6g}"
