"""Pictures of assembly steps: what is there already pale, what is added in its colour, apart."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from geometry.assembly import COLOURS
from geometry.feet.bought import Bought, held, on_mount, screws
from geometry.finish.raster import Colour, View
from geometry.finish.scene import Scene
from geometry.finish.triangles import Mesh
from geometry.pictures.picture import COARSE_ANGLE, standing_alone
from geometry.solids.mesh import tessellate
from geometry.solids.part import Body, Part
from geometry.solids.verify import bounds
from isolator.design import Foot, PrintSettings

SIZE = (420, 330)  # [pixels]
CHORD = 0.15  # error in these pictures [mm]
PALE = 0.72  # share of white in what was there before
APART = 0.18  # between two bodies, in widths of the widest


class Added(NamedTuple):
    """What a step shows of one foot: roles of parts, and bought things."""

    there: tuple[str, ...]
    adds: tuple[str, ...]
    hardware: str
    """"screws" and what goes with them, all of it at a "whole" foot, the screw "standing" in the
    cap or "clamped" there, what is "held" in the cap, what screws plates to a "mount", or
    nothing."""


class _Group(NamedTuple):
    """What moves as one in a picture; an empty name was there before."""

    name: str
    role: str
    solids: list[Any]
    up: float


def step_scene(
    foot: Foot,
    parts: list[Part],
    settings: PrintSettings,
    added: Added,
    size: tuple[int, int] = SIZE,
) -> Scene:
    """Return one foot in a step, unloaded: new things in colour, numbered, each clear of
    what it goes to. Seen from below where something comes from there."""
    items: list[tuple[Mesh, Colour]] = []
    numbers: list[tuple[range, int]] = []
    names: list[str] = []
    for group in _groups(foot, parts, settings, added):
        meshes = [meshed(solid, (0.0, 0.0, group.up)) for solid in group.solids]
        if group.name:
            numbers.append((range(len(items), len(items) + len(meshes)), len(numbers) + 1))
            names.append(group.name)
        colour = COLOURS[group.role]
        items += [(mesh, colour if group.name else pale(colour)) for mesh in meshes]
    covering = "cover" in added.adds and added.hardware != "whole"
    below = covering or any(each.side < 0 for each in _bought(foot, settings, added))
    eye = View(azimuth=-60, elevation=-22 if below else 20)
    return Scene(items, eye, size, numbers, tuple(names))


def pale(colour: Colour) -> Colour:
    """Return the colour of what was there before a step."""
    red, green, blue = (PALE + (1.0 - PALE) * part for part in colour)
    return red, green, blue


def _groups(foot: Foot, parts: list[Part], settings: PrintSettings, added: Added) -> list[_Group]:
    """Return everything in a step's picture from the frame down, each as far off as it is shown."""
    shown = [
        body for body in standing_alone(foot, parts) if body.role in (*added.there, *added.adds)
    ]
    shown.sort(key=lambda body: (-round(bounds(body.solid)[5], 6), round(bounds(body.solid)[2], 6)))
    apart = APART * max(max(_sides(body)) for body in shown)
    words = {"pad": foot.build.pad, "foot": "flexible body"}
    bodies: list[_Group] = []
    lowest = down = 0.0
    if added.hardware == "whole":
        bodies, lowest = _whole(foot, settings, shown)
    for number, body in enumerate(shown if not bodies else ()):
        low, top = bounds(body.solid)[2::3]
        fresh = body.role in added.adds
        # what is added hangs clear of what is above it; what stood together before stays so
        if number and (fresh or shown[number - 1].role in added.adds):
            down = max(down, top - lowest + apart)
        lowest = min(lowest, low - down) if number else low
        name = words.get(body.role, body.role) if fresh else ""
        bodies.append(_Group(name, body.role, [body.solid], -down))
    over = bounds(shown[0].solid)[5]
    above: list[_Group] = []
    under: list[_Group] = []
    for each in reversed(_bought(foot, settings, added)):
        low = min(bounds(solid)[2] for solid in each.solids)
        top = max(bounds(solid)[5] for solid in each.solids)
        if each.side > 0:
            by = over + apart - low
            over = top + by
            above.insert(0, _Group(each.name, "nut", each.solids, by))
            continue
        # beside the foot a screw needs to clear the flange alone
        beside = _flange(foot) > 0 and added.hardware != "mount"
        clear = bounds(shown[0].solid)[5] - _flange(foot) if beside else lowest
        under.append(_Group(each.name, "screw", each.solids, clear - apart - top))
    return [*above, *bodies, *under]


def _flange(foot: Foot) -> float:
    """Return how thick the flange is that screws go through [mm], 0 where they go elsewhere."""
    return foot.cap * 1e3 if foot.fastening.flanged else 0.0


def _whole(foot: Foot, settings: PrintSettings, shown: list[Body]) -> tuple[list[_Group], float]:
    """Return a foot as it comes from the bench, what stands in it included; a key lies over it."""
    inside = [each for each in screws(foot, settings) if _is_in(foot, each)]
    inside += on_mount(foot, settings)
    one = [body for body in shown if body.role != "key"]
    solids = [body.solid for body in one] + [solid for each in inside for solid in each.solids]
    whole = _Group("foot", one[0].role, solids, 0.0)
    keys = [
        _Group("key", body.role, [body.solid], APART * max(_sides(body)))
        for body in shown
        if body.role == "key"
    ]
    return [*keys, whole], min(bounds(body.solid)[2] for body in one)


def _is_in(foot: Foot, each: Bought) -> bool:
    """Return whether something bought is in a foot before it comes to the frame."""
    if foot.fastening.flanged or foot.from_above:
        return False
    return each.side < 0 or each.name == "washer and nut"


def _bought(foot: Foot, settings: PrintSettings, added: Added) -> list[Bought]:
    if added.hardware == "held":
        return held(foot, settings)
    if added.hardware == "mount":
        return on_mount(foot, settings)
    found = screws(foot, settings) if added.hardware else []
    if added.hardware == "whole":
        return [each for each in found if not _is_in(foot, each)]
    if added.hardware == "standing":
        return [each for each in found if each.side < 0]
    if added.hardware == "clamped":
        return [each for each in found if _is_in(foot, each)]
    return found


def meshed(solid: Any, by: tuple[float, float, float]) -> Mesh:
    """Return the mesh of a solid moved `by` [mm], as fine as these pictures need it."""
    mesh = tessellate(solid, CHORD, COARSE_ANGLE)
    return Mesh(vertices=mesh.vertices + np.array(by), triangles=mesh.triangles)


def _sides(body: Body) -> tuple[float, float]:
    low_x, low_y, _, high_x, high_y, _ = bounds(body.solid)
    return high_x - low_x, high_y - low_y
