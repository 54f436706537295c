"""Folders of ours: nothing of the user's lost, nothing half-written, no two briefs in one."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from command import example, tree
from sheets import design as feet_of
from sheets import foot

from isolator.commands import exchange
from isolator.commands.draw import _home
from isolator.commands.manifest import Origin, origin_of, write_manifest
from isolator.commands.output import publish
from isolator.reading.faults import InputError

TODAY = date.today().isoformat()


def brief_at(path: Path, name: str = "Füße", held: str = "a brief") -> Origin:
    path.write_text(held, encoding="utf-8")
    return Origin(name=name, file=path, held=path.read_bytes())


def writer(**files: str) -> Callable[[Path], None]:
    """Return what writes these files, double underscores for points, and a manifest."""

    def write(fresh: Path) -> None:
        for name, held in files.items():
            (fresh / name.replace("__", ".")).write_text(held, encoding="utf-8")
        write_manifest(fresh, {"name": "Füße"})

    return write


def own(folder: Path) -> dict[str, bytes]:
    return {name: held for name, held in tree(folder).items() if name != "manifest.json"}


def test_files_of_the_users_own_and_edited_ones_outlive_every_run(tmp_path: Path) -> None:
    brief = brief_at(tmp_path / "brief.toml")
    out = tmp_path / "out"
    folder = publish(out, "fusse", writer(report__html="1", shopping__csv="1"), brief).folder
    (folder / "notes").mkdir()
    (folder / "notes" / "bed.txt").write_text("mine")
    (folder / "empty").mkdir()
    (folder / "link").symlink_to("nowhere")
    (folder / "shopping.csv").write_text("with prices")
    done = publish(out, "fusse", writer(report__html="2", shopping__csv="2"), brief)
    copy = f"shopping.edited-{TODAY}.csv"
    assert done.copies == (copy,)
    wanted = {
        "brief.toml": b"a brief",
        "report.html": b"2",
        "shopping.csv": b"2",
        copy: b"with prices",
        "notes/bed.txt": b"mine",
    }
    assert own(folder) == wanted
    assert os.readlink(folder / "link") == "nowhere"
    assert (folder / "empty").is_dir()
    # the next copy of the day gets a name of its own; one that says the same is not made twice
    for typed in ("other prices", "with prices"):
        (folder / "shopping.csv").write_text(typed)
        publish(out, "fusse", writer(report__html="2", shopping__csv="2"), brief)
    assert own(folder) == {**wanted, f"shopping.edited-{TODAY}-2.csv": b"other prices"}
    # a file of the user's where ours comes to stand
    (folder / "plan.svg").write_text("mine")
    publish(out, "fusse", writer(plan__svg="ours"), brief)
    assert own(folder)["plan.svg"] == b"ours"
    assert own(folder)[f"plan.edited-{TODAY}.svg"] == b"mine"
    assert "report.html" not in own(folder)
    assert [path.name for path in out.iterdir()] == ["fusse"]


def test_two_briefs_do_not_share_a_folder(tmp_path: Path) -> None:
    out, first = tmp_path / "out", brief_at(tmp_path / "first.toml", "日本")
    publish(out, "printer", writer(report__html="1"), first)
    before = tree(out)
    for second in (
        brief_at(tmp_path / "second.toml", "中国"),
        brief_at(tmp_path / "second.toml", "日本", "another brief of that name"),
    ):
        with pytest.raises(InputError) as refusal:
            publish(out, "printer", writer(report__html="2"), second)
        assert str(refusal.value) == (
            f'{out / "printer"}: found what was made from another brief, "日本" '
            f"({tmp_path / 'first.toml'}); wanted a place of its own for the output; "
            "move it away, rename the brief, or choose another --out"
        )
        assert tree(out) == before
    # one that was edited, and then moved, is the same brief
    assert first.file is not None
    publish(out, "printer", writer(report__html="2"), brief_at(first.file, "日本", "edited"))
    first.file.unlink()
    publish(out, "printer", writer(report__html="3"), brief_at(tmp_path / "moved.toml", "日本"))
    assert own(out / "printer")["report.html"] == b"3"


@pytest.mark.parametrize("one_step", [True, False])
@pytest.mark.parametrize("call", ["rename", "rmtree", None])
def test_a_run_that_is_stopped_anywhere_loses_neither_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, one_step: bool, call: str | None
) -> None:
    brief, out = brief_at(tmp_path / "brief.toml"), tmp_path / "out"
    folder = publish(out, "fusse", writer(report__html="1"), brief).folder
    if not one_step:
        monkeypatch.setattr(exchange, "exchanged", lambda one, other: False)
    calls: list[object] = []

    def stopped(*words: object, **more: object) -> None:
        calls.append(words)
        raise KeyboardInterrupt

    real = Path.rename

    def second_stops(path: Path, target: Path) -> Path:
        calls.append(path)
        if len(calls) == 2:
            raise KeyboardInterrupt
        return real(path, target)

    with monkeypatch.context() as during:
        if call == "rename":
            during.setattr(Path, "rename", second_stops)
        elif call == "rmtree":
            during.setattr(exchange.shutil, "rmtree", stopped)
        try:
            publish(out, "fusse", writer(report__html="2"), brief)
        except KeyboardInterrupt:
            assert call is not None
    assert own(folder)["report.html"] in (b"1", b"2")
    assert own(folder)["report.html"] == (b"1" if call == "rename" and not one_step else b"2")
    publish(out, "fusse", writer(report__html="3"), brief)
    assert own(folder)["report.html"] == b"3"
    assert [path.name for path in out.iterdir()] == ["fusse"]


def test_what_a_killed_run_left_is_mended_at_the_next_start(tmp_path: Path) -> None:
    brief, out = brief_at(tmp_path / "brief.toml"), tmp_path / "out"
    folder = publish(out, "fusse", writer(report__html="1"), brief).folder
    before = tree(folder)
    # killed between two renames, and while writing
    old, new = out / ".isolator-old.fusse.ab12", out / ".isolator-new.fusse.cd34"
    old.mkdir()
    folder.rename(old / "fusse")
    new.mkdir()
    (new / "report.html").write_text("half")
    (out / ".mine").mkdir()
    exchange.mend(out)
    assert tree(folder) == before
    assert sorted(path.name for path in out.iterdir()) == [".mine", "fusse"]


def test_the_folder_of_a_run_that_goes_on_is_left_to_it(tmp_path: Path) -> None:
    with exchange.new_folder(tmp_path, "fusse") as fresh:
        (fresh / "report.html").write_text("soon whole")
        exchange.mend(tmp_path)
        assert (fresh / "report.html").read_text() == "soon whole"
    assert list(tmp_path.iterdir()) == []


def test_a_key_that_was_set_for_one_run_is_no_edit_of_the_brief(tmp_path: Path) -> None:
    text = example("reading-room")
    brief = tmp_path / "brief.toml"
    brief.write_text(text, encoding="utf-8")
    changed = text.replace("2500 mm/s^2", "1800 mm/s^2").encode()
    origin = replace(origin_of("Reading-room printer", brief), held=changed)
    folder = publish(tmp_path / "out", "room", writer(), origin).folder
    drawing = replace(feet_of(foot("cup", "disc", "slot-20", "usual")), name=origin.name)
    home = _home(drawing, folder)
    assert home.brief is not None
    assert (home.brief.motion.acceleration, home.changed) == (1.8, False)
    brief.write_text(text.replace("21 N", "22 N"), encoding="utf-8")
    assert _home(drawing, folder).changed
