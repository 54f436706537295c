"""Parts sliced as they lie, by a program of others; skipped where that is not installed."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections import defaultdict
from dataclasses import replace

import pytest
from sheets import damper, design, foot, spacer

from geometry.draw import draw
from geometry.formats.mesh_files import stl_bytes
from geometry.solids.mesh import tessellate

COMMAND = shutil.which("slic3r")
KIT = design(
    foot("cup", "rectangle", "tube-end", "usual"),
    replace(foot("printed", "ring", "adhesive", "usual"), name="soft"),
    dampers=(damper(shape="pads"),),
    spacers=(spacer("other"),),
)
SET = (
    *("--nozzle-diameter", "0.4", "--filament-diameter", "1.75"),
    *("--fill-density", "100%", "--fill-pattern", "rectilinear", "--skirts", "0"),
)

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(COMMAND is None, reason="needs the command slic3r"),
]


def sliced(part, folder) -> tuple[float, str]:
    """Return the filament that a part takes, printed solid [mm³], and what the slicer said."""
    model, out = folder / f"{part.name}.stl", folder / f"{part.name}.gcode"
    model.write_bytes(stl_bytes(tessellate(part.solid), part.name))
    layer = str(part.layer or KIT.print.layer * 1e3)
    heights = ("--layer-height", layer, "--first-layer-height", layer)
    ran = subprocess.run(
        [str(COMMAND), "--no-gui", *SET, *heights, "-o", str(out), str(model)],
        capture_output=True,
        text=True,
        timeout=120,
        check=True,
    )
    length = re.search(r"filament used = ([\d.]+)mm", out.read_text(encoding="utf-8"))
    assert length is not None
    return float(length[1]) * 1.75**2 * 3.14159265 / 4.0, ran.stdout + ran.stderr


def test_parts_slice_without_a_word_and_take_the_filament_of_the_list(tmp_path) -> None:
    took, listed = defaultdict[str, float](float), defaultdict[str, float](float)
    for part in draw(KIT):
        volume, said = sliced(part, tmp_path)
        assert not re.search(r"warn|manifold|repair|error|support", said, re.IGNORECASE), said
        took[part.material] += part.quantity * volume
        listed[part.material] += part.quantity * part.volume
        # small parts are laid in few whole lines
        assert volume == pytest.approx(part.volume, rel=0.1), part.name
    assert dict(took) == pytest.approx(dict(listed), rel=0.05)
