"""One step of assembly as a record."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Care = Literal[
    "knives",
    "sheet edges",
    "unplug",
    "heavy",
    "slab",
    "sways",
    "glue",
    "hot insert",
    "motors off",
    "bonding wire",
    "drill",
    "pour",
    "press the rim",
]
"""What a step has to warn of; the report has the words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of assembly; steps are numbered in the order in which they stand.

    Its picture shows what belongs to `owner`: of a foot the roles of the parts that it `adds` to
    those `there` before, and its `hardware`; of a motor or the slab one of the draughtsman's
    views. A step that has neither `adds` nor `view` has no picture.
    """

    title: str
    words: tuple[str, ...]
    cautions: tuple[Care, ...] = ()
    uses: tuple[str, ...] = ()  # parts and bought things that go in, with their number
    owner: str = ""  # name of a foot or motor, or "slab"
    there: tuple[str, ...] = ()
    adds: tuple[str, ...] = ()
    hardware: str = ""  # what the picture shows besides: "screws", "held" in the cap, or nothing
    view: str = ""

    @property
    def pictured(self) -> bool:
        """Return whether the step has a picture."""
        return bool(self.adds or self.view)
