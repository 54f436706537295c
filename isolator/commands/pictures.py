"""Pictures of what was drawn, for the report."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from isolator.brief.metal import Strip
from isolator.commands.progress import Progress, silent
from isolator.design import Design
from isolator.report.page.parts import (
    CORNER_PICTURE,
    CUT_PICTURE,
    DAMPER_PICTURE,
    FOOT_PICTURE,
    SECTION_PICTURE,
    STEP_PICTURE,
    Picture,
)
from isolator.report.sentences import parts as parts_words
from isolator.workshop.step import Step


def pictures_of(
    drawing: Design,
    parts: list[Any],
    steps: Sequence[Step] = (),
    metal: Sequence[Strip] = (),
    progress: Progress = silent,
) -> dict[str, Picture]:
    """Render the feet in place, a foot cut open, a damper pulled apart, every part, every step.

    `metal` is what of the frame feet are fixed to. `progress` is told every step and part.
    """
    from geometry.pictures.corner import corner_picture
    from geometry.pictures.exploded import exploded_order, exploded_picture
    from geometry.pictures.exploded_foot import foot_exploded_order, foot_exploded_picture
    from geometry.pictures.picture import assembly_picture, cut_picture, part_picture
    from geometry.pictures.section_drawing import section_svg

    found: dict[str, Picture] = {}
    # a bare pad shows nothing that its template does not
    for foot in [foot for foot in drawing.feet[:1] if foot.build.shows]:
        if foot.build.glued_faces > 1:
            found[SECTION_PICTURE] = Picture(
                title="The foot cut open",
                caption=parts_words.SECTION,
                mime="image/svg+xml",
                data=section_svg(foot, parts).encode("utf-8"),
            )
        caption, data = parts_words.CUT_OPEN.format(foot.build.shows), cut_picture(foot, parts)
        found[CUT_PICTURE] = _png("The foot cut open, as it looks", caption, data)
        order = parts_words.numbered(foot_exploded_order(foot, parts))
        caption = parts_words.PULLED_APART.format(order)
        data = foot_exploded_picture(foot, parts)
        found[FOOT_PICTURE] = _png("One foot pulled apart", caption, data)
    if drawing.feet:
        data = assembly_picture(drawing, parts)
        found["assembly"] = _png("The feet in place", parts_words.IN_PLACE, data)
        strips = [(each.left, each.right, each.front, each.back) for each in metal]
        data = corner_picture(drawing, parts, strips)
        found[CORNER_PICTURE] = _png("A foot in its place", parts_words.CORNER, data)
    for damper in drawing.motor_dampers[:1]:
        caption = parts_words.numbered(exploded_order(damper, drawing.print))
        data = exploded_picture(damper, drawing.print)
        found[DAMPER_PICTURE] = _png("The motor's damper, pulled apart", caption, data)
    shown = [(number, step) for number, step in enumerate(steps, 1) if step.pictured]
    total = len(shown) + len(parts)
    for done, (number, step) in enumerate(shown):
        progress(f"taking a picture of step {number}", done, total)
        found[f"{STEP_PICTURE}{number}"] = _step(drawing, parts, step)
    for done, part in enumerate(parts, len(shown)):
        progress(f"taking a picture of {part.name}", done, total)
        caption = f"{part.quantity} × {part.material}. {part.orientation}"
        found[part.name] = _png(part.name, caption, part_picture(part))
    return found


def _png(title: str, caption: str, data: bytes) -> Picture:
    return Picture(title=title, caption=caption, mime="image/png", data=data)


def _step(drawing: Design, parts: list[Any], step: Step) -> Picture:
    """Render one step of assembly: of a foot, a motor or the slab."""
    from geometry.pictures.damper_steps import damper_step_order, damper_step_picture
    from geometry.pictures.slab_steps import slab_step_order, slab_step_picture
    from geometry.pictures.step_pictures import Added, step_order, step_picture

    feet = {foot.name: foot for foot in drawing.feet}
    dampers = {damper.name: damper for damper in drawing.motor_dampers}
    if step.owner == "slab" and step.view:
        order, data = slab_step_order(step.view), slab_step_picture(drawing, step.view)
    elif step.view:
        damper = dampers[step.owner]
        order = damper_step_order(damper, drawing.print, step.view)
        data = damper_step_picture(damper, drawing.print, step.view)
    else:
        foot, added = feet[step.owner], Added(step.there, step.adds, step.hardware)
        order = step_order(foot, parts, drawing.print, added)
        data = step_picture(foot, parts, drawing.print, added)
    return _png(step.title, parts_words.numbered(order), data)
