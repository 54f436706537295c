"""Filament beyond a part's volume, on blocks whose sides are counted by hand."""

from __future__ import annotations

import cadquery as cq
import numpy as np
import pytest

from geometry.solids.mesh import depths, tessellate
from geometry.solids.strands import overlapping


def test_infill_joins_walls_all_round_a_block_and_round_its_hole() -> None:
    block = cq.Workplane().box(31, 23, 7, centered=(True, True, False)).val()
    # 0.13 mm along the sides; what lies level takes nothing
    assert overlapping(tessellate(block), 0.4) == pytest.approx(0.13 * 2 * (31 + 23) * 7)
    holed = cq.Workplane(block).faces(">Z").workplane().rect(9, 11).cutThruAll().val()
    sides = 2 * (31 + 23) + 2 * (9 + 11)
    assert overlapping(tessellate(holed), 0.4) == pytest.approx(0.13 * sides * 7)


def test_a_thin_wall_is_laid_in_lines_alone() -> None:
    # three lines of 0.44 mm a side and three between: from 3.96 mm on there is infill
    thin, thick = (cq.Workplane().box(40, wide, 5).val() for wide in (3.9, 4.0))
    assert overlapping(tessellate(thin), 0.4) == pytest.approx(0.13 * 2 * 3.9 * 5)  # its ends
    assert overlapping(tessellate(thick), 0.4) == pytest.approx(0.13 * 2 * 44.0 * 5)
    # two walls leave more room than three
    assert overlapping(tessellate(thin), 0.4, walls=2) == pytest.approx(0.13 * 2 * 43.9 * 5)


def test_depth_behind_a_facet_is_where_its_ray_leaves() -> None:
    mesh = tessellate(cq.Workplane().box(6, 11, 17).val())
    found = depths(mesh)[np.abs(mesh.normals()[:, 0]) > 0.9]
    assert found == pytest.approx([6.0] * 4)
