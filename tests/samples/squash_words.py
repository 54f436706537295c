"""What is typed after `isolator squash` for pieces of foam and of rubber."""

from __future__ import annotations

from pathlib import Path

from command import Ran, isolator

FOAM = "--family foam --shape disc --size 40mm --thickness 20mm --id own-foam"
RUBBER = "--family rubber --shape disc --size 30mm --thickness 10mm --bonded --id own-rubber"


def squash(file: Path, words: str, out: Path, *more: object) -> Ran:
    return isolator("squash", file, *words.split(), "--out", out, *more)
