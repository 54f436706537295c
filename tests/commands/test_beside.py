"""Work in a second process comes back; where there is none it is done here."""

from __future__ import annotations

import os
import signal
import sys
import time
from pathlib import Path

import pytest

from geometry.solids.part import CannotDraw
from isolator.commands import beside as module
from isolator.commands.beside import beside, processors, tell
from isolator.commands.progress import silent
from isolator.commands.undisturbed import undisturbed
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


def slowly(given: int) -> tuple[int, int]:
    time.sleep(0.05)
    return given * given, os.getpid()


def telling(name: str) -> None:
    tell(f"drawing {name}", 2, 7)
    time.sleep(0.5)  # the wait looks now and then


def writing(path: str) -> None:
    while True:
        with open(path, "a") as file:
            file.write("more\n")
        time.sleep(0.01)


def refusing_to_draw() -> None:
    raise CannotDraw("left-cup", "width", "too wide")


def refusing(name: str) -> None:
    raise refused("brief.toml", name, "nothing", "something", "write it")


def test_work_is_done_in_another_process_and_comes_back() -> None:
    with beside(silent) as begin:
        first, second = begin(process, "charts"), begin(process, "plan")
        told, where = first()
        assert second() == ("plan", where)
    assert told == "charts"
    assert where != HERE


def test_where_the_other_process_dies_the_work_is_done_here() -> None:
    with beside(silent) as begin:
        assert begin(dying, os.getpid())() == 7


def test_what_the_work_raises_is_raised_to_who_waits() -> None:
    with beside(silent) as begin:
        wait = begin(refusing, "feet")
        with pytest.raises(InputError, match="feet: found nothing; wanted something; write it"):
            wait()


def test_a_part_that_cannot_be_drawn_is_told_as_here() -> None:
    with beside(silent) as begin, pytest.raises(CannotDraw, match="left-cup: width: too wide"):
        begin(refusing_to_draw)()


INTERRUPTED = """
import os, signal, sys
if any("spawn_main" in word for word in sys.orig_argv):
    os.kill(os.getpid(), signal.SIGINT)
"""
"""What every interpreter loads as it begins: Ctrl-C comes to the second process at once."""


def test_ctrl_c_is_not_heard_by_a_process_that_only_begins(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "sitecustomize.py").write_text(INTERRUPTED)
    monkeypatch.setenv("PYTHONPATH", str(tmp_path), prepend=os.pathsep)
    before = signal.pthread_sigmask(signal.SIG_BLOCK, ())
    with beside(silent) as begin:
        _, where = begin(process, "charts")()
    assert where != HERE
    assert signal.pthread_sigmask(signal.SIG_BLOCK, ()) == before
    assert capfd.readouterr().err == ""


def test_what_the_other_process_is_at_is_told_while_it_is_waited_for() -> None:
    shown: list[tuple[str, int, int]] = []
    with beside(lambda *told: shown.append(told)) as begin:
        begin(telling, "left-cup")()
    assert shown == [("drawing left-cup", 2, 7)]


def test_a_run_that_fails_leaves_nobody_writing(tmp_path: Path) -> None:
    file = tmp_path / "written.txt"

    def interrupted() -> None:
        with beside(silent) as begin:
            begin(writing, str(file))
            while not file.exists():
                time.sleep(0.01)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    time.sleep(0.1)
    size = file.stat().st_size
    time.sleep(0.2)
    assert file.stat().st_size == size


def test_what_nobody_waits_for_hinders_nobody() -> None:
    with beside(silent) as begin:
        begin(process, "charts")


def test_both_processes_share_a_list_and_its_order_is_kept() -> None:
    with beside(silent) as begin:
        begin(process, "charts")()  # it is there
        made = begin.each(slowly, range(12))
    assert [square for square, _ in made] == [n * n for n in range(12)]
    ours = [where == HERE for _, where in made]
    # the other one begins at the first, this one at the last
    assert ours == sorted(ours)
    assert 0 < sum(ours) < 12


def test_a_list_may_be_the_first_that_is_begun() -> None:
    with beside(silent) as begin:
        assert [told for told, _ in begin.each(process, ["plan", "list"])] == ["plan", "list"]


def test_an_interrupt_outlasts_what_goes_wrong_while_it_waits() -> None:
    def failing() -> None:
        with undisturbed():
            signal.raise_signal(signal.SIGINT)
            raise ValueError

    with pytest.raises(KeyboardInterrupt):
        failing()


def test_where_the_other_process_dies_its_share_is_done_here() -> None:
    with beside(silent) as begin:
        assert begin.each(dying, [HERE] * 5) == [7] * 5


def test_while_it_is_waited_modules_are_loaded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "loaded_ahead.py").write_text("ONE = 1")
    (tmp_path / "loaded_later.py").write_text("ONE = 1")
    monkeypatch.syspath_prepend(tmp_path)
    with beside(silent, ["loaded_ahead", "loaded_later"]) as begin:
        begin(process, "charts")
        assert "loaded_ahead" not in sys.modules
        begin(telling, "left-cup")()
    assert {"loaded_ahead", "loaded_later"} <= set(sys.modules)


def test_one_processor_does_one_thing_after_the_other(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "processors", lambda: 1)
    with beside(silent) as begin:
        assert begin(process, "charts")() == ("charts", HERE)
        assert begin.each(process, ["plan", "list"]) == [("plan", HERE), ("list", HERE)]


def test_processors_that_others_keep_do_not_count(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda who: {3}, raising=False)
    monkeypatch.setattr(os, "cpu_count", lambda: 8)
    assert processors() == 1


def test_an_interpreter_without_foreign_functions_works_too(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "ctypes", None)
    with beside(silent) as begin:
        assert begin(dying, HERE)() == 7
