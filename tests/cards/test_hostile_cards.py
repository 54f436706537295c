"""Cards and sheets that are no plain files, too long, or full of what a terminal acts on."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from command import isolator

from isolator.brief import read_brief
from isolator.cards import load_card, load_cards
from isolator.cards.library import LARGEST_FILE
from isolator.design.read import read_design
from isolator.reading.faults import InputError

DOTS = "a." * 2_000 + "b = 1"


def refused(read: Callable[[Path], Any], path: Path) -> str:
    with pytest.raises(InputError) as caught:
        read(path)
    return str(caught.value).removeprefix(f"{path}: ")


@pytest.mark.parametrize(
    ("read", "told"),
    [
        (load_card, "found a pipe or a device; wanted a material card; check the path"),
        (
            read_brief,
            "found a pipe or a device; wanted a brief in a plain file; save it as one",
        ),
        (read_design, "found a pipe or a device; wanted a design; save it as a plain file"),
    ],
)
def test_neither_pipe_nor_device_is_read(
    tmp_path: Path, read: Callable[[Path], Any], told: str
) -> None:
    pipe, device = tmp_path / "pipe.toml", tmp_path / "device.toml"
    os.mkfifo(pipe)
    device.symlink_to("/dev/zero")
    assert refused(read, pipe) == told
    assert refused(read, device) == told


def test_a_pipe_among_the_cards_keeps_nobody_waiting(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    ran = isolator("materials", "--cards", tmp_path)
    assert (ran.code, ran.err) == (
        2,
        f"{tmp_path}/pipe.toml: found a pipe or a device; wanted a material card; check the path\n",
    )


def test_a_card_is_never_read_beyond_its_cap(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    card = tmp_path / "long.toml"
    card.write_bytes(b"# " + b"x" * LARGEST_FILE)
    short = os.stat_result((0o100644, 0, 0, 1, 0, 0, 10, 0, 0, 0))
    monkeypatch.setattr(Path, "stat", lambda path, **more: short)  # it grew after that
    assert refused(load_card, card) == (
        "found a file of over 1 MB; wanted a material card; check the path"
    )


@pytest.mark.parametrize(
    ("read", "told"),
    [
        (
            load_card,
            "found text that is not TOML; wanted a card in TOML; a line of more than 250 dots",
        ),
        (read_design, "found a line of more than 250 dots; wanted a design; name a design.toml"),
        (read_brief, "found a line of more than 250 dots; wanted a brief; is this the right"),
    ],
)
def test_dotted_keys_without_end(tmp_path: Path, read: Callable[[Path], Any], told: str) -> None:
    path = tmp_path / "dots.toml"
    path.write_text(DOTS, encoding="utf-8")
    assert refused(read, path).startswith(told)


def test_a_card_with_codes_of_a_terminal(tmp_path: Path) -> None:
    card = tmp_path / "red.toml"
    card.write_text('name = "\\u001b[31mred"\nfamily = "\\u001b[2J"\n', encoding="utf-8")
    told = refused(load_cards, tmp_path)
    assert (
        'name: found "�[31mred"; wanted a text without control characters; type it anew\n' in told
    )
    assert "\x1b" not in told


def test_a_path_with_codes_of_a_terminal(tmp_path: Path) -> None:
    ran = isolator("materials", "--cards", tmp_path / "\x1b[31m")
    assert ran.code == 2
    assert ran.err == (
        f"{tmp_path}/�[31m: found no folder; wanted a folder of material cards; check the path\n"
    )
