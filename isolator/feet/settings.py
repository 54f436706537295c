"""Keys of the brief that make a failed check pass, by the figure that the check carries."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Key(NamedTuple):
    """A key, how its value is typed, and whether the lower of two is the safer one."""

    name: str
    typed: str
    lower: bool = False


KEYS: Mapping[str, Key] = {
    "acceleration_mm_s2": Key("motion.acceleration", "{:g} mm/s^2", lower=True),
    "sway_mm": Key("limits.sway", "{:g} mm"),
    "static_strain": Key("limits.static_strain", "{:g}"),
    "foot_width_mm": Key("limits.foot_width", "{:g} mm"),
    "foot_height_mm": Key("limits.foot_height", "{:g} mm"),
    "gravity_share": Key("limits.gravity_share", "{:g}"),
    "friction": Key("limits.desk_friction", "{:g}"),
}
"""What is the least trouble comes first."""
