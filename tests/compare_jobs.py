"""What is run with both checkouts: briefs and their variants, and commands without a brief."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from compare_wrong import WRONG

HERE = Path(__file__).parent / "compare"
CARDS = HERE / "cards"
"""Cards of our own, put beside every brief."""
SHEET = "{sheet}"
"""Word that stands for the sheet that a job's `design` left."""

Pairs = tuple[tuple[str, str], ...]
"""Old texts, each of which stands in a brief once, and what takes its place."""


class Job(NamedTuple):
    """Commands that run one after the other in one folder."""

    name: str
    quick: bool
    texts: tuple[dict[str, str], dict[str, str]]  # files that are there first, of OLD and of NEW
    commands: tuple[tuple[str, ...], ...]  # "{here}" is the folder


QUICK = ("archive", "archive/tapped-end", "play-corner", "quiet-study")
"""Briefs that are soonest done."""

VARIANTS: dict[str, dict[str, Pairs]] = {
    "entrance-hall": {
        "slot-30": (
            ('"slot-20"', '"slot-30"\nbolt = "8 mm"'),
            ('slot_key = "6 mm"\n', ""),
            ('slot_along = "x"', 'slot_along = "y"'),
        ),
        "slot-40": (
            ('"slot-20"', '"slot-40"'),
            ('slot_key = "6 mm"\n', ""),
            ('slot_along = "x"', 'slot_along = "y"'),
        ),
    },
    "window-seat": {
        "holes": (
            ('"two-bolts"', '"holes"'),
            ('spacing = "62 mm"', 'holes = [["-31 mm", "4 mm"], ["31 mm", "4 mm"]]'),
        ),
        "self-tapping": (
            ('"two-bolts"', '"self-tapping"'),
            ('bolt = "4 mm"\n', ""),
            ('grip = "3 mm"', 'grip = "12 mm"'),
        ),
    },
    "seminar-room": {
        "nut": (('fixing = "screw"', 'fixing = "nut"'), ('rubber = "cast"\n', "")),
        "insert": (('fixing = "screw"', 'fixing = "insert"'), ('shapes = ["pads"]\n', "")),
        "direct": (('fixing = "screw"', 'fixing = "direct"'), ('grip = "2 mm"', 'grip = "6 mm"')),
    },
    "archive": {
        "tapped-end": (('"adhesive"', '"tapped-end"'),),
    },
    "play-corner": {
        "bolt": (('"stud"', '"bolt"\nfixing = "insert"'), ('bolt = "6 mm"', 'bolt = "5 mm"')),
    },
    "gallery": {
        "rod-end": (
            ('"tube-end"\ntube = "17 mm"', '"rod-end"\nrod = "10 mm"'),
            ('pads = "level"', 'pads = "equal"\nengrave = false'),
        ),
    },
}
"""Briefs that are run more than once, with other texts in places.

A slot of 30 mm with M6, and a key in a slot along y, are left out: two arcs of such an outline meet
in one vertex, which the drawing kernel puts 1e-16 mm elsewhere in every run, so that one checkout
differs from itself.
"""

DESIGNED = {"entrance-hall": 'design = "out/entrance-hall-printer/design.toml"'}
"""Briefs that are checked once more with their feet taken from the design of before."""

BRIEF, OUT = "{here}/brief.toml", ("--out", "{here}/out")
SPEEDS = ("--speed", "55 mm/s", "--speed", "130 mm/s")
FREQUENCIES = ("--frequency", "25 Hz", "--frequency", "60 Hz")
DESIGN = ("design", BRIEF, *OUT)
CHECK = ("check", BRIEF, *OUT, *SPEEDS, *FREQUENCIES)
DRAW = ("draw", SHEET, "--out", "{here}/again")

