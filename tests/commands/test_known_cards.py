"""A material that nobody has is refused wherever a brief names it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from command import example, isolator
from sheets import damper, design

from isolator.cards import load_cards
from isolator.commands.sheet_checks import refuse_sheet
from isolator.reading.faults import InputError


def test_a_damper_of_an_unknown_material_is_refused(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    text = example("reading-room")
    assert "[damper]" not in text
    brief.write_text(f'{text}\n[damper]\nmaterials = ["nr-41"]\n', encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out")
    assert ran.code == 2
    assert ran.err.startswith(
        f'{brief}: damper.materials[1]: found "nr-41"; wanted the id of a material card; '
        "did you mean nr-40"
    )


def test_a_cast_damper_of_a_rubber_that_cannot_be_poured_is_refused(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    more = '\n[damper]\nrubber = "cast"\nmaterials = ["vmq-30", "nr-40"]\n'
    brief.write_text(example("reading-room") + more, encoding="utf-8")
    ran = isolator("check", brief, "--out", tmp_path / "out")
    assert ran.code == 2
    assert ran.err == (
        f'{brief}: damper.materials[2]: found "nr-40", which cannot be poured; wanted a card that '
        "tells what it is cast from; take pu-cast-40, vmq-20, vmq-30, vmq-40, or cut the rubber "
        "from sheet\n"
    )


def test_a_sheet_that_casts_a_rubber_which_cannot_be_poured_is_refused() -> None:
    cards = load_cards()
    cast = replace(damper(), cast=True)
    poured = replace(cast, material="vmq-40", density=1150.0)
    refuse_sheet(Path("design.toml"), design(dampers=(poured, damper())), cards)
    with pytest.raises(InputError) as caught:
        refuse_sheet(Path("design.toml"), design(dampers=(poured, cast)), cards)
    (fault,) = caught.value.faults
    assert (fault.key, fault.got) == (
        "motor_damper[2].material",
        '"nr-40", which cannot be poured',
    )
