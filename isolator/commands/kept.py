"""What is not ours in a folder that is made again: carried over, edited files as dated copies."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from isolator.commands.manifest import MARK, digest, read_manifest, written

EDITED = "edited-"


def carry_over(old: Path, fresh: Path) -> list[str]:
    """Put into `fresh` whatever in `old` its manifest does not list as it stands there.

    Files of the user's own keep their names; a listed one that was edited since, that was drawn
    from by hand, or whose `earlier` contents stay, becomes a dated copy, unless `fresh` holds just
    that. Returns the names of the dated copies made.
    """
    told = read_manifest(old)
    listed, by_hand = written(told), told.get("by_hand", ())
    copies: list[str] = []
    together: list[str] = []
    for name, path in _files(old):
        if name == MARK:
            continue
        own = name not in listed
        if not own and name not in by_hand and _as_written(path, listed[name]):
            if name in told.get("earlier", ()):
                together.append(name)
            continue
        place = fresh / name
        if own and not os.path.lexists(place) and _makes_way(fresh, name):
            _same_folders(old, fresh, name)
            _put(path, place)
        elif not _holds(place, path):
            copy = _dated(old, fresh, name, path)
            if copy is not None:
                _same_folders(old, fresh, copy)
                _put(path, fresh / copy)
                copies.append(copy)
    for name, copy in _earlier(old, fresh, together).items():
        _put(old / name, fresh / copy)
        copies.append(copy)
    for folder in _empty(old):
        if not os.path.lexists(fresh / folder) and _makes_way(fresh, folder):
            _same_folders(old, fresh, f"{folder}/x")
    return copies


def _earlier(old: Path, fresh: Path, names: Sequence[str]) -> dict[str, str]:
    """Return names of copies of files that belong together, one date and number for all of them.

    None where all are in `fresh`, or were kept today. They lie at the top of `old`.
    """
    if all(_holds(fresh / name, old / name) for name in names):
        return {}
    number = 1
    while True:
        copies = {name: _copy(Path(name), "", number) for name in names}
        if all(_holds(old / copy, old / name) for name, copy in copies.items()):
            return {}
        if not any(_taken(old, fresh, copy) for copy in copies.values()):
            return copies
        number += 1


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Yield everything below a folder that is no folder, links among it, by its path."""
    for at, folders, names in os.walk(folder):
        links = [name for name in folders if (Path(at) / name).is_symlink()]
        for name in sorted([*names, *links]):
            path = Path(at) / name
            yield path.relative_to(folder).as_posix(), path


def _empty(folder: Path) -> list[str]:
    found = [Path(at) for at, folders, names in os.walk(folder) if not folders and not names]
    return [path.relative_to(folder).as_posix() for path in found if path != folder]


def _as_written(path: Path, held: str | None) -> bool:
    """Return whether a listed file is what was written; one without a hash is taken for it."""
    if path.is_symlink() or not path.is_file():
        return False
    return held is None or digest(path.read_bytes()) == held


def _holds(place: Path, path: Path) -> bool:
    plain = [each.is_file() and not each.is_symlink() for each in (place, path)]
    return all(plain) and place.read_bytes() == path.read_bytes()


def _makes_way(fresh: Path, name: str) -> bool:
    """Return whether no file of `fresh` stands where `name` needs a folder."""
    above = [fresh / each for each in Path(name).parents]
    return all(each.is_dir() for each in above if os.path.lexists(each))


def _dated(old: Path, fresh: Path, name: str, path: Path) -> str | None:
    """Return a free name for a copy of today; None where an earlier copy holds the same."""
    whole = Path(name) if _makes_way(fresh, name) else Path(name.replace("/", "-"))
    stem = f"{whole.stem}.{EDITED}"
    above = old / whole.parent
    if above.is_dir() and any(
        each.name.startswith(stem) and each.suffix == whole.suffix and _holds(each, path)
        for each in above.iterdir()
    ):
        return None
    number = 1
    while _taken(old, fresh, _copy(whole, EDITED, number)):
        number += 1
    return _copy(whole, EDITED, number)


def _copy(whole: Path, word: str, number: int) -> str:
    """Return the name of a copy of today, `word` before the date."""
    more = "" if number == 1 else f"-{number}"
    return whole.with_name(f"{whole.stem}.{word}{date.today()}{more}{whole.suffix}").as_posix()


def _taken(old: Path, fresh: Path, name: str) -> bool:
    return os.path.lexists(old / name) or os.path.lexists(fresh / name)


def _same_folders(old: Path, fresh: Path, name: str) -> None:
    """Make the folders above `name` in `fresh` as they are in `old`."""
    for above in reversed(Path(name).parents):
        if not (fresh / above).exists():
            (fresh / above).mkdir()
            if (old / above).is_dir():
                shutil.copymode(old / above, fresh / above)


def _put(path: Path, place: Path) -> None:
    """Put the file itself at `place` as well, or a copy where a disk has no second names."""
    try:
        os.link(path, place, follow_symlinks=False)
    except (OSError, NotImplementedError):
        if not path.is_symlink() and not path.is_file():
            raise  # a pipe or a device: not to be read
        shutil.copy2(path, place, follow_symlinks=False)
