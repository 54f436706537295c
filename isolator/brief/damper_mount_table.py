"""The keys of a motor damper that is bought: [[damper.mount]]."""

from __future__ import annotations

import math

from isolator.brief.mounts import LOSS, RATIO, points, where_got
from isolator.design.faceplates import FACEPLATES, FRAME_SIZES
from isolator.design.plate_kinds import SHEETS
from isolator.design.plate_room import ring_room
from isolator.physics.drive.heat import RUBBER_CONDUCTIVITY
from isolator.reading.keys import maybe
from isolator.reading.number_keys import number, one_of, quantity
from isolator.reading.table import Table
from isolator.reading.word_keys import text

STEEL = "steel"
"""What plates of bought dampers are taken to be of, of isolator.design.plate_kinds."""
PLATE = 1e-3
"""Thickness of each where it is not told [m]; common practice, no source."""
SPREAD, LOSS_SPREAD, GUESSED_LOSS = 1.2, 1.3, 1.6
"""×/÷ on stiffness against the data sheet, on a loss factor that it tells, on one that it does
not; common practice, no source."""
_FACES = ", ".join(f"{size} is {1e3 * face.body:.0f} mm" for size, face in FACEPLATES.items())
_RING = "the widest that screws and boss leave room for; estimated"


class DamperMountTable(Table):
    """One [[damper.mount]]."""

    name = text(example="ring damper 42")
    frame_size = one_of(
        FRAME_SIZES,
        f"measure the motors that it fits: {_FACES} wide",
        17,
        "the usual size",
        example=17,
        comment="of the motors that it fits: 14, 17 or 23",
    )
    thickness = quantity(
        "m", usual=(0.002, 0.015), example="5 mm", comment="from face to face, plates counted in"
    )
    plate = quantity(
        "m",
        PLATE,
        "usual of such dampers; no source",
        within=SHEETS,
        example="1 mm",
        comment="thickness of each of its two steel plates",
    )
    outer = quantity(
        "m",
        lambda t: widest_ring(t)[0],
        _RING,
        example="33 mm",
        comment="of its rubber; of a square one, a ring of as much area",
    )
    hole = quantity(
        "m", lambda t: widest_ring(t)[1], _RING, example="24 mm", comment="of the rubber's hole"
    )
    mass = quantity("kg", 0.0, sign="not negative", example="0.04 kg")
    twist = maybe(
        quantity(
            "N*m/rad",
            example="14 N*m/rad",
            comment="about the shaft, static; or torques and angles",
        )
    )
    torques = points("N*m", ["0.1 N*m", "0.2 N*m"])
    angles = points("rad", ["0.4 deg", "0.8 deg"], "twist under each torque")
    radial = maybe(
        quantity("N/m", example="120 N/mm", comment="across the shaft; or its loads and sags")
    )
    radial_loads = points("N", ["20 N", "40 N"])
    radial_sags = points("m", ["0.17 mm", "0.33 mm"], "how far it moves sideways under each")
    axial = maybe(
        quantity("N/m", example="800 N/mm", comment="along the shaft; or its loads and sags")
    )
    axial_loads = points("N", ["40 N", "80 N"])
    axial_sags = points("m", ["0.05 mm", "0.1 mm"], "how far it moves along the shaft under each")
    tilt = quantity(
        "N*m/rad",
        0.0,
        "as of a rubber ring of its size that is as stiff along the shaft",
        sign="not negative",
        example="60 N*m/rad",
        comment="about an axis across the shaft",
    )
    spread = number(
        (1.0, 3.0),
        SPREAD,
        "common practice, no source",
        example=SPREAD,
        comment="×/÷ on its stiffnesses against the sheet",
    )
    loss_factor = maybe(
        number((0.0, 2.0), example=0.15),
        f"estimated, as of natural rubber, ×/÷ {GUESSED_LOSS:g}",
        f"{LOSS:g}",
    )
    loss_spread = number(
        (1.0, 3.0),
        lambda t: LOSS_SPREAD if t.has("loss_factor") else GUESSED_LOSS,
        example=LOSS_SPREAD,
        comment="×/÷ on its loss factor",
    )
    dynamic_ratio = maybe(
        number((1.0, 10.0), example=1.4, comment="dynamic over static stiffness"),
        "estimated, ×/÷ 1.3",
        f"{RATIO:g}",
    )
    conductivity = maybe(
        number((0.05, 5.0), example=0.2, comment="of its rubber for heat, in W/(m*K)"),
        "low end of what tables give for rubber; steel plates besides",
        f"{RUBBER_CONDUCTIVITY:g} W/(m*K)",
    )
    found = where_got()


def widest_ring(table: DamperMountTable) -> tuple[float, float]:
    """Return the widest ring [m] between the screws, in whole tenths of a millimetre."""
    outer, inner = ring_room(table.frame_size, 0.0, STEEL)
    return math.floor(outer * 1e4) / 1e4, math.ceil(inner * 1e4) / 1e4
