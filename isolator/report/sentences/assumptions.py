"""What the model takes for granted: every number is read from the constant that it speaks of."""

from __future__ import annotations

from isolator.cards.pad_law import BUCKLING
from isolator.feet.checks import LEVEL
from isolator.feet.ranking import EQUAL_DB, SHORT_PRICE
from isolator.feet.sizing import STOP_OVER_LIMIT
from isolator.motors.heat import POWER_SPREAD
from isolator.motors.shaft import REACH_MARGIN
from isolator.physics.drive.heat import CONVECTION_SCATTER, FREE_CONVECTION
from isolator.reading.notes import Assumed
from isolator.vibration.drives import BELT_LOSS, MAGNETIC_LOSS
from isolator.vibration.own_feet import HALF_BONDED


def _share(value: float, of: str = "") -> str:
    """Return a share in words.

    >>> _share(0.5, " of"), _share(0.4, " of")
    ('half', '40 % of')
    """
    return "half" if value == 0.5 else f"{100 * value:.0f} %{of}"


MODEL = tuple(
    Assumed(key=f"model: {key}", value=value, why=why)
    for key, value, why in (
        ("tool", "in the middle of the frame", "where it works moves the push only a little"),
        ("gantry", "moves along y with the tool", "on a moving bed it carries the tool still"),
        (
            "ripple",
            "anywhere in its estimated range, both motors alike",
            "which line is heard most depends on it; a line's own loss does not",
        ),
        ("loss factor", "the least of its spread at both ends of the band", "damps least there"),
        (
            "desk",
            "a plate, endless where its size is not given or its modes overlap",
            "thin, the same in all directions, stiff in its own plane",
        ),
        ("feet now", f"{_share(HALF_BONDED)} bonded unless said", "bumpers stand by friction"),
        ("given feet", "share weight by their dynamic stiffness", "no static one is given"),
        (
            "pads",
            f"at most {_share(BUCKLING, ' of')} the load they buckle at",
            "common practice, no source",
        ),
        (
            "hard stop",
            f"at {STOP_OVER_LIMIT:g} times the card's strain limit",
            "common practice, no source",
        ),
        ("level", f"{LEVEL * 1e3:g} mm/m after a year", "convention, no source"),
        (
            "ranking",
            f"feet within {EQUAL_DB:g} dB(A) of the best are equal, then the easiest; each dB(A) "
            f"short at a speed costs {SHORT_PRICE:g}",
            "convention, no source",
        ),
        (
            "heard",
            "every line of the motors A-weighted, in the middle of its estimated range with a band",
            "a change against the same printer before; levels are not known",
        ),
        (
            "dampers",
            "judged by what is heard through the motor's bracket and through the feet, at every "
            "speed, all lines and directions",
            "how much goes which way is not known; tones in dB are of a frame that stands still",
        ),
        (
            "a motor's bracket",
            "sits on a panel as of 1.5 mm of steel, endless, which gives way and radiates",
            "how much of a damper's gain lies at high tones hangs on it; of no tone is more taken "
            "than is promised",
        ),
        ("motor", "a uniform box about its shaft", "its rotor is a body of its own in it"),
        (
            "drive",
            f"loss factor {MAGNETIC_LOSS:g} of the rotor's field, {BELT_LOSS:g} of the belt",
            "estimated",
        ),
        (
            "belts",
            "both strands alike, pull across the shaft's axis",
            "as where the tool is as far along the belt either way; a motor that shifts under its "
            "pulley lengthens the loop, which pulls it back",
        ),
        (
            "heat",
            f"{FREE_CONVECTION:g} W/(m²·K) from case and bracket, no iron loss",
            f"from memory; ±{100 * CONVECTION_SCATTER:.0f} %, the motor's heat times or over "
            f"{POWER_SPREAD:g}; checks go by the warm end of nine in ten",
        ),
        (
            "shaft",
            f"{REACH_MARGIN * 1e3:g} mm more of it in the pulley than its set screws need",
            "for what rubber, prints and pulley are off; common practice, no source",
        ),
    )
)
"""What the model takes for granted, told with every result."""
