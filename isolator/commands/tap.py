"""`isolator tap`: natural frequencies and damping from recordings of taps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from isolator.brief.read import read_brief_text
from isolator.commands.manifest import read_manifest, write_json, write_manifest
from isolator.commands.output import publish
from isolator.commands.tapped_brief import correct
from isolator.commands.tapped_copy import corrected_text
from isolator.measuring.folds import folds
from isolator.measuring.tap_found import DESK, FEET, HARD, TapFound
from isolator.measuring.tap_windows import find_taps
from isolator.measuring.tapped import tapped_modes
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import InputError, refused
from isolator.reading.printable import printable
from isolator.recordings.known_tone import clock_ratio, with_clock
from isolator.recordings.options import ReadOptions
from isolator.recordings.read import read_recording
from isolator.recordings.recording import Recording
from isolator.report.figures.decay import decay_figure
from isolator.report.json.tap import tap_json

HIGHEST = 150.0
"""Frequency up to which modes are looked for unless told [Hz]: feet and frames lie below."""
LEAST = 2.0
"""Up to which modes must be looked for, at least [Hz]: slower swings are lost in drift."""
RESULT, PICTURE, COPY = "tap.json", "tap.svg", "corrected.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class TapQuestion:
    """How taps are to be looked at."""

    of: str = FEET  # one of `measuring.tap_found`
    highest: float = HIGHEST  # [Hz]
    known_tone: float | None = None  # true frequency of a steady tone in the recordings [Hz]


def what_was_tapped(*, desk: bool, hard: bool, brief: bool) -> str:
    """Return what options say was tapped; raises InputError where they do not go together."""
    if desk and brief:
        raise refused(
            COMMAND_LINE,
            "--desk and --brief",
            "both",
            "one of them: a desk alone tells nothing of feet and frame",
            "leave out --brief",
        )
    if desk and hard:
        raise refused(
            COMMAND_LINE,
            "--desk and --hard",
            "both",
            "one of them, or none for a printer on its feet",
            "tap the desk in a recording of its own",
        )
    return DESK if desk else HARD if hard else FEET


def tap(files: Sequence[Path], options: ReadOptions, question: TapQuestion) -> TapFound:
    """Return what taps in recordings tell.

    Raises InputError for files that cannot be read, and where nobody tapped.
    """
    names = [printable(str(file)) for file in files]
    _refuse_twice(files, names)
    recordings = [read_recording(file, options) for file in files]
    ratio = None
    if question.known_tone is not None:
        ratios = [
            clock_ratio(n, r, question.known_tone) for n, r in zip(names, recordings, strict=True)
        ]
        recordings = [with_clock(r, each) for r, each in zip(recordings, ratios, strict=True)]
        ratio = ratios[0]
    highest = _highest(question.highest, names, recordings)
    taps = [find_taps(each, highest) for each in recordings]
    if not any(each.pieces for each in taps):
        raise refused(
            names[0],
            "",
            "no tap that rings out",
            "a quiet second, a tap with a knuckle, three quiet seconds; five times or more",
            "fix the sensor to what you tap, and record again with motors and fans off",
        )
    return TapFound(
        of=question.of,
        names=tuple(names),
        recordings=tuple(recordings),
        taps=tuple(taps),
        tapped=tapped_modes(taps, highest),
        highest=highest,
        clock_ratio=ratio,
    )


def _refuse_twice(files: Sequence[Path], names: Sequence[str]) -> None:
    places = [file.resolve() for file in files]
    for n, place in enumerate(places):
        if place in places[:n]:
            raise refused(
                names[n], "", "the same file twice", "each recording once", "name it once"
            )


def _highest(asked: float, names: Sequence[str], recordings: Sequence[Recording]) -> float:
    """Return up to which frequency all recordings tell modes [Hz]."""
    if asked < LEAST:
        raise refused(
            COMMAND_LINE,
            "--highest",
            f"{asked:g} Hz",
            f"{LEAST:g} Hz or more",
            "raise it, or leave it out",
        )
    for name, recording in zip(names, recordings, strict=True):
        good = recording.verdict.usable_hz[1]
        if good < LEAST:
            raise refused(
                name,
                "",
                f"{recording.rate:.3g} samples a second, good for no more than {good:.2g} Hz",
                f"a recording that is good for {LEAST:g} Hz or more",
                "record faster, or correct --rate or --time-unit",
            )
    return min(asked, *(each.verdict.usable_hz[1] for each in recordings))


def _refuse_another(folder: Path, file: Path) -> None:
    """Refuse to replace what another recording told, as long as that one is there."""
    other = read_manifest(folder).get("recording")
    if isinstance(other, str) and Path(other).is_file() and not Path(other).samefile(file):
        raise refused(
            printable(str(folder)),
            "",
            f"what another recording told ({printable(other)})",
            "a place of its own for the output",
            "move it away, rename the recording, or choose another --out",
        )


def with_brief(found: TapFound, path: Path, out: Path) -> TapFound:
    """Return what taps tell of the brief in `path` too.

    Designed feet are looked for in `out`. Raises InputError for a brief at fault, or one that tells
    no feet where some were tapped.
    """
    brief, corrected = correct(path, found, out)
    rate = found.recordings[0].rate
    return replace(found, corrected=corrected, folds=folds(brief.motion, brief.motion.speeds, rate))


def publish_tap(
    found: TapFound, out: Path, file: Path, brief: Path | None = None
) -> tuple[Path, str]:
    """Write result and picture into `out`/<file>-tap/, and a copy of the brief where taps correct
    it; return the folder, and why there is no copy where it would be refused.

    `file` is the first recording. Raises InputError where the folder is of another one.
    """
    slug = f"{file.stem}-tap"
    _refuse_another(out / slug, file)
    why: list[str] = []

    def write(fresh: Path) -> None:
        write_json(fresh / RESULT, {"tap": tap_json(found)})
        (fresh / PICTURE).write_text(decay_figure(found), encoding="utf-8")
        if brief is not None and found.corrected is not None:
            text = corrected_text(brief, found.corrected, out / slug)
            try:
                # beside the folder to be: the same paths lead to the same places
                if text:
                    read_brief_text(text, str(fresh / COPY))
                    (fresh / COPY).write_text(text, encoding="utf-8")
            except InputError as error:
                why.append(error.faults[0].line().replace(str(fresh), str(out / slug)))
        write_manifest(fresh, {}, recording=str(file.resolve()))

    folder = publish(out, slug, write, None).folder
    return folder, "".join(why)
