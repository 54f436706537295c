"""Which feet are judged, from which file, made when."""

from __future__ import annotations

from datetime import datetime

from isolator.report.findings import Judged

_WORDS = {
    "designed": "as designed in {file}, made {made}",
    "given": "as given in {file}, written {made}",
    "there now": "those there now, as told in {file}, written {made}",
}


def judged_words(judged: Judged) -> str:
    """Return which feet are judged, the time of their file in local time."""
    told = _WORDS[judged.feet].format(file=judged.file, made=made_words(judged))
    if judged.looked:
        told += f"; {judged.looked} has no design of this brief: where it lies, --out FOLDER tells"
    return f"Feet: {told}; nothing is drawn."


def made_words(judged: Judged) -> str:
    """Return when the file that tells the feet was written, in local time."""
    return f"{datetime.fromtimestamp(judged.made):%Y-%m-%d %H:%M}"
