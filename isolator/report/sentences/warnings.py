"""Warnings that a command adds to those of the brief."""

from __future__ import annotations

from pathlib import Path

REDRAWN = "worked out again for the sheet as it was drawn, not searched for: no candidates are told"
NO_BRIEF = (
    "no report and no result: the brief of this sheet is not known; put the sheet back beside its "
    "manifest.json and brief.toml, or run `isolator check BRIEF` with feet.design naming this sheet"
)
BRIEF_CHANGED = (
    "the brief has been edited since: the report is of the brief as it was, kept as brief.toml"
)
OTHER_DAMPERS = (
    "the motors' dampers of the sheet are not those that the brief leads to: what is said of "
    "motors is of the brief's, what is drawn is of the sheet"
)
MOVED = "they stand at other places than the brief says: design again"


def not_worked_out(why: str) -> str:
    """Return that a sheet was drawn without a report, and why."""
    return f"no report and no result: they cannot be worked out for this sheet: {why}"


def not_designed_from(file: Path) -> str:
    """Return that a design does not start from the feet of `file` that the brief names."""
    return (
        f"feet.design is not used here: these feet are new. The feet of {file} are judged by "
        "`isolator check` and drawn by `isolator draw`"
    )


def cannot_draw(error: Exception) -> str:
    """Return that the nearest feet are such as cannot be drawn."""
    return f"the nearest feet cannot be drawn: {error}"