PLAIN = (
    ("start", "{here}/started.toml"),
    ("start", "{here}/started.toml"),
    ("check", "{here}/started.toml", *OUT),
    ("materials",),
    ("materials", "--json"),
    ("materials", "nr-50", "--json"),
    ("materials", "tpu-85-gyroid-25"),
    ("materials", "bookend-rubber", "--cards", "{here}/cards"),
    ("materials", "nr-05"),
    ("pad", "nr-50", "disc", "30mm", "10mm", "--load", "29 N", "--json"),
    ("pad", "sponge-2", "ring", "40mm", "14mm", "12mm", "--load", "16 N"),
    ("pad", "tpu-95-gyroid-15", "square-with-hole", "36mm", "12mm", "15mm", "--load", "31 N"),
    ("pad", "2 MPa", "rectangle", "25mm", "40mm", "8mm", "--slipping", "--json"),
    ("pad", "nr-50", "disc", "30mm", "--load", "29"),
    ("draw", "{here}/started.toml", *OUT),
    ("--help",),
    ("design", "--help"),
    ("check", "{here}/none.toml"),
)
"""Commands that need no brief of ours."""

FIT = (
    ("fit", BRIEF, *OUT),
    ("fit", BRIEF, *OUT, "--json"),
    ("fit", BRIEF, "A=3.18mm", "C=5.31mm", "F=6.87mm", "H=6.09mm", "L=35.38mm"),
    ("fit", BRIEF, "D=6.35 mm", "--json"),
    ("fit", BRIEF, "A=5.3mm", "Q=1mm", "B"),
)
"""The coupon drawn, readings stored in the brief, readings refused."""


def jobs(checkouts: Sequence[Path]) -> list[Job]:
    """Return all jobs, the quick ones among them; examples are each checkout's own."""
    found = [_plain(), _fit(), _wrong(), *_examples(checkouts)]
    for path in sorted(HERE.glob("*.toml")):
        text, name = path.read_text(encoding="utf-8"), path.stem
        found.append(_brief(name, text))
        for variant, pairs in VARIANTS.get(name, {}).items():
            files = {"brief.toml": swapped(text, pairs)}
            commands = ((*DESIGN, "--json"), CHECK)
            full = f"{name}/{variant}"
            found.append(Job(full, full in QUICK, (files, files), commands))
    return found


def swapped(text: str, pairs: Pairs) -> str:
    """Return `text` with each old text replaced; raises ValueError where one is not there once."""
    for old, new in pairs:
        if text.count(old) != 1:
            raise ValueError(f"{old!r} stands {text.count(old)} times in the brief")
        text = text.replace(old, new)
    return text


def _plain() -> Job:
    return Job("plain-commands", True, ({}, {}), PLAIN)


def _fit() -> Job:
    files = {"brief.toml": (HERE / "window-seat.toml").read_text(encoding="utf-8")}
    return Job("fit-coupon", True, (files, files), FIT)


def _wrong() -> Job:
    files = {
        f"{name}.toml": swapped((HERE / f"{base}.toml").read_text(encoding="utf-8"), pairs)
        for name, (base, pairs) in WRONG.items()
    }
    return Job(
        "wrong-briefs",
        True,
        (files, files),
        tuple(("design", f"{{here}}/{name}", *OUT) for name in files),
    )


def _examples(checkouts: Sequence[Path]) -> list[Job]:
    """Return a job an example; one of them is designed where no brief is named."""
    old, new = (
        {
            path.stem: {"brief.toml": path.read_text(encoding="utf-8")}
            for path in sorted((checkout / "isolator").glob("**/examples/*.toml"))
        }
        for checkout in checkouts
    )
    shipped = ("design", *OUT)
    return [
        Job(
            f"example-{name}",
            True,
            (old.get(name, {}), new.get(name, {})),
            (shipped if name == "reading-room" else DESIGN, CHECK, (*CHECK, "--json"), DRAW),
        )
        for name in sorted(old.keys() | new.keys())
    ]


def _brief(name: str, text: str) -> Job:
    files = {"brief.toml": text}
    more: tuple[tuple[str, ...], ...] = ()
    if name in DESIGNED:
        files["designed.toml"] = swapped(text, (("[feet]\n", f"[feet]\n{DESIGNED[name]}\n"),))
        more = (("check", "{here}/designed.toml", *OUT),)
    commands = (DESIGN, CHECK, (*CHECK, "--json"), *more, DRAW)
    return Job(name, name in QUICK, (files, files), commands)
