"""Lengths, speeds and pads in words."""

from __future__ import annotations

from isolator.design import Pad


def millimetres(length: float, digits: int) -> str:
    """Return a length [m] in millimetres, without idle zeros.

    >>> millimetres(0.0125, 2), millimetres(0.03, 1)
    ('12.5 mm', '30 mm')
    """
    text = f"{length * 1e3:.{digits}f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text} mm"


def speed_text(speed: float) -> str:
    """Return a speed [m/s] in mm/s.

    >>> speed_text(0.06)
    '60 mm/s'
    """
    return f"{speed * 1e3:.0f} mm/s" if speed >= 9.95e-3 else f"{speed * 1e3:.1f} mm/s"


def outline_text(pad: Pad) -> str:
    """Return a pad's outline in words.

    >>> outline_text(Pad(shape="ring", first=0.042, second=0.024, thickness=0.003, layers=1,
    ...                  material="nr-50", printed=False))
    'ring 42 mm outside, 24 mm inside'
    """
    told = pad.outline.words.format(millimetres(pad.first, 1), millimetres(pad.second, 1))
    if not pad.outline.halved:
        return told
    wall = f"with a {millimetres((pad.first - pad.second) / 2.0, 1)} wall"
    return f"{told}, {wall if pad.second > 0 else 'solid'}"


def drawn_pad(pad: Pad, material: str) -> str:
    """Return a whole pad in words."""
    tall = millimetres(pad.thickness, 1)
    if pad.layers > 1:
        tall = f"{tall} ({pad.layers} layers of {millimetres(pad.thickness / pad.layers, 1)})"
    if pad.outline.ready:
        return f"a {outline_text(pad)}, {tall} high ({in_a_sentence(material)})"
    article = "" if pad.outline.halved else "a "
    return f"{article}{outline_text(pad)}, {tall} high, of {in_a_sentence(material)}"


def in_a_sentence(name: str) -> str:
    """Return a name as it stands inside a sentence; an abbreviation keeps its capitals.

    >>> in_a_sentence("Butyl rubber"), in_a_sentence("EVA foam")
    ('butyl rubber', 'EVA foam')
    """
    return name if name[1:2].isupper() else f"{name[:1].lower()}{name[1:]}"
