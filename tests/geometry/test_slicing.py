"""Parts sliced as they lie, by a program of others; skipped where that is not installed."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import replace

import pytest
from sheets import PRINT, damper, design, foot, spacer
from test_ball_foot import ball_foot
from test_buffer_foot import buffer_foot
from test_slab import cornered

from geometry.assembly import COLOURS
from geometry.coupon.coupon import coupon_parts
from geometry.draw import draw
from geometry.formats.mesh_files import stl_bytes
from geometry.solids.mesh import tessellate
from geometry.solids.part import Part
from geometry.solids.strands import laid
from isolator.design import Foot, least_cap

COMMAND = shutil.which("slic3r")
SET = (
    *("--nozzle-diameter", "0.4", "--filament-diameter", "1.75"),
    *("--fill-pattern", "rectilinear", "--skirts", "0"),
)

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(COMMAND is None, reason="needs the command slic3r"),
]


def sliced(part: Part, folder) -> tuple[float, str]:
    """Return the filament that a part takes as it is to be filled [mm³], and what was said."""
    model, out = folder / f"{part.name}.stl", folder / f"{part.name}.gcode"
    model.write_bytes(stl_bytes(tessellate(part.solid), part.name))
    layer = str(part.layer or PRINT.layer * 1e3)
    heights = ("--layer-height", layer, "--first-layer-height", layer)
    fill, typed = part.fill, {"fill-density": f"{100 * part.fill.infill:g}%"}
    if not fill.solid:
        typed |= {"bottom-solid-layers": f"{fill.bottom}", "top-solid-layers": f"{fill.top}"}
        # as many lines as are told, so wide that they make the wall
        wide = fill.wall * 1e3 / fill.walls
        typed |= {"perimeters": f"{fill.walls}", "perimeter-extrusion-width": f"{wide:g}"}
    filled = [word for key, value in typed.items() for word in (f"--{key}", value)]
    ran = subprocess.run(
        [str(COMMAND), "--no-gui", *SET, *heights, *filled, "-o", str(out), str(model)],
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    length = re.search(r"filament used = ([\d.]+)mm", out.read_text(encoding="utf-8"))
    assert length is not None
    return float(length[1]) * 1.75**2 * 3.14159265 / 4.0, ran.stdout + ran.stderr


def keyed() -> Foot:
    one = foot("cup", "rectangle", "slot-30", "usual")
    return replace(one, key=0.0082, cap=least_cap("slot-30", 0.0, 0.0, PRINT.layer, key=0.0082))


def filled() -> Foot:
    one = foot("printed", "ring", "adhesive", "usual")
    pad = replace(one.pad, infill=0.25, pattern="gyroid", wall=0.0009)
    return replace(one, pad=pad)


def every_kind() -> list[Part]:
    """Return what is printed, of every role at least once: thin ones and small ones twice."""
    feet = (
        foot("cup", "rectangle", "tube-end", "small"),
        foot("cup", "disc", "rod-end", "small"),
        foot("cup", "ring", "tapped-end", "usual"),
        foot("printed", "disc", "bolt", "small"),
        ball_foot("adhesive", "usual"),
        keyed(),
        filled(),
        buffer_foot("slot-20", "usual", ("thread", "stud")),
    )
    named = [replace(each, name=f"foot {n}", tread=0.0) for n, each in enumerate(feet)]
    named[2] = replace(named[2], tread=0.0016)
    small = damper(14, "pads", wedge=True)
    rear = replace(damper(wedge=True), name="rear", cast=True, nose=0.0079, nose_height=0.0028)
    dampers = (
        replace(damper(shape="pads"), gauge=True),
        rear,
        replace(small, name="x", cast=True, wedge=0.0022, wedge_angle=0.02),
    )
    kit = draw(design(*named, dampers=dampers, spacers=(spacer("other"),)))
    return [*kit, *draw(cornered()), *coupon_parts(PRINT)]


def test_every_kind_of_part_slices_without_a_word_and_takes_the_filament_of_the_list(tmp_path):
    parts = every_kind()
    bought = {"pad", "slab", "rubber", "motor", "screw", "nut", "terminal", "bracket", "pulley"}
    assert {part.role for part in parts} == set(COLOURS) - bought
    off = {}
    for part in parts:
        volume, said = sliced(part, tmp_path)
        assert not re.search(r"warn|manifold|repair|error|support", said, re.IGNORECASE), said
        off[part.name] = round(volume / laid(part, PRINT.nozzle * 1e3) - 1, 3)
    assert {name: by for name, by in off.items() if abs(by) > 0.05} == {}
