"""What is told of recordings of test moves, published: a picture, words and JSON in one folder."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from isolator.commands.manifest import Origin, write_json, write_manifest
from isolator.commands.output import Published, publish
from isolator.design.version import version
from isolator.report.json.values import Json

RESULT = "result.json"


def publish_told(
    out: Path, slug: str, name: str, texts: Mapping[str, str], told: Json
) -> Published:
    """Write `texts`, by their files' names, and `told` into `out`/`slug`.

    What other recordings told there stays as dated copies. `name` is that of the brief, or of the
    recording where there is none. Raises InputError for a place that is taken.
    """

    def write(fresh: Path) -> None:
        for file, text in texts.items():
            (fresh / file).write_text(text, encoding="utf-8")
        write_json(fresh / RESULT, told)
        write_manifest(fresh, {"name": name, "version": version()}, earlier=[*texts, RESULT])

    return publish(out, slug, write, Origin(name=name, file=None, held=b""))
