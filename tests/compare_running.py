"""One job's commands with one checkout, each in a process of its own."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

from compare_jobs import CARDS, SHEET, Job

COMMAND = "from isolator.cli import main; main()"
WHENCE = "import isolator; print(isolator.__file__)"
SET = {"COLUMNS": "80", "OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
"""Lines as wide as in a narrow terminal; a core each, as both sides run at once."""


class Ran(NamedTuple):
    """How long one side took for a job [s], and the exit codes of its commands."""

    seconds: float
    codes: tuple[int, ...]


def imported_from(checkout: Path) -> Path:
    """Return the file that `isolator` is imported from when commands run with `checkout`."""
    return Path(_python(checkout, WHENCE).stdout.decode().strip() or "nowhere")


def run(job: Job, side: int, checkout: Path, here: Path) -> Ran:
    """Run a job's commands in the new folder `here`; what each tells goes into `here`/told."""
    told = here / "told"
    told.mkdir(parents=True)
    shutil.copytree(CARDS, here / CARDS.name)
    for name, text in job.texts[side].items():
        (here / name).write_text(text, encoding="utf-8")
    codes = []
    start = time.perf_counter()
    for number, words in enumerate(job.commands, 1):
        done = _python(checkout, COMMAND, *(_placed(word, here) for word in words))
        stem = f"{number:02}-{words[0].lstrip('-')}"
        (told / f"{stem}.out").write_bytes(done.stdout)
        (told / f"{stem}.err").write_bytes(done.stderr)
        (told / f"{stem}.code").write_text(f"{done.returncode}\n")
        codes.append(done.returncode)
    return Ran(time.perf_counter() - start, tuple(codes))


def _placed(word: str, here: Path) -> str:
    """Return a command's word with this side's folder, or the sheet that `design` left there."""
    if word == SHEET:
        return str(next(here.glob("out/*/design.toml"), here / "no sheet"))
    return word.replace("{here}", str(here))


def _python(checkout: Path, code: str, *words: str) -> subprocess.CompletedProcess[bytes]:
    """Run Python with nothing but a checkout before its libraries.

    Its hash seed is left to chance, so that what follows the order of a set is found out.
    """
    own = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=checkout,
        capture_output=True,
        check=False,
        env={**own, **SET, "PYTHONPATH": str(checkout)},
        stdin=subprocess.DEVNULL,
    )
