"""Work in a second process comes back; where there is none it is done here."""

from __future__ import annotations

import os

import pytest

from isolator.commands import beside as module
from isolator.commands.beside import beside
from isolator.reading.faults import InputError, refused

HERE = os.getpid()


@pytest.fixture(autouse=True)
def two(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "processors", lambda: 2)


def process(given: str) -> tuple[str, int]:
    return given, os.getpid()


def dying(caller: int) -> int:
    if os.getpid() != caller:
        os._exit(3)
    return 7


def refusing(name: str) -> None:
    raise refused("brief.toml", name, "nothing", "something", "write it")


def test_work_is_done_in_another_process_and_comes_back() -> None:
    with beside() as begin:
        first, second = begin(process, "charts"), begin(process, "plan")
        told, where = first()
        assert second() == ("plan", where)
    assert told == "charts"
    assert where != HERE


def test_where_the_other_process_dies_the_work_is_done_here() -> None:
    with beside() as begin:
        assert begin(dying, os.getpid())() == 7


def test_what_the_work_raises_is_raised_to_who_waits() -> None:
    with beside() as begin:
        wait = begin(refusing, "feet")
        with pytest.raises(InputError, match="feet: found nothing; wanted something; write it"):
            wait()


def test_what_nobody_waits_for_hinders_nobody() -> None:
    with beside() as begin:
        begin(process, "charts")


def test_one_processor_does_one_thing_after_the_other(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "processors", lambda: 1)
    with beside() as begin:
        assert begin(process, "charts")() == ("charts", HERE)
