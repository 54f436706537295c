"""Every attachment × kind of foot × size as files, read back by readers that did not write them."""

from __future__ import annotations

from itertools import cycle

import numpy as np
import pytest
import trimesh
from pairwise import spread
from readers import step_products
from sheets import PRINT, SIZES, design, drawn

from geometry.formats.plates import BESIDE
from geometry.part_files import write_parts
from geometry.solids.mesh import TOLERANCE
from geometry.solids.verify import bounds
from isolator.design import ATTACHMENTS, SHAPES

# shapes go round, so that each meets each attachment in one size or another
WRITTEN = [
    (kind, shape, attachment, size)
    for (kind, attachment, size), shape in zip(
        (
            (kind, attachment, size)
            for kind in ("cup", "printed")
            for attachment in ATTACHMENTS
            for size in SIZES
        ),
        cycle(SHAPES),
        strict=False,
    )
]


@pytest.mark.parametrize(("kind", "shape", "attachment", "size"), spread(WRITTEN, of=1))
def test_files_of_every_foot_come_back_as_drawn(kind, shape, attachment, size, tmp_path):
    one, parts = drawn(kind, shape, attachment, size)
    for name in ("parts", "drawings"):
        (tmp_path / name).mkdir()
    write_parts(parts, design(one), tmp_path)
    for part in parts:
        stem = tmp_path / "parts" / part.name
        ((name, step),) = step_products(stem.with_suffix(".step"))
        assert name == part.name
        # STEP writes 15 digits; the kernel integrates to about 1e-6
        assert step.Volume() == pytest.approx(part.volume, rel=1e-5)
        box = np.array(bounds(step))
        assert box[3:] - box[:3] == pytest.approx(part.box, abs=1e-4)  # joined edges, as verified
        stl = trimesh.load(stem.with_suffix(".stl"))
        assert stl.is_watertight
        assert np.ptp(stl.bounds, axis=0) == pytest.approx(part.box, abs=2 * TOLERANCE + 1e-5)
        assert abs(stl.volume - part.volume) < min(TOLERANCE * stl.area, 0.005 * part.volume)
        scene = trimesh.load(stem.with_suffix(".3mf"))
        assert scene.units in ("millimeter", "millimeters", "mm")
        copies = scene.dump()
        assert len(copies) == part.quantity == len(one.positions)
        wide, deep = (side * 1e3 for side in PRINT.bed[:2])
        for copy in copies:
            (x, y, z), (right, back, _) = copy.bounds
            left = (wide + BESIDE) * (x // (wide + BESIDE))  # of the bed that this copy lies on
            assert left - 1e-5 < x < right < left + wide + 1e-5
            assert -1e-5 < y < back < deep + 1e-5
            assert z == pytest.approx(0.0, abs=1e-6)
            assert copy.volume == pytest.approx(stl.volume, rel=1e-4)  # single precision in STL
