"""Names of folders, files and parts: lower-case ASCII letters, digits and hyphens."""

from __future__ import annotations

import re
import unicodedata

LONGEST_FOLDER = 60
_RESERVED = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")


def slug(*words: str, empty: str = "part") -> str:
    """Return `words` as one name for a file or a STEP product; `empty` where no letter is left.

    >>> slug("Füße vorn", "cup"), slug("日本")
    ('fusse-vorn-cup', 'part')
    """
    text = unicodedata.normalize("NFKD", "-".join(words)).casefold()
    plain = text.encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or empty


def folder_name(name: str) -> str:
    """Return a folder for a printer called `name`: at most 60 signs, never a device's name.

    >>> folder_name("Reading-room printer"), folder_name("../../Äpfel"), folder_name("CON")
    ('reading-room-printer', 'apfel', 'printer-con')
    """
    words = slug(name, empty="printer")[:LONGEST_FOLDER].strip("-")
    return f"printer-{words}" if _RESERVED.fullmatch(words) else words


def letter(name: str) -> str:
    """Return what tells one kind of foot from another, as it is engraved; empty for the only one.

    >>> letter("foot-b"), letter("foot")
    ('B', '')
    """
    return name.removeprefix("foot").strip("-").upper()
