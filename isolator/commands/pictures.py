"""Pictures of what was drawn, for the report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from isolator.brief.metal import Strip
from isolator.commands.beside import Begin, here
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

if TYPE_CHECKING:
    from geometry.finish.scene import Scene


class Shown(NamedTuple):
    """What a picture of the report shows: a scene, or a drawing as SVG."""

    title: str
    caption: str
    drawn: Scene | str


def developed(shown: Shown) -> Picture:
    """Return the picture of what is shown; the drawing kernel is not needed."""
    if isinstance(shown.drawn, str):
        mime, data = "image/svg+xml", shown.drawn.encode("utf-8")
    else:
        mime, data = "image/png", shown.drawn.png()
    return Picture(title=shown.title, caption=shown.caption, mime=mime, data=data)


def pictures_of(shown: Mapping[str, Shown], begin: Begin = here) -> dict[str, Picture]:
    """Return all pictures by name, taken here and by what `begin` begins."""
    taken = begin.each(developed, list(shown.values()))
    return dict(zip(shown, taken, strict=True))


def scenes_of(
    drawing: Design,
    parts: list[Any],
    steps: Sequence[Step] = (),
    metal: Sequence[Strip] = (),
    progress: Progress = silent,
) -> dict[str, Shown]:
    """Set up the feet in place, a foot cut open, a damper pulled apart, every part, every step.

    `metal` is what of the frame feet are fixed to. `progress` is told every step and part.
    """
    from geometry.pictures.corner import corner_scene
    from geometry.pictures.exploded import exploded_scene
    from geometry.pictures.exploded_foot import foot_exploded_scene
    from geometry.pictures.picture import assembly_scene, cut_scene, part_scene
    from geometry.pictures.section_drawing import section_svg

    found: dict[str, Shown] = {}
    # a bare pad shows nothing that its template does not
    for foot in [foot for foot in drawing.feet[:1] if foot.build.shows]:
        if foot.build.glued_faces > 1:
            drawn = section_svg(foot, parts)
            found[SECTION_PICTURE] = Shown("The foot cut open", parts_words.SECTION, drawn)
        caption = parts_words.CUT_OPEN.format(foot.build.shows)
        cut = cut_scene(foot, parts)
        found[CUT_PICTURE] = Shown("The foot cut open, as it looks", caption, cut)
        apart = foot_exploded_scene(foot, parts)
        caption = parts_words.PULLED_APART.format(parts_words.numbered(apart.names))
        found[FOOT_PICTURE] = Shown("One foot pulled apart", caption, apart)
    if drawing.feet:
        scene = assembly_scene(drawing, parts)
        found["assembly"] = Shown("The feet in place", parts_words.IN_PLACE, scene)
        strips = [(each.left, each.right, each.front, each.back) for each in metal]
        corner = corner_scene(drawing, parts, strips)
        found[CORNER_PICTURE] = Shown("A foot in its place", parts_words.CORNER, corner)
    for damper in drawing.motor_dampers[:1]:
        apart = exploded_scene(damper, drawing.print)
        caption = parts_words.numbered(apart.names)
        found[DAMPER_PICTURE] = Shown("The motor's damper, pulled apart", caption, apart)
    pictured = [(number, step) for number, step in enumerate(steps, 1) if step.pictured]
    total = len(pictured) + len(parts)
    for done, (number, step) in enumerate(pictured):
        progress(f"taking a picture of step {number}", done, total)
        found[f"{STEP_PICTURE}{number}"] = _step(drawing, parts, step)
    for done, part in enumerate(parts, len(pictured)):
        progress(f"taking a picture of {part.name}", done, total)
        caption = f"{part.quantity} × {part.material}; {part.orientation}"
        found[part.name] = Shown(part.name, caption, part_scene(part))
    return found


def _step(drawing: Design, parts: list[Any], step: Step) -> Shown:
    """Set up one step of assembly: of a foot, a motor or the slab."""
    from geometry.pictures.damper_steps import damper_step_scene
    from geometry.pictures.slab_steps import slab_step_scene
    from geometry.pictures.step_pictures import Added, step_scene

    feet = {foot.name: foot for foot in drawing.feet}
    dampers = {damper.name: damper for damper in drawing.motor_dampers}
    if step.owner == "slab" and step.view:
        scene = slab_step_scene(drawing, step.view)
    elif step.view:
        scene = damper_step_scene(dampers[step.owner], drawing.print, step.view)
    else:
        added = Added(step.there, step.adds, step.hardware)
        scene = step_scene(feet[step.owner], parts, drawing.print, added)
    return Shown(step.title, parts_words.numbered(scene.names), scene)
