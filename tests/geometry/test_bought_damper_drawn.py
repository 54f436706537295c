"""A bought damper in pictures and assembly: seen whole, and no part of it made."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets import PRINT, sheet_damper

from geometry.motors.clearance import damper_clearances
from geometry.motors.damper_in_place import damper_bodies
from geometry.motors.damper_parts import damper_parts
from geometry.motors.damper_stack import pieces
from geometry.pictures.exploded import exploded_scene
from isolator.design.damper import CLAMPED


@pytest.mark.parametrize("wedge", [False, True])
def test_it_is_drawn_to_be_seen_and_only_what_is_printed_is_a_part(wedge: bool) -> None:
    one = replace(
        sheet_damper(wedge=wedge),
        motor_screw=0.005,
        rubber=0.0035,
        bought="ring damper 42",
        pulley_spacer=sheet_damper(wedge=wedge).pulley_spacer + 0.0005,
    )
    roles = [part.role for part in damper_parts((one,), PRINT)]
    own = ["damper-wedge"] if wedge else []
    assert roles == [*own, "pulley-spacer", "damper-drill-template"]
    seen = {body.role for body in damper_bodies(one, PRINT)}
    assert {"damper-motor-plate", "rubber", "damper-frame-plate", "terminal"} <= seen
    assert damper_clearances(one, PRINT).interference == 0.0
    # the terminal and its washer are clamped between the plate and one screw's head
    stack = {piece.name: piece.solid.BoundingBox() for piece in pieces(one, PRINT)}
    assert stack["bonding-terminal"].zmin == pytest.approx(one.motor_plate * 1e3, abs=1e-6)
    heads = sorted(stack[f"motor-screw-{number}"].zmax for number in (1, 2))
    assert heads[1] - heads[0] == pytest.approx(CLAMPED * 1e3)
    order = exploded_scene(one, PRINT).names
    assert "bought damper" in order
    assert "rubber" not in order
