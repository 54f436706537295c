"""Commands in any order on folders of the user's: nothing lost, nothing half-written.

Files, sheets, briefs and folders are real; solving, solids and pictures are stood in for, so that
two hundred runs take seconds.
"""

from __future__ import annotations

import shutil
import tempfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from command import example, isolator, replaced, tree
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from isolator.brief import Brief, read_brief_text
from isolator.commands.design import solve
from isolator.commands.known_cards import known_cards
from isolator.commands.manifest import read_manifest, write_json, written
from isolator.report.findings import Findings

NAMES = ("one", "two", "日本", "中国")
SLUGS = {"one": "one", "two": "two", "日本": "printer", "中国": "printer"}
names = st.sampled_from(NAMES)
texts = st.integers(0, 10**6).map(str)


class Killed(BaseException):
    """A run ends here, with nothing cleaned up by what was asked to write."""


class Commands(RuleBasedStateMachine):
    """A folder with briefs, and what a user does in it."""

    findings: Findings
    kill = False

    def __init__(self) -> None:
        super().__init__()
        self.room = Path(tempfile.mkdtemp())
        self.out = self.room / "out"
        self.typed: set[bytes] = set()  # all that the user wrote into files of ours
        self.own: dict[Path, bytes] = {}
        self.fits: dict[str, dict[str, str]] = {}

    def teardown(self) -> None:
        shutil.rmtree(self.room)

    def _brief(self, name: str) -> Path:
        return self.room / f"{NAMES.index(name)}.toml"

    def _run(self, *words: object) -> int:
        ran = isolator(*words, "--quiet")
        assert ran.code in (0, 1, 2, 3), ran.err
        assert (ran.err == "") == (ran.code in (0, 1)), ran
        return ran.code

    @rule(name=names)
    def start(self, name: str) -> None:
        brief = self._brief(name)
        if brief.exists():
            before = brief.read_bytes()
            assert self._run("start", brief) == 2
            assert brief.read_bytes() == before
            return
        brief.write_text(replaced(example("reading-room"), "name", f'"{name}"'), encoding="utf-8")

    @rule(name=names, text=texts)
    def edit_brief(self, name: str, text: str) -> None:
        brief = self._brief(name)
        if brief.exists():
            with brief.open("a", encoding="utf-8") as stream:
                stream.write(f"# {text}\n")

    @rule(name=names, text=texts, file=st.sampled_from(("design.toml", "shopping.csv")))
    def edit(self, name: str, text: str, file: str) -> None:
        path = self.out / SLUGS[name] / file
        if path.exists():
            with path.open("a", encoding="utf-8") as stream:
                stream.write(f"# {text}\n")
            self.typed.add(path.read_bytes())

    @rule(name=names, text=texts, file=st.sampled_from(("notes.txt", "parts/mine.stl", "a/b")))
    def add_own(self, name: str, text: str, file: str) -> None:
        folder = self.out / SLUGS[name]
        if folder.is_dir():
            path = folder / file
            path.parent.mkdir(exist_ok=True)
            path.write_text(text)
            self.own[path] = text.encode()

    @rule(name=names, times=st.integers(1, 2), kill=st.booleans())
    def design(self, name: str, times: int, kill: bool) -> None:
        brief = self._brief(name)
        if not brief.exists():
            assert self._run("design", brief, "--out", self.out) == 2
            return
        for _ in range(times):
            self._perhaps_killed(kill, "design", brief)

    @rule(name=names, kill=st.booleans())
    def draw(self, name: str, kill: bool) -> None:
        sheet = self.out / SLUGS[name] / "design.toml"
        if sheet.exists():
            self._perhaps_killed(kill, "draw", sheet)

    def _perhaps_killed(self, kill: bool, *words: object) -> None:
        before = tree(self.out) if self.out.exists() else {}
        Commands.kill = kill
        try:
            self._run(*words, "--out", self.out)
        except Killed:
            assert tree(self.out) == before
        finally:
            Commands.kill = False

    @rule(name=names)
    def check(self, name: str) -> None:
        before = tree(self.room)
        self._run("check", self._brief(name), "--out", self.out)
        assert tree(self.room) == before

    @rule(name=names, letter=st.sampled_from("ABCDE"), off=st.integers(1, 40))
    def fit(self, name: str, letter: str, off: int) -> None:
        nominal = {"A": 340, "B": 450, "C": 550, "D": 660, "E": 900}[letter]
        value = f"{(nominal - off) / 100:g} mm"
        brief = self._brief(name)
        before = brief.read_bytes() if brief.exists() else None
        if self._run("fit", brief, f"{letter}={value}") == 0:
            self.fits.setdefault(name, {})[letter] = value
            for key, reading in self.fits[name].items():
                assert f'{key} = "{reading}"' in brief.read_text(encoding="utf-8")
        else:
            assert (brief.read_bytes() if brief.exists() else None) == before

    @invariant()
    def no_file_of_the_users_is_lost(self) -> None:
        held = set(tree(self.room).values())
        assert self.typed <= held
        for path, text in self.own.items():
            assert path.read_bytes() == text

    @invariant()
    def no_folder_is_half_written(self) -> None:
        for folder in self.out.iterdir() if self.out.exists() else ():
            assert not folder.name.startswith(".")
            told = read_manifest(folder)
            assert told
            assert all((folder / name).is_file() for name in written(told))
            assert {"design.toml", "report.html", "result.json"} <= set(written(told))


