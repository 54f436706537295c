"""The report tells what was found, in plain words with units, and loads nothing from outside."""

from __future__ import annotations

import dataclasses
import html.parser
import re
from functools import cache

import pytest
from report_drawn import COM_RANGE, KIT, PICTURES
from report_sample import HOSTILE, findings, plots
from rich.console import Console

from isolator.feet.checks import RULES
from isolator.feet.foot_checks import APART
from isolator.report.findings import Findings
from isolator.report.page.plots import plots_of
from isolator.report.page.render import render
from isolator.report.sentences import cautions, checks, notes, numbers, tiles
from isolator.report.terminal.summary import materials_table, pad_table, summary
from isolator.vibration.band import Band, Check
from isolator.vibration.heard import UNCHANGED
from isolator.vibration.results import Heard


def page(told: Findings) -> str:
    return render(told, PICTURES, KIT, plots_of(told, COM_RANGE))


@cache
def plain(passing: bool = True, searched: bool = True) -> tuple[Findings, str]:
    """Return findings and their page, written once."""
    told = findings(passing=passing, searched=searched)
    return told, render(told, PICTURES, KIT, plots(searched=searched))


class Outline(html.parser.HTMLParser):
    """Collects identifiers, references and text of a page, and whether its tags nest."""

    VOID = frozenset({"meta", "img", "br", "hr", "link", "input"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.references: list[str] = []
        self.tags: list[str] = []
        self.open: list[str] = []
        self.words: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.note(attrs)
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.note(attrs)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    def note(self, attrs: list[tuple[str, str | None]]) -> None:
        for key, value in attrs:
            if key == "id":
                self.ids.append(value or "")
            elif key in ("href", "src", "xlink:href", "action", "srcset", "poster"):
                self.references.append(value or "")
            assert not key.startswith("on")


def test_page_has_every_section_and_stands_alone() -> None:
    _, text = plain()
    seen = Outline(text)
    assert seen.open == []
    # in the order in which somebody checks a design
    order = [
        *("record", "first", "warnings", "cautions"),
        *("plan", "pictures", "checks", "feet", "creep", "modes", "sway"),
        *("answer", "others", "curve", "map", "speed-1", "speed-2", "speed-3"),
        *("motors", "making", "search", "assumed", "words", "sources"),
    ]
    assert [each for each in seen.ids if each in order] == order
    assert len(seen.ids) == len(set(seen.ids))
    assert {r[1:] for r in seen.references if r.startswith("#")} <= set(seen.ids)
    assert all(r.startswith(("#", "data:")) for r in seen.references)
    assert all(u.startswith("#") for u in re.findall(r"url\([\"']?([^)]*)", text))
    assert "@import" not in text
    assert not {"script", "link", "iframe", "object"} & set(seen.tags)
    # change heard, plan, curves, map, sway; two stacks, one torque loss
    assert text.count('<div class="chart">') == 5 + 3
    for kind in ("wide", "narrow"):
        assert text.count(f'<svg class="{kind}"') == 5 + 3
    assert text.count("data:image/svg+xml;base64,") == len(PICTURES)
    assert len(text.encode()) < 3_000_000


def test_page_tells_the_answer_in_words_and_workshop_units() -> None:
    told, written = plain()
    text = " ".join(" ".join(Outline(written).words).replace("\u00a0", " ").split())
    for sentence in (
        *told.answer,
        *told.make,
        *told.warnings,
        *cautions.ALWAYS.values(),
        *told.cautions,
    ):
        assert sentence in text
    assert notes.NO_PROMISE in text
    assert "10 dB(A) less sounds about half as loud" in text
    assert "At worst the printer sways 0.31 mm at the tool's height (limit 0.5 mm)." in text
    assert "Avoid 20 to 31 and 172 to 214 mm/s, where first layers often are" in text
    assert "in 86 % of the printers drawn at random" in text
    assert "60 000 tried, 17 411 met every limit" in text
    assert "Heard on a hard floor, against feet there now." in text
    assert "■ 60 mm/s 3 dB(A) quieter: may be louder (nine of ten: 6 quieter to 1 louder)" in text
    assert "● 100 mm/s 8 dB(A) quieter, about half as loud (nine of ten: 4 to 12)" in text
    assert "foam ● chosen 4 × Sponge, grade 2, rectangle 40 × 30 × 10 mm" in text
    # the chosen feet's own numbers: those of the quick look beside them differ
    assert "2 dB(A) louder (1 quieter to 5 louder); sways 0.31 mm" in text
    # 5.1 Hz at a damping ratio of 0.098: e^(-2π·0.098·5.1·t) is a tenth after 0.73 s
    assert "Pushed by hand it wobbles at 5.1 Hz and is calm again within 0.8 s." in text


def test_cells_are_labelled_for_a_narrow_screen() -> None:
    _, text = plain()
    for table in re.findall(r"<table.*?</table>", text, re.DOTALL):
        if "<thead" not in table:
            continue
        heads = [
            re.sub("<.*?>", "", head) for head in re.findall(r"<th[ >].*?</th>", table, re.DOTALL)
        ]
        for row in re.findall(r"<tr.*?</tr>", table.split("</thead>")[1], re.DOTALL):
            labels = re.findall(r'<td data-label="(.*?)"', row)
            assert labels == [head.split(">")[-1] for head in heads if head][: len(labels)]
            assert labels


def test_page_escapes_what_the_brief_says() -> None:
    told = findings(name=HOSTILE)
    one = dataclasses.replace(told.chosen.speeds[0].lines[0], source=HOSTILE, direction_deg=None)
    first = dataclasses.replace(told.chosen.speeds[0], lines=(one,), decided_by=one)
    named = dataclasses.replace(
        told.chosen.speed_map, sources=(HOSTILE, *told.chosen.speed_map.sources[1:])
    )
    chosen = dataclasses.replace(told.chosen, speeds=(first,), speed_map=named)
    text = page(dataclasses.replace(told, chosen=chosen, answer=(HOSTILE,), make=(HOSTILE,)))
    seen = Outline(text)
    assert "script" not in seen.tags
    assert (
        sum(HOSTILE in part for part in seen.words) >= 6
    )  # title, heading, answer, make, tone, map


MET = "These feet meet every limit of the brief"


@pytest.mark.parametrize(
    ("passing", "searched", "wanted"),
    [
        (True, True, "These feet meet every limit of the brief"),
        (False, True, "No design meets the limits; this is the nearest"),
        (True, False, "These feet meet every limit"),
        (False, False, "These feet do not meet every limit"),
    ],
)
def test_heading_is_honest(passing: bool, searched: bool, wanted: str) -> None:
    told, text = plain(passing, searched)
    assert f"{wanted}." in text
    assert ("✗ fails" in text) == (not passing)
    for failed in (
        "sway at the tool: 0.74 mm, wanted at most 0.5 mm; take stiffer or wider pads",
        "tilt left with the wedge: 0.28°, wanted at most 0.25°; slacken the belt",
    ):
        assert (failed in text) == (not passing)
    assert ("Nothing was searched" in text) == (not searched)
    shown = Console(width=120, no_color=True)
    with shown.capture() as caught:
        shown.print(summary(told))
    assert f"Reading-room printer: {wanted}." in caught.get()
    assert ("FAILS" in caught.get()) == (not passing)


def test_every_axis_says_its_unit() -> None:
    text = " ".join(Outline(plain()[1]).words)
    for label in (
        "frequency [Hz]",
        "push along x",
        "push along z",
        "T [–]",
        "−20 dB",
        "change [dB(A)]",
        "print speed [mm/s]",
        "print speed along one axis [mm/s]",
        "mean over the speeds [dB(A)]",
        "sway at the tool [mm]",
        "x, to the right [mm]",
        "y, to the back [mm]",
    ):
        assert label in text, label
    assert "sway limit 0.5 mm" in text
    assert "29.4 N" in text  # load of foot 1 in the plan


def test_same_findings_make_the_same_page() -> None:
    assert page(findings()) == plain()[1]


def test_cautions_cover_what_can_hurt() -> None:
    text = " ".join(cautions.ALWAYS.values()).lower()
    for word in (
        "mains",
        "discharged",
        "motor while the power is on",
        "burn",
        "bond",
        "protective earth",
        "electrician",
        "local codes",
        "slack",
        "heater",
        "power supply",
        "intakes",
        "unattended",
        "two people",
        "children",
        "pets",
        "earthquakes",
        "strap",
        "belt path",
        "homing",
        "level",
        "first layer",
        "first print",
        "motion measurements",
        "tune it again",
    ):
        assert word in text, word
    assert "safe" not in text  # nothing about electricity or fire may be called that


def test_margin_and_limit_know_their_side() -> None:
    most = Check(name="a", value=0.36, limit=0.45, unit="-", passed=True)
    least = Check(name="b", value=1.2, limit=1.5, unit="-", passed=False)
    over = Check(name="c", value=0.00074, limit=0.0005, unit="m", passed=False)
    assert (checks.limit(most), checks.margin(most)) == ("at most 0.45", "20 % to spare")
    assert (checks.limit(least), checks.margin(least)) == ("at least 1.5", "20 % short")
    assert (checks.limit(over), checks.margin(over)) == ("at most 0.5 mm", "48 % over")
    level = Check(name="d", value=6.15, limit=-1.0, unit="dB", passed=True)
    assert checks.margin(level) == "7.2 dB to spare"  # a level has no share of itself
    far = Check(name="e", value=8.87, limit=1.0, unit="-", passed=True)
    assert checks.margin(far) == "8.9 times the limit"
    assert numbers.readable(61.4, "degC") == "61.4 °C"


def test_terminal_tables_keep_brackets_and_say_verdicts_in_words() -> None:
    shown = Console(width=140, color_system="truecolor", force_terminal=True)
    with shown.capture() as caught:
        shown.print(summary(findings(name=HOSTILE)))
        shown.print(pad_table("Pad", [("compression", "114 N/mm", "bonded [red]")]))
        shown.print(materials_table([("nr-50", "Natural rubber, 50 Shore A", "rubber")]))
    text = re.sub(r"\x1b\[[0-9;]*m", "", caught.get())
    assert HOSTILE in text
    assert "bonded [red]" in text
    for word in ("▲ louder", "■ may be louder", "● quieter", "holds", "avoid: 20 to 31 mm/s"):
        assert word in text
    assert "5.1 Hz (4.4 to 6.0)" in text
    assert re.search(r"nr-50\s+Natural rubber, 50 Shore A\s+rubber", text)
    assert not re.search(r"\x1b\[[0-9;]*3[0-7]m", caught.get())  # bold and dim only, no colours


def test_no_more_is_promised_than_the_ceiling_of_the_brief() -> None:
    told = dataclasses.replace(findings(), ceiling_db=6.0)
    text = " ".join(" ".join(Outline(page(told)).words).split())
    # curve, tones, damper
    assert text.count("Beyond 6 dB nothing is promised of a single tone") == 3
    assert "30 dB" not in text
    assert "beyond 6 dB: no promise" in text
    losses = [line.insertion_loss for speed in told.chosen.speeds for line in speed.lines]
    assert max(band.nominal for band in losses) > 7.0
    assert not re.search(r"\b(?:[7-9]|\d\d) dB less \(", text)


def test_every_check_of_feet_has_an_advice_of_its_own_where_it_fails() -> None:
    def told(remedy: str, passed: bool) -> str:
        one = Check(name="any", value=0.0, limit=1.0, unit="mm", passed=passed, remedy=remedy)
        return checks.advice(one)

    names = [*(rule.name for rule in RULES), APART]
    assert len({told(name, False) for name in names}) == len(names)
    assert {told(name, True) for name in names} == {""}


def test_of_many_speeds_the_first_screen_tells_the_loudest() -> None:
    chosen = findings().chosen
    bands = [Band(low=-n - 2.0, nominal=-float(n), high=-n + 2.0) for n in range(1, 13)]
    many = tuple(
        dataclasses.replace(
            chosen.speeds[0],
            speed=0.01 * n,
            verdict="neutral",
            heard=Heard(desk=band, frame=UNCHANGED),
        )
        for n, band in enumerate(bands, 1)
    )
    rows = tiles.heard_rows(dataclasses.replace(chosen, speeds=many))
    assert [row[0] for row in rows] == ["10 mm/s", "20 mm/s", "30 mm/s", "40 mm/s", "8 others"]
    assert rows[0][1].startswith("1 dB(A) quieter")
    assert rows[-1][1] == "quieter than these"
