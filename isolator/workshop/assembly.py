"""How everything goes together, step by step, in words; the pictures are taken from the solids."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from isolator.design import Design, Foot
from isolator.design.filaments import sold_as
from isolator.design.fill import foot_fill
from isolator.design.naming import letter
from isolator.design.phrases import drawn_pad
from isolator.workshop.attaching import fixed
from isolator.workshop.foot_steps import closed, late, padded, prepared
from isolator.workshop.motor_steps import bench_steps, motor_steps
from isolator.workshop.mount_steps import plated
from isolator.workshop.step import Step
from isolator.workshop.step_items import Feet

NEAR = 1e-3
"""A foot nearer to the middle than this stands neither left nor right [m]."""


def assembly_steps(design: Design, names: Mapping[str, str]) -> tuple[Step, ...]:
    """Return every step in its order, from the print bed to the first print.

    `names` gives each card's name in words by its id. What must cure comes before what stands on
    it, and what hides a screw after the screw. A design of nothing has no steps.
    """
    damped, spaced = design.motor_dampers, design.motor_spacers
    if not design.feet and not damped and not spaced:
        return ()
    hung = [feet for feet in alike(design.feet) if feet[0].build.hung]
    layer = design.print.layer
    slab = any(not foot.build.hung for foot in design.feet)
    return (
        _cut(design, names),
        *bench_steps(damped, names),
        *_each(hung, lambda feet: (*prepared(feet), *(() if late(feet) else _glued(feet, layer)))),
        *((_turned(),) if hung else ()),
        *_each(
            hung,
            lambda feet: (_placed(fixed(feet), feet), *(_glued(feet, layer) if late(feet) else ())),
        ),
        *(_slab(design) if slab else ()),
        *motor_steps(damped, spaced),
        _tried(design),
    )


def _glued(feet: Feet, layer: float) -> tuple[Step, ...]:
    return plated(feet, layer) if feet[0].ends is not None else (*closed(feet), *padded(feet))


def alike(feet: Sequence[Foot]) -> list[Feet]:
    """Return feet in groups that differ by their pads alone, in the order they come."""
    found: dict[tuple[object, ...], list[Foot]] = {}
    for foot in feet:
        key = (
            foot.kind,
            foot.attachment,
            foot.fixing,
            foot.bolt,
            foot.tube,
            foot.rod,
            len(foot.holes),
            foot.key > 0,
            foot.tread > 0,
        )
        found.setdefault(key, []).append(foot)
    return [tuple(each) for each in found.values()]


def places(feet: Sequence[Foot], every: Sequence[Foot]) -> str:
    """Return where feet stand: corners by name where no two of `every` share one.

    Else millimetres right and back of the middle.
    """
    corners = [_corner(at) for foot in every for at in foot.positions]
    named = len(set(corners)) == len(corners)
    return ", ".join(
        _corner(at) if named else f"({at[0] * 1e3:.0f}, {at[1] * 1e3:.0f})".replace("-", "−")
        for foot in feet
        for at in foot.positions
    )


def _corner(at: tuple[float, float]) -> str:
    across = "" if abs(at[0]) < NEAR else ("right" if at[0] > 0 else "left")
    along = "middle" if abs(at[1]) < NEAR else ("back" if at[1] > 0 else "front")
    return f"{along} {across or 'middle'}" if along != "middle" or not across else across


def _each(kinds: Sequence[Feet], steps: Callable[[Feet], tuple[Step, ...]]) -> tuple[Step, ...]:
    """Return the steps of every kind; where there are several each title says whose it is."""
    if len(kinds) < 2:
        return tuple(chain.from_iterable(steps(feet) for feet in kinds))
    return tuple(
        replace(step, title=f"{step.title}: {', '.join(foot.name for foot in feet)}")
        for feet in kinds
        for step in steps(feet)
    )


def _placed(step: Step, feet: Feet) -> Step:
    """Return a step with the words of which foot stands where, if that matters."""
    if len(feet) < 2:
        return step
    where = "; ".join(f"{letter(foot.name)} stands {places((foot,), feet)}" for foot in feet)
    return replace(step, words=(f"Each foot has its own place: {where}.", *step.words))


def _cut(design: Design, names: Mapping[str, str]) -> Step:
    """Return how parts are printed and pads are cut."""
    told: list[str] = []
    cut = [foot for foot in design.feet if not foot.pad.printed and foot.ends is None]
    balls = [foot for foot in cut if not foot.build.cut_pad]
    sheets = [foot for foot in cut if foot.build.cut_pad]
    stacked = len(design.motor_dampers) + len(design.motor_spacers) > 0
    prints = stacked or any(foot.build.hung for foot in design.feet) or _lips(design)
    if prints:
        told.append(f"Print the plates as they lie, without supports, {_solid(design)}.")
    if any(damper.kind.sheet and not damper.bought for damper in design.motor_dampers):
        told.append(
            "The dampers' plates are sheet metal: they are not among the prints. Send their DXF "
            "files to a shop that cuts sheet, with thickness, metal and number of pieces, and ask "
            "for deburred edges."
        )
    if any(foot.build.hung for foot in design.feet):
        told.append(
            "Begin with the plate that holds one whole foot (its file begins with first-foot): try "
            "all that goes into it, and hold it to the frame, before you print the rest."
        )
    told += [
        f"The printed foot{_named(foot, design.feet)} is its own pad: print it in "
        f"{sold_as(foot.pad.material)} with {foot_fill(foot, design.print).words}, typed into the "
        "slicer by hand."
        for foot in _hollow(design)
    ]
    laid = any(not (damper.cast or damper.bought) for damper in design.motor_dampers)
    if sheets or laid:
        told.append(
            "Print the templates' PDF files at 100 %, hold the scale bar of every sheet against a "
            "rule, lay sheets of one plan on each other cross on cross, and cut the pads; the "
            "cutting plan shows how they lie on the sheet."
        )
    if len(sheets) > 1:
        kinds = "; ".join(
            f"{letter(foot.name) or foot.name}: {_pad(foot, names)}" for foot in sheets
        )
        told.append(f"Mark every pad with its letter. {kinds}.")
    layers = max((foot.pad.layers for foot in sheets), default=1)
    if layers > 1:
        told.append(f"Glue {layers} layers to each pad, edges flush, and let them cure.")
    if balls:
        told.append(
            "Lay each ball into the printed saw guide on a flat table, its mould's seam level with "
            "the guide's upper face, and draw a wet blade flat across that face."
        )
    title = "Print and cut" if cut or laid else "Print"
    return Step(
        title=title if prints else "Cut",
        words=tuple(told),
        cautions=("knives",) if cut or laid else (),
    )


def _hollow(design: Design) -> list[Foot]:
    """Return the feet whose bodies are not printed solid."""
    return [
        foot
        for foot in design.feet
        if foot.build.soft_body and not foot_fill(foot, design.print).solid
    ]


def _solid(design: Design) -> str:
    feet = "" if not _hollow(design) else " but the printed feet"
    return f"every part solid (100 % infill){feet}"


def _pad(foot: Foot, names: Mapping[str, str]) -> str:
    return f"{len(foot.positions)} × {drawn_pad(foot.pad, names[foot.pad.material])}"


def _named(foot: Foot, every: Sequence[Foot]) -> str:
    return f" {letter(foot.name)}" if len(every) > 1 else ""


def _turned() -> Step:
    return Step(
        title="Turn the printer over",
        words=(
            "Take spool, print and anything loose off, tie the moving parts, and lay the printer "
            "on its side on a soft cloth. Take the old feet off.",
        ),
        cautions=("unplug", "heavy"),
    )


def _lips(design: Design) -> bool:
    return design.slab is not None and design.slab.lip > 0


def _slab(design: Design) -> tuple[Step, ...]:
    bare = [foot for foot in design.feet if not foot.build.hung]
    count = sum(len(foot.positions) for foot in bare)
    several = (
        f" Pads differ: {'; '.join(f'{letter(f.name)} {places((f,), bare)}' for f in bare)}."
        if len(bare) > 1
        else ""
    )
    glued = Step(
        title="Glue the pads under the slab",
        words=(
            "Lay the slab on its upper face on a soft cloth, brush and degrease it.",
            f"Mark the places by the slab's plan, which is seen from below.{several} Glue each pad "
            "on all over, and let it cure before the slab stands on it.",
        ),
        cautions=("slab", "glue"),
        owner="slab",
        view="pads",
        uses=(f"{count} × pad", "1 × slab"),
    )
    if not _lips(design):
        return (glued,)
    corners = Step(
        title="Glue the corners on",
        words=(
            "Turn the slab over onto its pads and set the printer in its place on it. Glue a "
            "printed corner over each of its corners, lip up and up to the frame: all four hold "
            "the printer, so that it cannot walk off. Corners with letters have their own places: "
            "B back, F front, L left, R right.",
        ),
        cautions=("slab", "glue"),
        owner="slab",
        view="lips",
        uses=("4 × corner",),
    )
    return glued, corners


def _tried(design: Design) -> Step:
    """Return the last step: set down, level, try."""
    feet, words = design.feet, []
    if feet:
        slab = design.slab is not None
        what = "Set the slab on its place and the printer on it" if slab else "Set the printer down"
        if design.slab is not None and design.slab.gap == 0:
            words.append("Unscrew the printer's own feet: its frame is to lie on the slab.")
        words.append(
            f"{what}, slack in every cable. Look that every foot carries and nothing but the feet "
            "touches the desk."
        )
    if any(foot.fastening.turned for foot in feet):
        words.append(
            "Level it: lift each corner a little, turn the foot in or out, and at the end lock "
            "its thin nut against the frame."
        )
    again = "After a day look at the level again: pads creep. " if feet else ""
    words.append(
        f"{again}Check belt path, homing, level and first layer, and stay with the first print."
    )
    return Step(
        title="Set it down and try it" if feet else "Try it",
        words=tuple(words),
        cautions=("heavy", "sways") if feet else (),
    )
