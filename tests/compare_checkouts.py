"""Run every command on the same briefs with two checkouts of the project and compare all bytes.

    python tests/compare_checkouts.py OLD NEW [--quick] [--only NAME …] [--keep DIR] [--list]

OLD and NEW are folders that hold the project, such as two `git worktree`s. The Python that runs
this script runs both, so that their libraries are the same; but for Python's own caches nothing is
written into them.

What is run stands in `compare_jobs.py` and `compare_wrong.py`: the examples that OLD and NEW ship
(each its own), the briefs in `compare/`, of an invented makerspace in a public library, with their
variants, commands without a brief, the fit coupon, and briefs with typical mistakes. OLD and NEW
run at the same time, in folders of their own. What a command ended with and printed is kept there
as files beside all that it wrote; then both folders must hold the same files, byte for byte, but
for the masks below. A line each tells the name, how many files were compared, the seconds of OLD
and NEW, the exit codes in the order of the commands, and `same` or what differs.

`--quick` runs the examples and the fastest briefs. `--only` takes names as
`--list` tells them; a brief's name stands for all its variants. `--keep DIR` leaves there what
both wrote. Exit codes: 0 all is the same, 1 something differs, 2 it was called wrongly.
"""

from __future__ import annotations

import argparse
import re
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from itertools import groupby
from pathlib import Path, PurePath
from typing import NamedTuple

from compare_differ import Tree, differences, read_tree
from compare_jobs import Job, jobs
from compare_running import Ran, imported_from, run


class Mask(NamedTuple):
    """Bytes that may differ: in which files, as shell patterns; which; and why."""

    name: str
    files: tuple[str, ...]
    pattern: str  # regular expression; {here} stands for the folder that one side runs in
    reason: str


MASKS = (
    Mask(
        "seconds",
        ("told/*-design.out",),
        r"(?<= candidates in )[0-9.]+(?= s, )",
        "the search's own seconds; only the last table that `design` prints tells them",
    ),
    Mask(
        "folder",
        ("told/*", "out/*-fit/readings.txt"),
        r"{here}",
        "where brief and output lie; messages, and the coupon's sheet, name these",
    ),
)
"""All that is masked."""

SIDES = ("old", "new")
"""Folders of both sides; names of equal length, so that no printed line is longer on one side."""


def main() -> int:
    """Compare as asked for; return the exit code."""
    parser = _parser()
    asked = parser.parse_args()
    checkouts = (asked.old, asked.new)
    every = jobs(checkouts)
    if asked.list:
        print("\n".join(f"{job.name}{'  (quick)' if job.quick else ''}" for job in every))
        return 0
    for name in asked.only:
        if not any(_named(job, name) for job in every):
            parser.error(f"--only: nothing is called {name}; see --list")
    for checkout in checkouts:
        if not (found := imported_from(checkout)).is_relative_to(checkout):
            parser.error(f"with {checkout} isolator is imported from {found}")
    chosen = [job for job in every if _wanted(job, asked)]
    return _compare_all(chosen, checkouts, asked.keep)


def _compare_all(chosen: Sequence[Job], checkouts: Sequence[Path], keep: Path | None) -> int:
    masked: Counter[str] = Counter()
    wide = max(len(job.name) for job in chosen)
    unlike = 0
    with tempfile.TemporaryDirectory(prefix="compare-") as passing:
        for job in chosen:
            folder = (keep or Path(passing).resolve()) / job.name.replace("/", "-")
            heres = [folder / side for side in SIDES]
            print(f"{job.name:{wide}}", end="  ", flush=True)
            with ThreadPoolExecutor(len(SIDES)) as pool:
                ran = list(pool.map(run, [job] * len(SIDES), (0, 1), checkouts, heres))
            unlike += not _tell(ran, [_masked(here, masked) for here in heres])
            if keep is None:
                shutil.rmtree(folder)
    print("masked: " + ", ".join(f"{mask.name} {masked[mask.name]} times" for mask in MASKS))
    print(f"{unlike} of {len(chosen)} differ" if unlike else f"all {len(chosen)} are the same")
    return 1 if unlike else 0


def _tell(ran: Sequence[Ran], trees: Sequence[Tree]) -> bool:
    """Print the rest of a job's line, and what differs; return whether nothing does."""
    told = differences(*trees)
    seconds = "  ".join(f"{each.seconds:6.1f} s" for each in ran)
    codes = " / ".join(dict.fromkeys(_shortened(each.codes) for each in ran))
    count = len(trees[0].keys() | trees[1].keys())
    print(f"{count:4} files  {seconds}  exit {codes}  ", end="")
    print("\n    ".join(told) if told else "same", flush=True)
    return not told


def _shortened(codes: Sequence[int]) -> str:
    """Return exit codes in their order, such as "0×3 1"."""
    runs = [(code, len(list(same))) for code, same in groupby(codes)]
    return " ".join(f"{code}×{times}" if times > 1 else str(code) for code, times in runs)


def _masked(here: Path, masked: Counter[str]) -> Tree:
    """Return what one side left with its masked bytes replaced, and count these."""
    tree = read_tree(here)
    for mask in MASKS:
        pattern = mask.pattern.replace("{here}", re.escape(str(here))).encode()
        for name, data in tree.items():
            if any(PurePath(name).match(files) for files in mask.files):
                tree[name], times = re.subn(pattern, f"<{mask.name}>".encode(), data)
                masked[mask.name] += times
    return tree


def _named(job: Job, name: str) -> bool:
    return name in (job.name, job.name.partition("/")[0])


def _wanted(job: Job, asked: argparse.Namespace) -> bool:
    if asked.only:
        return any(_named(job, name) for name in asked.only)
    return job.quick or not asked.quick


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("old", metavar="OLD", type=_checkout)
    parser.add_argument("new", metavar="NEW", type=_checkout)
    parser.add_argument("--quick", action="store_true", help="examples and the fastest briefs")
    parser.add_argument("--only", metavar="NAME", nargs="+", default=[], help="these alone")
    parser.add_argument("--keep", metavar="DIR", type=_new_folder, help="leave what was written")
    parser.add_argument("--list", action="store_true", help="tell the names, run nothing")
    return parser


def _checkout(text: str) -> Path:
    path = Path(text).resolve()
    if not (path / "isolator").is_dir():
        raise argparse.ArgumentTypeError(f"{text} holds no checkout of the project")
    return path


def _new_folder(text: str) -> Path:
    path = Path(text).resolve()
    if path.exists():
        raise argparse.ArgumentTypeError(f"{text} is there already")
    return path


if __name__ == "__main__":
    sys.exit(main())
