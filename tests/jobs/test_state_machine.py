"""Commands in any order on folders of the user's: nothing lost, nothing half-written.

Files, sheets, briefs and folders are real; solving, solids and pictures are stood in for, so that
two hundred runs take two minutes.
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
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from isolator.brief import Brief, read_brief_text
from isolator.commands.design import solve
from isolator.commands.exchange import put
from isolator.commands.known_cards import known_cards
from isolator.commands.manifest import read_manifest, write_json, written
from isolator.report.findings import Findings

NAMES = ("one", "two", "日本", "中国")
names, picks = st.sampled_from(NAMES), st.integers(0, len(NAMES) - 1)
texts = st.integers(0, 10**6).map(str)
KILLS = ("writing", "before the exchange", "after the exchange")
kills = st.sampled_from(("", "", *KILLS))


class Killed(BaseException):
    """A run ends here, and nothing is cleaned up."""


def visible(folder: Path) -> dict[str, bytes]:
    """Return what is below a folder, without what a killed run left hidden there."""
    if not folder.exists():
        return {}
    return {name: held for name, held in tree(folder).items() if "/.isolator-" not in f"/{name}"}


class Commands(RuleBasedStateMachine):
    """A folder with briefs, and what a user does in it."""

    findings: Findings
    kill = ""  # where a run is to be killed, of `KILLS`
    dead = False  # a killed run cleans nothing up

    def __init__(self) -> None:
        super().__init__()
        self.room = Path(tempfile.mkdtemp())
        self.out = self.room / "out"
        self.typed: set[bytes] = set()  # all that the user wrote into files of ours
        self.own: dict[Path, bytes] = {}
        self.fits: dict[str, dict[str, str]] = {}
        self.left = False  # a killed run may have left something hidden

    def teardown(self) -> None:
        shutil.rmtree(self.room)

    def _brief(self, name: str) -> Path:
        return self.room / f"{NAMES.index(name)}.toml"

    def _started(self, pick: int) -> str:
        """Return the name of one of the briefs that are there."""
        there = [name for name in NAMES if self._brief(name).exists()]
        return there[pick % len(there)]

    def _designed(self, pick: int) -> Path:
        """Return one of the folders that designs stand in."""
        there = sorted(path.parent for path in self.out.glob("[!.]*/design.toml"))
        return there[pick % len(there)]

    def _run(self, *words: object) -> int:
        ran = isolator(*words, "--quiet")
        assert ran.code in (0, 1, 2, 3), ran.err
        assert (ran.err == "") == (ran.code in (0, 1)), ran
        return ran.code

    @initialize(name=names, another=names)
    def begin(self, name: str, another: str) -> None:
        for each in (name, another):
            self.start(each)
        self.design(0, 1, "")

    @rule(name=names)
    def start(self, name: str) -> None:
        brief = self._brief(name)
        before = brief.read_bytes() if brief.exists() else None
        assert self._run("start", brief) == (0 if before is None else 2)
        if before is None:
            brief.write_text(replaced(brief.read_text("utf-8"), "name", f'"{name}"'), "utf-8")
        else:
            assert brief.read_bytes() == before

    @rule(pick=picks, text=texts)
    def edit_brief(self, pick: int, text: str) -> None:
        with self._brief(self._started(pick)).open("a", encoding="utf-8") as stream:
            stream.write(f"# {text}\n")

    @rule(pick=picks, text=texts, file=st.sampled_from(("design.toml", "shopping.csv")))
    def edit(self, pick: int, text: str, file: str) -> None:
        path = self._designed(pick) / file
        before = path.read_bytes()
        with path.open("a", encoding="utf-8") as stream:
            stream.write(f"# {text}\n")
        if before not in visible(self.room).values():
            self.typed.discard(before)  # the user's own hand went over it
        self.typed.add(path.read_bytes())

    @rule(pick=picks, text=texts, file=st.sampled_from(("notes.txt", "parts/mine.stl", "a/b")))
    def add_own(self, pick: int, text: str, file: str) -> None:
        path = self._designed(pick) / file
        path.parent.mkdir(exist_ok=True)
        path.write_text(text)
        self.own[path] = text.encode()

    @rule(pick=picks, times=st.integers(1, 2), kill=kills)
    def design(self, pick: int, times: int, kill: str) -> None:
        for _ in range(times):
            self._perhaps_killed(kill, "design", self._brief(self._started(pick)))

    @rule(pick=picks, kill=kills)
    def draw(self, pick: int, kill: str) -> None:
        self._perhaps_killed(kill, "draw", self._designed(pick) / "design.toml")

    def _perhaps_killed(self, kill: str, *words: object) -> None:
        before = visible(self.out)
        Commands.kill = kill
        try:
            if self._run(*words, "--out", self.out) in (0, 1):
                self.left = False
        except Killed:
            self.left = True
            assert kill == KILLS[-1] or visible(self.out) == before
        finally:
            Commands.kill, Commands.dead = "", False

    @rule(name=names)
    def check(self, name: str) -> None:
        before = visible(self.room)
        self._run("check", self._brief(name), "--out", self.out)
        assert visible(self.room) == before

    @rule(pick=picks, letter=st.sampled_from("ABCDE"), off=st.integers(1, 40))
    def fit(self, pick: int, letter: str, off: int) -> None:
        name = self._started(pick)
        nominal = {"A": 340, "B": 450, "C": 550, "D": 660, "E": 900}[letter]
        value = f"{(nominal - off) / 100:g} mm"
        brief = self._brief(name)
        before = brief.read_bytes()
        if self._run("fit", brief, f"{letter}={value}") == 0:
            self.fits.setdefault(name, {})[letter] = value
            for key, reading in self.fits[name].items():
                assert f'{key} = "{reading}"' in brief.read_text(encoding="utf-8")
        else:
            assert brief.read_bytes() == before

    @invariant()
    def no_file_of_the_users_is_lost(self) -> None:
        held = set(visible(self.room).values())
        assert self.typed <= held
        for path, text in self.own.items():
            assert path.read_bytes() == text

    @invariant()
    def no_folder_is_half_written(self) -> None:
        for folder in self.out.iterdir() if self.out.exists() else ():
            if folder.name.startswith("."):
                assert self.left
                continue
            told = read_manifest(folder)
            assert told
            assert all((folder / name).is_file() for name in written(told))
            assert {"design.toml", "report.html", "result.json"} <= set(written(told))


@pytest.fixture
def stand_ins(monkeypatch: pytest.MonkeyPatch) -> None:
    import geometry.draw
    import geometry.export
    import geometry.finish.printed

    text = example("reading-room")
    brief = read_brief_text(text, "brief.toml")
    Commands.findings = solve(brief, known_cards(brief), lambda what, done, total: None)

    def killed(where: str) -> None:
        if Commands.kill == where:
            Commands.dead = True
            raise Killed

    def put_and_killed(fresh: Path, target: Path) -> None:
        killed("before the exchange")
        put(fresh, target)
        killed("after the exchange")

    def cleaned(folder: Path, **more: Any) -> None:
        if not Commands.dead:
            rmtree(folder, **more)

    rmtree = shutil.rmtree
    monkeypatch.setattr(shutil, "rmtree", cleaned)
    monkeypatch.setattr("isolator.commands.output.put", put_and_killed)

    def named(brief: Brief, *rest: Any) -> Findings:
        found = Commands.findings
        assert found.design is not None
        own = replace(found.design, name=brief.name, slug=brief.slug)
        return replace(found, name=brief.name, slug=brief.slug, design=own)

    def write_files(design: Any, folder: Path, parts: Any) -> tuple[dict[str, Any], list[Any]]:
        (folder / "parts").mkdir()
        (folder / "parts" / "foot.stl").write_text(design.name, encoding="utf-8")
        killed("writing")
        return {"name": design.name, "files_sha256": {}}, []

    def report(folder: Path, brief: Brief, cards: Any, findings: Findings, *rest: Any) -> None:
        write_json(folder / "result.json", {"name": findings.name})
        (folder / "report.html").write_text(findings.name, encoding="utf-8")
        (folder / "shopping.csv").write_text("item,number\n", encoding="utf-8")

    monkeypatch.setattr("isolator.commands.design.answered", named)
    monkeypatch.setattr("isolator.commands.publish_design.with_now", lambda found, *rest: found)
    monkeypatch.setattr("isolator.commands.draw.assess", named)
    monkeypatch.setattr("isolator.commands.check.assess", named)
    monkeypatch.setattr("isolator.commands.draw.shopping_csv", lambda items: "item,number\n")
    monkeypatch.setattr("isolator.commands.draw.shopping_items", lambda *rest: [])
    for module, pictures in (("draw", "scenes_of"), ("publish_design", "kit_scenes")):
        monkeypatch.setattr(f"isolator.commands.{module}.write_report", report)
        monkeypatch.setattr(f"isolator.commands.{module}.draw_plots", lambda *given: None)
        monkeypatch.setattr(f"isolator.commands.{module}.{pictures}", lambda *given: {})
    monkeypatch.setattr(geometry.draw, "draw", lambda design, tell: [])
    monkeypatch.setattr(geometry.export, "write_files", write_files)
    monkeypatch.setattr(geometry.finish.printed, "finished", lambda folder, told, printed: told)


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
