"""Bridges and overhangs on bodies whose answer is known."""

from __future__ import annotations

import cadquery as cq
import numpy as np
import pytest

from geometry.solids.bridges import LEDGE, LONGEST_BRIDGE, hanging
from geometry.solids.mesh import tessellate


def measured(solid):
    return hanging(tessellate(solid))


def gate(span: float, turned: float = 0.0):
    """A bar of 17 mm with a tunnel `span` wide and 4 mm high, open at both ends."""
    bar = cq.Workplane().box(31, 17, 9, centered=(True, True, False))
    tunnel = cq.Workplane().box(span, 50, 4, centered=(True, True, False))
    return bar.cut(tunnel).rotate((0, 0, 0), (0, 0, 1), turned).val()


@pytest.mark.parametrize("lean", [30.0, 44.0, 52.0])
def test_a_flaring_cone_hangs_over_from_47_degrees_on(lean):
    grow = 5.0 * np.tan(np.radians(lean))
    found = measured(cq.Solid.makeCone(4.0, 4.0 + grow, 5.0))
    side = np.pi * (8.0 + grow) * np.hypot(grow, 5.0)
    # a chord of 0.02 mm on a radius of 4 mm and more shortens the girth by less than 1 %
    assert found.overhang == pytest.approx(side if lean > 47 else 0.0, rel=0.01)
    assert found.bridge == 0.0


@pytest.mark.parametrize("turned", [0.0, 37.3])
@pytest.mark.parametrize("span", [2.7, 9.6])
def test_a_tunnel_is_bridged_across_and_not_along(span, turned):
    found = measured(gate(span, turned))
    # read beside the corners by 1e-6 mm
    assert found.bridge == pytest.approx(span, abs=1e-5)
    assert found.overhang == 0.0


def test_a_bridge_too_long_needs_support():
    found = measured(gate(LONGEST_BRIDGE + 0.5))
    assert found.bridge == 0.0
    assert found.overhang == pytest.approx((LONGEST_BRIDGE + 0.5) * 17.0)


def test_a_ledge_held_at_one_side_is_no_bridge():
    post = cq.Workplane().box(6, 11, 9, centered=(False, True, False))
    arm = cq.Workplane("XY", origin=(0, 0, 7)).box(13, 11, 2, centered=(False, True, False))
    found = measured(post.union(arm).val())
    assert found.overhang == pytest.approx(7.0 * 11.0)
    assert found.bridge == 0.0


def test_a_hole_over_a_counterbore_hangs_until_two_layers_bridge_it():
    block = cq.Workplane().box(23, 19, 12, centered=(True, True, False))
    bore = cq.Workplane().circle(4.3).extrude(5.0)
    hole = cq.Workplane().circle(1.7).extrude(20.0)
    plain = measured(block.cut(bore).cut(hole).val())
    # chords of 0.02 mm on these radii take less than 1.5 % of the ring
    assert plain.overhang == pytest.approx(np.pi * (4.3**2 - 1.7**2), rel=0.015)
    strip = cq.Workplane().circle(4.3).extrude(5.2).intersect(cq.Workplane().box(50, 3.4, 50))
    square = cq.Workplane().box(3.4, 3.4, 5.4, centered=(True, True, False))
    helped = measured(block.cut(bore).cut(strip).cut(square).cut(hole).val())
    assert helped.overhang == 0.0  # the square's corners stand out by 0.29 of the hole's radius
    # the first layer spans beside the strip, along it
    assert helped.bridge == pytest.approx(2 * np.sqrt(4.3**2 - 1.7**2), abs=0.05)


@pytest.mark.parametrize("out", [0.7, 0.9])
def test_a_narrow_ledge_needs_no_support(out):
    post = cq.Workplane().box(6, 11, 9, centered=(True, True, False))
    head = cq.Workplane("XY", origin=(0, 0, 7)).box(
        6 + 2 * out, 11 + 2 * out, 2, centered=(True, True, False)
    )
    found = measured(post.union(head).val())
    ledge = (6 + 2 * out) * (11 + 2 * out) - 6 * 11
    # at its corners a ledge of 0.7 mm is out by 0.99 mm
    assert found.overhang == pytest.approx(ledge)
    straight = cq.Workplane("XY", origin=(0, 0, 7)).box(
        6 + 2 * out, 11, 2, centered=(True, True, False)
    )
    found = measured(post.union(straight).val())
    assert found.overhang == pytest.approx(0.0 if out < LEDGE else 2 * out * 11.0)


@pytest.mark.parametrize("radius", [1.3, 4.1])
def test_the_top_of_a_lying_hole_spans_what_leans_beyond_the_limit(radius):
    block = cq.Workplane().box(19, 27, 15, centered=(True, True, False))
    drill = cq.Workplane("XZ", origin=(0, 20, 7)).circle(radius).extrude(40)
    found = measured(block.cut(drill).val())
    # facets turn by a quarter of a radian at most: the limit falls somewhere in one of them
    low, high = (2 * radius * np.cos(np.radians(47) + turn) for turn in (0.25, -0.25))
    assert low <= found.bridge <= high
    assert found.overhang == 0.0


def test_a_mesh_in_the_air_is_all_overhang():
    slab = cq.Workplane().box(17, 13, 3, centered=(True, True, False)).val()
    assert measured(slab).overhang == 0.0
    lifted = slab.moved(cq.Location(cq.Vector(0, 0, 1)))
    assert measured(lifted).overhang == pytest.approx(17 * 13)