@pytest.fixture
def stand_ins(monkeypatch: pytest.MonkeyPatch) -> None:
    import geometry.draw
    import geometry.export

    text = example("reading-room")
    brief = read_brief_text(text, "brief.toml")
    Commands.findings = solve(brief, known_cards(brief), lambda what, done, total: None)

    def named(brief: Brief, *rest: Any) -> Findings:
        found = Commands.findings
        assert found.design is not None
        own = replace(found.design, name=brief.name, slug=brief.slug)
        return replace(found, name=brief.name, slug=brief.slug, design=own)

    def write_all(design: Any, folder: Path, parts: Any) -> dict[str, Any]:
        (folder / "parts").mkdir()
        (folder / "parts" / "foot.stl").write_text(design.name, encoding="utf-8")
        if Commands.kill:
            raise Killed
        return {"name": design.name, "files_sha256": {}}

    def report(folder: Path, brief: Brief, findings: Findings, *rest: Any) -> None:
        write_json(folder / "result.json", {"name": findings.name})
        (folder / "report.html").write_text(findings.name, encoding="utf-8")
        (folder / "shopping.csv").write_text("item,number\n", encoding="utf-8")

    monkeypatch.setattr("isolator.commands.design.solve", named)
    monkeypatch.setattr("isolator.commands.draw.assess", named)
    monkeypatch.setattr("isolator.commands.check.assess", named)
    monkeypatch.setattr("isolator.commands.draw.shopping_csv", lambda items: "item,number\n")
    monkeypatch.setattr("isolator.commands.draw.shopping_items", lambda *rest: [])
    for module in ("draw", "publish_design"):
        monkeypatch.setattr(f"isolator.commands.{module}.write_report", report)
    monkeypatch.setattr(geometry.draw, "draw", lambda design, tell: [])
    monkeypatch.setattr(geometry.export, "write_all", write_all)


def _run_machine(examples: int) -> None:
    from hypothesis.stateful import run_state_machine_as_test

    run_state_machine_as_test(
        Commands,
        settings=settings(
            max_examples=examples,
            stateful_step_count=30,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )


def test_commands_in_any_order_lose_nothing(stand_ins: None) -> None:
    _run_machine(10)


@pytest.mark.slow
def test_two_hundred_runs_of_commands_lose_nothing(stand_ins: None) -> None:
    _run_machine(200)
