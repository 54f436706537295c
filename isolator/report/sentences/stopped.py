"""What stops candidates: told where one check stops most of them, or every one of a family."""

from __future__ import annotations

from isolator.report.findings import Tally

MOST = 0.5
"""Share of all candidates from which on a check is told by name."""


def stopped_words(tally: Tally | None) -> list[str]:
    """Return which check stops most candidates, and families that one check stops whole."""
    if tally is None or not tally.rejected:
        return []
    told = []
    name, count = max(tally.rejected.items(), key=lambda each: each[1])
    share = count / tally.tried
    whole = dict(tally.shut_out)
    if share >= MOST:
        every = "".join(f", and every {family}" for family in whole.pop(name, ()))
        told.append(f'The check "{name}" stops {100 * share:.0f} % of the candidates{every}.')
    told += [
        f'The check "{check}" stops every {" and every ".join(families)}.'
        for check, families in whole.items()
    ]
    return told
