"""What the draughtsman hands to the report, made up: a drawing sheet, pictures, parts."""

from __future__ import annotations

import report_motors

from isolator.design import Design, Foot, Pad, PrintSettings
from isolator.report.page.parts import KitList, Picture


def design() -> Design:
    pad = Pad(
        shape="rectangle",
        first=0.040,
        second=0.030,
        thickness=0.010,
        layers=1,
        material="sponge",
        printed=False,
    )
    foot = Foot(
        name="foot",
        kind="cup",
        pad=pad,
        positions=((-0.18, -0.19), (0.18, -0.19), (-0.18, 0.19), (0.18, 0.19)),
        attachment="slot-20",
        bolt=0.005,
        tube=0.0,
        cap=0.006,
        sole=0.003,
        wall=0.0024,
        side_room=0.003,
        sag=0.0031,
        stop=0.006,
    )
    settings = PrintSettings(
        bed=(0.22, 0.21, 0.2),
        nozzle=0.0004,
        layer=0.0002,
        hole_compensation=0.0002,
        first_layer_chamfer=0.0004,
        material="petg",
    )
    return Design(
        name="Reading-room printer",
        slug="reading-room-printer",
        version="0.1.0",
        print=settings,
        feet=(foot,),
        motor_spacers=(report_motors.spacer(),),
        motor_dampers=(report_motors.sheet(),),
        frame_size=(0.42, 0.44, 0.48),
    )


PICTURES = {
    "assembly": Picture(
        title="Assembly",
        caption="all feet under the frame",
        mime="image/svg+xml",
        data=b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30">'
        b'<rect width="30" height="20" x="5" y="5" fill="#c5d8e6" stroke="#1f5f8b"/></svg>',
    ),
    "corner": Picture(
        title="A foot in its place",
        caption="front right",
        mime="image/svg+xml",
        data=b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30">'
        b'<rect width="9" height="4" x="11" y="21" fill="#c5d8e6" stroke="#1f5f8b"/></svg>',
    ),
    "section": Picture(
        title="Through one foot",
        caption="cup, pad, sole",
        mime="image/svg+xml",
        data=b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30">'
        b'<rect width="30" height="10" x="5" y="10" fill="#ddd"/></svg>',
    ),
}
EXPLODED = Picture(
    title="The damper pulled apart",
    caption="motor, plates, rubber, bracket",
    mime="image/svg+xml",
    data=b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30">'
    b'<rect width="30" height="4" x="5" y="10" fill="#bbb"/></svg>',
)
KIT = KitList(
    manifest={
        "parts": [
            {
                "name": "cup",
                "quantity": 4,
                "material": "PETG",
                "print_mass_kg": 0.0173,
                "box_m": [0.0512, 0.0413, 0.0141],
                "files": ["parts/cup.step", "parts/cup.stl", "parts/cup.3mf"],
                "overhang_m2": 0.0,
                "bridge_m": 0.0,
                "wall_nozzles": 4.0,
            }
        ],
        "pads": [
            {
                "name": "pad",
                "quantity": 4,
                "material": "closed-cell sponge",
                "files": ["templates/pad.dxf"],
            }
        ],
        "plates": [],
        "slab": [],
        "assembly": "assembly.step",
        "assembly_view": "assembly.glb",
    }
)
COM_RANGE = ((0.002, 0.01), (0.016, -0.009))
