"""Readings of the fit coupon: what follows from them, how a brief holds them."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path
from statistics import median

import pytest
from briefs import BARE, ROOM, faults
from hypothesis import given
from hypothesis import strategies as st

from isolator.brief import read_brief_text
from isolator.brief.fit import fit_of
from isolator.brief.fit_store import store_readings, with_readings
from isolator.brief.starter import starter_text
from isolator.design.coupon import BY_LETTER
from isolator.reading.faults import InputError

HOLES = "ABCDE"
holes = st.lists(st.sampled_from(HOLES), min_size=1, unique=True)
offsets = st.integers(-40, 80).map(lambda steps: steps * 1e-5)  # [m], in what callipers tell


def read(letters: str | list[str], off: float) -> dict[str, float]:
    return {letter: BY_LETTER[letter].nominal + off for letter in letters}


def table(readings: dict[str, float]) -> str:
    lines = (f'{letter} = "{value * 1e3:.4f} mm"' for letter, value in readings.items())
    return "\n[fit]\n" + "\n".join(lines) + "\n"


@given(holes, offsets)
def test_a_known_offset_comes_back_through_the_brief(letters: list[str], off: float) -> None:
    brief = read_brief_text(BARE + table(read(letters, -off)), "brief.toml")
    # to 0.01 mm, to which it is rounded; never taken from holes
    assert brief.print.hole_compensation == pytest.approx(max(0.0, off), abs=1e-9)
    (told,) = (each for each in brief.assumed if each.key == "print.hole_compensation")
    assert told.why == "from your fit coupon"
    assert float(told.value.removesuffix(" mm")) == pytest.approx(max(0.0, off) * 1e3, abs=1e-6)
    assert not any(each.key.startswith("fit") for each in brief.assumed)


@given(
    st.lists(st.sampled_from(HOLES), min_size=3, unique=True),
    # scatter of 0.06 mm may hide a slip of 3 · 1.4826 · 0.06 mm beyond the median's own 0.06 mm
    offsets,
    st.floats(3.8e-4, 6e-4),
    st.sampled_from([-1.0, 1.0]),
    st.lists(st.floats(-3e-5, 3e-5), min_size=5, max_size=5),
    st.randoms(use_true_random=False),
)
def test_one_bad_reading_is_found_and_left_out(letters, off, slip, side, noise, random) -> None:
    readings = {
        letter: value + more
        for (letter, value), more in zip(read(letters, -off).items(), noise, strict=False)
    }
    bad = random.choice(letters)
    readings[bad] += side * slip
    fit = fit_of(readings)
    assert fit.holes is not None
    assert fit.holes.left_out == (bad,)
    kept = [BY_LETTER[k].nominal - v for k, v in readings.items() if k != bad]
    assert min(kept) - 1e-12 <= fit.holes.mean <= max(kept) + 1e-12  # rounding
    assert abs(fit.holes.mean - off) <= 3e-5 + 1e-12


def test_scatter_is_the_standard_deviation_of_what_is_kept() -> None:
    # 0.17, 0.20, 0.26 mm small: mean 0.21, deviations -4, -1, 5: √((16 + 1 + 25)/2) = √21
    fit = fit_of({"A": 3.23e-3, "C": 5.30e-3, "E": 8.74e-3})
    assert fit.holes is not None
    assert fit.holes.mean == pytest.approx(2.1e-4, abs=1e-12)
    assert fit.holes.scatter == pytest.approx(21**0.5 * 1e-5, rel=1e-9)
    assert fit.holes.left_out == ()
    single = fit_of({"B": 4.37e-3}).holes
    assert single is not None
    assert single.scatter is None


@given(offsets)
def test_with_two_readings_nobody_knows_which_is_bad(off: float) -> None:
    fit = fit_of({"B": 4.5e-3 - off, "D": 6.6e-3 - off - 5e-4})
    assert fit.holes is not None
    assert fit.holes.left_out == ()
    assert fit.holes.mean == pytest.approx(off + 2.5e-4, abs=1e-12)


@given(offsets, offsets, offsets)
def test_hexagons_pegs_and_the_bar_are_told_apart_from_holes(a, b, c) -> None:
    fit = fit_of({**read("FG", -a), **read("HJ", b), **read("K", c)})
    assert (fit.holes, fit.spread, fit.hole_compensation) == (None, None, None)
    assert fit.hexagons is not None
    assert fit.pegs is not None
    found = (fit.hexagons.mean, fit.pegs.mean, fit.width)
    assert found == pytest.approx((a, b, c), abs=1e-12)  # rounding


@pytest.mark.parametrize(
    ("above", "bed", "layer", "chamfer"),
    [
        # the layer's edge is cut at half its height, where a 45° chamfer has lost as much
        (35.06, 35.42, 0.2, 0.18 + 0.1),
        (34.91, 35.05, 0.28, 0.07 + 0.14),
        (35.06, 35.09, 0.2, 0.0),  # 0.015 mm a side: callipers do not tell it
        (35.06, 34.98, 0.2, 0.0),
        (35.02, 34.90, 0.2, None),  # two letters swapped
        (34.12, 35.98, 0.2, 0.8),  # more than thin plates bear
    ],
)
def test_a_spread_first_layer_gives_the_chamfer(above, bed, layer, chamfer) -> None:
    fit = fit_of({"K": above * 1e-3, "L": bed * 1e-3})
    assert fit.spread == pytest.approx((bed - above) / 2 * 1e-3, abs=1e-12)
    found = fit.first_layer_chamfer(layer * 1e-3)
    assert found == (None if chamfer is None else pytest.approx(chamfer * 1e-3, abs=5e-6))  # steps
    text = f'{BARE}\n[print]\nlayer = "{layer} mm"\n{table({"K": above * 1e-3, "L": bed * 1e-3})}'
    brief = read_brief_text(text, "brief.toml")
    default = 4e-4 if chamfer is None else chamfer * 1e-3
    assert brief.print.first_layer_chamfer == pytest.approx(default, abs=5e-6)
    assert brief.print.hole_compensation == 2e-4


def test_print_rules_over_the_coupon_and_the_brief_says_so() -> None:
    readings = {**read("BCE", -2.3e-4), "K": 35.1e-3, "L": 35.3e-3}
    own = '\n[print]\nhole_compensation = "0.15 mm"\nfirst_layer_chamfer = "0.45 mm"\n'
    brief = read_brief_text(BARE + own + table(readings), "brief.toml")
    assert brief.print.hole_compensation == pytest.approx(1.5e-4)
    assert brief.print.first_layer_chamfer == pytest.approx(4.5e-4)
    assert [line for line in brief.warnings if line.startswith("print")] == [
        "print.hole_compensation: 0.15 mm rules over the 0.23 mm that follows from [fit]; remove "
        "it to go by your fit coupon",
        "print.first_layer_chamfer: 0.45 mm rules over the 0.2 mm that follows from [fit]; remove "
        "it to go by your fit coupon",
    ]


def test_a_fit_out_of_the_ordinary_is_doubted() -> None:
    brief = read_brief_text(BARE + table(read("ABD", -7.1e-4)), "brief.toml")
    assert brief.print.hole_compensation == pytest.approx(7.1e-4)
    assert [line for line in brief.warnings if line.startswith("print")] == [
        "print.hole_compensation: 0.71 mm from [fit] is outside the usual 0 mm to 0.6 mm; "
        "measure again"
    ]


def test_faults_of_a_reading_say_where_what_and_how_to_mend() -> None:
    text = '\n[fit]\nA = 3.21\nB = "4.4 kg"\nD = "12 mm"\nF = "-7 mm"\nI = "3 mm"\ncomment = "x"\n'
    assert faults(BARE + text) == [
        'brief.toml: fit.A: found 3.21; wanted a length with its unit; write it like "3.21 mm"',
        'brief.toml: fit.B: found "4.4 kg"; wanted a length, in one of its units; '
        'if it is in mm, write it like "4.4 mm"',
        "brief.toml: fit.D: found 12 mm; wanted a reading within 1 mm of 6.6 mm; "
        "measure it again, or check the letter and the unit",
        'brief.toml: fit.F: found "-7 mm"; wanted a length above zero; '
        "check the value and its sign",
        "brief.toml: fit.I: found an unknown key; wanted a key of [fit]; "
        "it knows A, B, C, D, E, F, G, H, J, K, L, abs, asa, filament, pa, pc, petg, pla, tpu",
        "brief.toml: fit.comment: found an unknown key; wanted a key of [fit]; "
        "it knows A, B, C, D, E, F, G, H, J, K, L, abs, asa, filament, pa, pc, petg, pla, tpu",
    ]
    assert faults("fit = 3\n" + BARE) == [
        "brief.toml: fit: found 3; wanted a table; write it under [fit]"
    ]


TWO = """
[fit]
filament = "petg"
A = "3.1 mm"
K = "35 mm"
L = "35.4 mm"
[fit.asa]
A = "3.3 mm"
"""


def test_each_filament_is_drawn_by_its_own_readings() -> None:
    own = read_brief_text(ROOM + TWO, "brief.toml").print
    assert (own.material, own.motor_material) == ("petg", "asa")
    assert own.hole_compensation == pytest.approx(3e-4)
    assert own.first_layer_chamfer == pytest.approx(3e-4)
    asa = own.settings.for_filament("asa")
    assert asa.hole_compensation == pytest.approx(1e-4)
    assert asa.first_layer_chamfer == pytest.approx(4e-4)  # not measured: the usual one
    # nothing measured in the flexible filament: the usual figures, not those of another
    soft = own.settings.for_filament("tpu-95")
    assert (soft.hole_compensation, soft.first_layer_chamfer) == (2e-4, 4e-4)
    assert own.settings.for_filament("petg") == own.settings


def test_readings_in_one_filament_do_not_serve_another_and_the_brief_says_so() -> None:
    alone = TWO.split("[fit.asa]")[0]
    brief = read_brief_text(ROOM + alone, "brief.toml")
    assert brief.print.settings.for_filament("asa").hole_compensation == 2e-4
    (told,) = (each for each in brief.warnings if each.startswith("fit"))
    assert told.startswith("fit.asa: no hole was measured in this filament")
    # the other way round: nothing of the rigid parts' own
    other = read_brief_text(ROOM + alone.replace("petg", "asa"), "brief.toml")
    assert other.print.hole_compensation == 2e-4
    assert other.print.settings.for_filament("asa").hole_compensation == pytest.approx(3e-4)
    assert any(each.startswith("fit.petg: no hole was measured") for each in other.warnings)
    # readings of no told filament are taken for the rigid parts', which is said
    untold = read_brief_text(ROOM + alone.replace('filament = "petg"\n', ""), "brief.toml")
    assert untold.print.hole_compensation == pytest.approx(3e-4)
    assert untold.print.settings.for_filament("asa").hole_compensation == 2e-4
    assert any(each.startswith("fit.filament is not told") for each in untold.warnings)


def test_what_is_typed_in_print_rules_for_every_filament() -> None:
    text = (ROOM + TWO).replace("[fit]", '[print]\nhole_compensation = "0.15 mm"\n\n[fit]', 1)
    own = read_brief_text(text, "brief.toml").print.settings
    assert {own.for_filament(each).hole_compensation for each in ("petg", "asa", "tpu")} == {1.5e-4}


def test_readings_go_to_the_table_of_their_filament() -> None:
    held = with_readings(BARE + TWO, {"B": "4.4 mm"}, "asa", "petg")
    assert held is not None
    assert tomllib.loads(held)["fit"]["asa"] == {"A": "3.3 mm", "B": "4.4 mm"}
    fresh = with_readings(BARE, {"B": "4.4 mm"}, "pla", "petg")
    assert fresh is not None
    assert tomllib.loads(fresh)["fit"] == {"filament": "pla", "B": "4.4 mm"}
    # an older brief's readings are of its rigid parts
    older = BARE + '\n[fit]\nA = "3.1 mm"\n'
    own, other = (with_readings(older, {"B": "4.4 mm"}, each, "petg") for each in ("petg", "asa"))
    assert own is not None
    assert other is not None
    assert tomllib.loads(own)["fit"] == {"A": "3.1 mm", "filament": "petg", "B": "4.4 mm"}
    assert tomllib.loads(other)["fit"] == {"A": "3.1 mm", "asa": {"B": "4.4 mm"}}


typed = st.dictionaries(
    st.sampled_from("ABCDEFGHJKL"),
    st.integers(300, 3600).map(lambda x: f"{x / 100:g} mm"),
    min_size=1,
)
HELD = (
    "",
    "\n[fit] # measured on Monday\nA = '3.3 mm' # twice\n\n# a bed of its own\n[room2]\n",
    '\nfit = { A = "3.3 mm", G = "7.9 mm" } # mine\n',
    'fit.C = "5.3 mm" # dotted\n',
    "#[fit]\n#A = '3 mm'",
)


@given(typed, st.sampled_from((ROOM, starter_text())), st.sampled_from(HELD), st.booleans())
def test_comments_order_and_line_ends_survive(readings, brief, held, windows) -> None:
    before = brief + held if held[:1] in ("", "#") or "[fit]" in held else held + brief
    if windows:
        before = before.replace("\n", "\r\n")
    after = with_readings(before, readings)
    assert after is not None
    was, now = tomllib.loads(before), tomllib.loads(after)
    assert now.pop("fit") == {**was.pop("fit", {}), **readings}
    assert now == was
    assert (after.count("\r\n") == after.count("\n")) == windows
    # what was there stays in its order, but for readings that changed
    rest = iter(after.splitlines())
    for line in before.splitlines():
        if "mm" in line and ("3.3" in line or "fit" in line) and not line.startswith("#"):
            assert line.partition("#")[2] in after
        elif line:
            assert line in rest
    assert with_readings(after, readings) == after


def test_a_comment_that_heads_the_next_table_stays_with_it() -> None:
    before = '[fit]\nB = "4.31 mm" # twice\n\n# of the reading room\n[room]\n'
    assert with_readings(before, {"A": "3.22 mm", "B": "4.3 mm"}) == (
        '[fit]\nB = "4.3 mm" # twice\nA = "3.22 mm"\n\n# of the reading room\n[room]\n'
    )
    assert with_readings("fit = 3\n", {"A": "3.2 mm"}) is None


def test_a_brief_is_replaced_whole_through_a_link_with_its_mode(tmp_path: Path) -> None:
    real, link = tmp_path / "real.toml", tmp_path / "link.toml"
    real.write_bytes(b"\xef\xbb\xbfname = 'a' # \xc3\xa4\r\n")
    real.chmod(0o640)
    link.symlink_to(real)
    store_readings(link, {"A": "3.21 mm"})
    assert real.read_bytes() == (
        b"\xef\xbb\xbfname = 'a' # \xc3\xa4\r\n\r\n[fit]\r\nA = \"3.21 mm\"\r\n"
    )
    assert link.is_symlink()
    assert real.stat().st_mode & 0o777 == 0o640
    assert sorted(os.listdir(tmp_path)) == ["link.toml", "real.toml"]


def test_a_write_that_fails_leaves_the_brief_and_nothing_else(tmp_path, monkeypatch) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text("a = 1\n")

    def full(number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(InputError) as refused:
        store_readings(brief, {"A": "3.21 mm", "K": "35.1 mm"})
    assert str(refused.value).removeprefix(str(tmp_path)) == (
        "/brief.toml: fit: found no space left on device; wanted a brief that readings can be "
        'stored in; make it writable, or add these under [fit] by hand: A = "3.21 mm", '
        'K = "35.1 mm"'
    )
    assert brief.read_text() == "a = 1\n"
    assert os.listdir(tmp_path) == ["brief.toml"]


def test_the_median_is_what_the_far_reading_is_held_against() -> None:
    # by hand: 0.18, 0.20, 0.22, 0.24, 0.62 mm small; median 0.22, median deviation 0.02 mm,
    # 3 × 1.4826 × 0.02 = 0.09 mm, less than the 0.15 mm that is always let pass
    small = {"A": 0.18, "B": 0.20, "C": 0.22, "D": 0.24, "E": 0.62}
    assert median(small.values()) == 0.22
    near = {**small, "E": 0.36}
    for given_, left in ((small, ("E",)), (near, ())):
        fit = fit_of({k: BY_LETTER[k].nominal - v * 1e-3 for k, v in given_.items()})
        assert fit.holes is not None
        assert fit.holes.left_out == left


def test_what_was_saved_while_readings_were_stored_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(BARE, encoding="utf-8")
    seen: list[str] = []

    def edit_meanwhile(text: str, readings: dict[str, str], *more: str) -> str | None:
        seen.append(text)
        if len(seen) == 1:
            brief.write_text(f"# mine\n{BARE}", encoding="utf-8")
        return with_readings(text, readings, *more)

    monkeypatch.setattr("isolator.brief.fit_store.with_readings", edit_meanwhile)
    store_readings(brief, {"A": "3.21 mm"})
    held = brief.read_text(encoding="utf-8")
    assert held.startswith("# mine\n")
    assert tomllib.loads(held)["fit"] == {"A": "3.21 mm"}


@pytest.mark.parametrize("refused", [False, True])
def test_owner_group_and_mode_of_the_brief_stay(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, refused: bool
) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(BARE, encoding="utf-8")
    brief.chmod(0o640)
    before, given_to = brief.stat(), []
    # somebody else makes the new file: it is given away, or, where that is refused, not used
    real = Path.stat

    def stat(path: Path, **more: bool) -> os.stat_result:
        found = real(path, **more)
        if not path.name.endswith(".isolator-tmp"):
            return found
        return os.stat_result((*found[:4], found.st_uid + 1, *found[5:]))

    def chown(path: Path, user: int, group: int) -> None:
        if refused:
            raise PermissionError(1, "Operation not permitted")
        given_to.append((user, group))

    monkeypatch.setattr(Path, "stat", stat)
    monkeypatch.setattr(os, "chown", chown)
    store_readings(brief, {"A": "3.21 mm"})
    after = real(brief)
    assert (after.st_uid, after.st_gid, after.st_mode) == (
        before.st_uid,
        before.st_gid,
        before.st_mode,
    )
    assert given_to == ([] if refused else [(before.st_uid, before.st_gid)])
    assert (after.st_ino == before.st_ino) == refused
    assert tomllib.loads(brief.read_text(encoding="utf-8"))["fit"] == {"A": "3.21 mm"}
    assert [path.name for path in tmp_path.iterdir()] == ["brief.toml"]


def test_what_a_killed_run_left_beside_the_brief_goes(tmp_path: Path) -> None:
    brief = tmp_path / "brief.toml"
    brief.write_text(BARE, encoding="utf-8")
    (tmp_path / ".brief.toml-x1.isolator-tmp").write_text("half")
    (tmp_path / ".brief.toml-mine").write_text("whole")
    store_readings(brief, {"A": "3.21 mm"})
    assert sorted(path.name for path in tmp_path.iterdir()) == [".brief.toml-mine", "brief.toml"]
