"""What a user may say of a file that does not say it itself."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadOptions:
    """Empty is: as the file says."""

    rate: float | None = None  # [Hz] of evenly spaced samples; goes before the file's own clock
    unit: str = ""  # what a reading of 1 is worth: "g", "m/s^2", "0.061 mg", "4 g", "counts"
    time_unit: str = ""  # s, ms, us, ns
    columns: str = ""  # "t,x,y,z" in the file's order, "-" for one to pass over; or "x=name,…"
