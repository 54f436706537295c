"""Briefs with typical mistakes, spread over the tables of a brief; a run tells all of them."""

from __future__ import annotations

WRONG: dict[str, tuple[str, tuple[tuple[str, str], ...]]] = {
    "units": (
        "entrance-hall",
        (
            ('mass = "12.6 kg"', "mass = 12.6"),
            ('["0.2 kg", "1.2 kg"]', '["1.2 kg", "0.2 kg"]'),
            ('belt_tension = "23 N"', 'belt_tension = "23 mm"'),
            ("blades = 9", 'blades = "9"'),
        ),
    ),
    "names": (
        "entrance-hall",
        (
            ('name = "Entrance-hall printer"\n', ""),
            ("acceleration =", "acceleraton ="),
            ('name = "right"', 'name = "left"'),
            ("[desk]", "[table]"),
        ),
    ),
    "no-quotes": ("entrance-hall", (('layout = "crossed-belt"', "layout = crossed-belt"),)),
    "no-table": (
        "entrance-hall",
        (
            ('[desk]\nmaterial = "plywood"\nthickness = "21 mm"\n', ""),
            ("[printer]", 'desk = "plywood"\n\n[printer]'),
        ),
    ),
    "feet-and-motors": (
        "entrance-hall",
        (
            ("pull = [0.7, -1, 0]", "pull = [0, 0, 1]"),
            ('slot_key = "6 mm"', 'slot_key = "12 mm"'),
            ('shape = "disc"\nsize = ["22 mm"]', 'shape = "ring"\nsize = ["9 mm", "22 mm"]'),
            ('shapes = ["ring"]', 'shapes = ["rings"]'),
        ),
    ),
    "no-such-card": (
        "entrance-hall",
        (
            (
                'materials = ["nr-40", "nr-50"]\nshapes = ["disc", "ring"]',
                'materials = ["nr-45"]\nshapes = ["disc"]',
            ),
        ),
    ),
    "pads-wider-than-feet": ("entrance-hall", (('sway = "0.6 mm"', 'foot_width = "15 mm"'),)),
    "belts-and-layers": (
        "window-seat",
        (
            ('belt_span = "290 mm"', 'belt_span = "290 mm"\nbelt_tension = "20 N"'),
            ('bed_mass = "0.95 kg"', 'bed_mass = "-0.95 kg"'),
            ('C = "5.28 mm"', 'C = "52.8 mm"'),
            ('layer = "0.3 mm"', 'layer = "0.8 mm"'),
        ),
    ),
    "no-such-thread": ("window-seat", (('bolt = "4 mm"', 'bolt = "4.2 mm"'),)),
    "screws-that-meet": ("window-seat", (('spacing = "62 mm"', 'spacing = "6 mm"'),)),
    "motors": (
        "seminar-room",
        (
            ('"0.77 kg*m^2"]', '"7.7 kg*m^2"]'),
            ("frame_size = 17", "frame_size = 18"),
            ('bracket = "5 mm"', 'bracket = "5 mm"\ncurrent = "15 A"'),
            ('voltage = "36 V"', 'voltage = "high"'),
        ),
    ),
    "balls": (
        "play-corner",
        (
            ('wall = "7.5 mm"', 'wall = "1 mm"'),
            ('thickness = "25 mm"', 'thickness = "25"'),
        ),
    ),
    "a-lump-nowhere": ("cellar", (('position = ["-4 mm", "8 mm", "190 mm"]\n', ""),)),
    "no-room-for-lips": (
        "cellar",
        (('["580 mm", "560 mm", "40 mm"]', '["522 mm", "502 mm", "40 mm"]'),),
    ),
    "loads-and-lines": (
        "map-room",
        (
            ('force = ["0 N", "0 N", "2 N"]', 'force = ["0 N", "0 N", "0 N"]'),
            ('["0 mm", "185 mm"', '["0 mm", "-180 mm"'),
        ),
    ),
    "feet-told-twice": ("gallery", (('pads = "level"', 'pads = "level"\ncount = 4'),)),
    "too-few-weights": ("gallery", (('"2.3 kg", "3.0 kg", "4.4 kg"', '"2.3 kg", "3.0 kg"'),)),
    "warm-before-cold": ("tool-library", (('"12 degC"', '"35 degC"'),)),
    "words": (
        "tool-library",
        (
            ('mass = "11.1 kg"', 'mass = "eleven kg"'),
            ('"2600 mm/s^2"', '"2600 mm/s"'),
            ('fixing = "nut"', 'fixing = "nuts"'),
            ('material = "mdf"', 'material = "felt"'),
        ),
    ),
}
"""By name: the brief that the mistakes are made in, and what is typed instead."""
