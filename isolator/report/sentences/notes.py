"""Fixed sentences: what figures mean, what they do not promise, what a command warns of."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from isolator.design import Design
from isolator.design.beyond import beyond_frame
from isolator.design.phrases import millimetres
from isolator.reading.notes import Assumed

TOLD_BEYOND = 0.05e-3
"""What feet reach beyond a frame by less is not told [m]: nobody measures a frame so well."""

DBA = (
    "dB(A): loudness as the ear weighs it; a drop of 3 is plainly heard, one of 10 sounds half as "
    "loud, one of 20 a quarter. In brackets: where nine of ten printers like yours lie. It is what "
    "reaches the desk through the feet, with dampers, if any; fans and noise in the air stay."
)
NO_PROMISE = (
    "These are figures for the feet, not a promise of a room's dB. At home, 5 to 10 dB is the "
    "most one can believe on a desk that acts as a sounding board, 0 to 2 dB on a stone floor "
    "(common practice, no source). Fans, rattles and the noise that motors send straight into "
    "the air do not pass through the feet and stay as they are."
)
HEARD = (
    "What is told is a change, and only of what goes through the feet: every tone of the motors, "
    "weighted as the ear does (A-weighting). How loud the printer is, nobody knows. 3 dB(A) is "
    "plainly heard side by side, 10 dB(A) less sounds about half as loud. What motors send "
    "straight into the frame is changed by dampers under them alone: the whole lies between the "
    "two. What goes into the air, and what fans do, stays as it is."
)
OTHERS = (
    "Of each kind, and for each sway limit, the easiest of those within 1 dB(A) of the best. Take "
    "another with `isolator design BRIEF --pick KIND`, or change limits.sway. These come from the "
    "quick search: what is picked gets every check, and may come out in another size."
)
HELPS = (
    "On these feet, one thing at a time, mean over your speeds. Less current leaves less torque: "
    "see Motors. None of this touches dry bearings, loose panels or fans: oil, tighten and slow "
    "those down by themselves."
)
DESK = "A desk whose size is not given is taken as an endless plate."
RIPPLE = (
    "Which line is loudest on your motors is an estimate; how well the feet isolate each line "
    "does not depend on it."
)
BAND = (
    "A band holds nine of ten printers like yours: many were drawn at random over the scatter of "
    "material, belts and frame, of weights and of temperature. The middle value is that of the "
    "figures as told."
)
SOURCES: dict[str, str] = {
    "turn": "once a pulley turn, from run-out",
    "belt tooth": "each tooth that meets the pulley",
    "electrical": "each electrical cycle of the motor, from coil offset",
    "twice electrical": "twice a cycle, from unequal coils",
    "full step": "each full step, from the motor's detent",
    "microstep": "each microstep",
}
TORQUE = (
    "Torque is what the motor passes into the frame about its shaft, with the damper against "
    "bolted to the frame. The other columns are the force of all feet on a rigid floor, against "
    "rigid feet and bolted motors: with the damper alone, with the feet alone, with both. All in "
    "dB, nominal and (low to high); a minus is a tone made worse."
)
TURNED = (
    "As a move turns, a belt runs at any speed from nothing up, and its tones pass through every "
    "mode below their top frequency. So a tone is told as its energy's mean over directions, all "
    "of them or those that the brief names, and beside it the direction in which torque or floor "
    "gains least."
)
ESTIMATES = (
    "Estimates, from the figures of the brief and usual ones where it gives none: an aid to "
    "setting the drive, not a proof that no step is lost."
)
DRAWN = (
    "Cut along the shaft, to scale, with the belts pulling; the bracket stays where it is and so "
    "does the belt. How wide pulley and bracket are is not known here."
)
REDRAWN = "worked out again for the sheet as it was drawn, not searched for: no candidates are told"
NO_BRIEF = (
    "no report and no result: the brief of this sheet is not known; put the sheet back beside its "
    "manifest.json and brief.toml, or run `isolator check BRIEF` with feet.design naming this sheet"
)
BRIEF_CHANGED = (
    "the brief has been edited since: the report is of the brief as it was, kept as brief.toml"
)
OTHER_DAMPERS = (
    "the motors' dampers of the sheet are not those that the brief leads to: what is said of "
    "motors is of the brief's, what is drawn is of the sheet"
)
MOVED = "they stand at other places than the brief says: design again"


def level_rests_on(assumed: Sequence[Assumed]) -> str:
    """Return what level and tilt rest on where the centre of mass is assumed, else nothing."""
    for each in assumed:
        if each.key == "printer.center_of_mass":
            return (
                f"Level and tilt rest on a centre of mass that is assumed, at {each.value}: weigh "
                "the printer foot by foot (feet.weights) or balance it on a bar to know them."
            )
    return ""


def beyond(ceiling: float) -> str:
    """Return the loss [dB] from which on nothing is promised."""
    return (
        f"Beyond {max(ceiling, 0.0):.0f} dB nothing is promised of a single tone: there the frame "
        "itself bends, which is known too little."
    )


def above_100_hz(ceiling: float) -> str:
    """Return what the model leaves out above 100 Hz, and the loss [dB] up to which it promises."""
    return (
        "Above about 100 Hz frames and desks bend and pads carry waves, so real feet do worse than "
        f"the curve. {beyond(ceiling)}"
    )


def not_worked_out(why: str) -> str:
    """Return that a sheet was drawn without a report, and why."""
    return f"no report and no result: they cannot be worked out for this sheet: {why}"


def not_designed_from(file: Path) -> str:
    """Return that a design does not start from the feet of `file` that the brief names."""
    return (
        f"feet.design is not used here: these feet are new. The feet of {file} are judged by "
        "`isolator check` and drawn by `isolator draw`"
    )


def outside(design: Design | None) -> tuple[str, ...]:
    """Return that feet reach beyond the printer's frame, nothing where all lie under it."""
    beyond = 0.0 if design is None else beyond_frame(design)
    if beyond < TOLD_BEYOND:
        return ()
    on_rail = design is not None and any(foot.fastening.slot for foot in design.feet)
    mend = (  # an inset moves them along their rail alone
        "tell a rail further in with feet.rails"
        if on_rail
        else "set them further in with feet.inset or feet.positions"
    )
    return (
        f"feet reach {millimetres(beyond, 1)} beyond the printer's outside, where no frame lies on "
        f"them and they catch cables and knees: {mend}, or allow narrower ones alone with "
        "limits.foot_width",
    )


def cannot_draw(error: Exception) -> str:
    """Return that the nearest feet are such as cannot be drawn."""
    return f"the nearest feet cannot be drawn: {error}"


def no_font(letters: str) -> str:
    """Return that letters of a name cannot be written in PDF drawings."""
    return (
        f"no font of this machine has {' '.join(letters)}: boxes stand for them in drawings/*.pdf; "
        "install a font that has them and draw again, or open the SVG beside it"
    )
