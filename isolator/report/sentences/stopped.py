"""What stops candidates: told where one check stops most of them, or every one of a family."""

from __future__ import annotations

from isolator.report.findings import Tally

MUCH = 1.0
"""So much quieter is worth telling [dB(A)]: nobody hears less."""


def stopped_words(tally: Tally | None) -> list[str]:
    """Return which check stops most candidates and which stop families whole, and what each costs.

    Against the best that hold; against what stood there before where none does.
    """
    if tally is None or not tally.rejected:
        return []
    told = []
    name, whole = tally.widest, dict(tally.shut_out)
    if name:
        share = tally.rejected[name] / tally.tried
        every = "".join(f", and every {family}" for family in whole.pop(name, ()))
        stops = f'The check "{name}" stops {100 * share:.0f} % of the candidates{every}.'
        told.append(f"{stops}{_cost(tally, name)}")
    told += [
        f'The check "{check}" stops every {" and every ".join(families)}.{_cost(tally, check)}'
        for check, families in whole.items()
    ]
    return told


def _cost(tally: Tally, name: str) -> str:
    """Return what a check costs, with a blank before it."""
    if name not in tally.without:
        return ""
    more = tally.without[name]
    if more is None:
        return " Other checks stop them too."
    if more < MUCH:
        if tally.passed:
            return " Without it the best would gain less than 1 dB(A) more."
        return " Without it feet would hold, less than 1 dB(A) quieter than before."
    than = "the best that hold" if tally.passed else "before"
    return f" Without it feet would hold that are {more:.0f} dB(A) quieter than {than}."
