"""What is wrong with an input: where, what was found, what is wanted, how to mend it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from isolator.reading.printable import printable


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with an input.

    `key` is the dotted path inside the file (`printer.lump[2].mass`), or empty for the file itself.
    """

    file: str
    key: str
    got: str
    wanted: str
    suggestion: str

    def line(self) -> str:
        """Return the fault as the one line that a user reads."""
        where = f"{self.file}: {self.key}" if self.key else self.file
        return printable(f"{where}: found {self.got}; wanted {self.wanted}; {self.suggestion}")


class InputError(Exception):
    """The input is wrong (exit 2); carries every fault found, not only the first."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__("\n".join(fault.line() for fault in self.faults))

    def __reduce__(self) -> tuple[type[InputError], tuple[tuple[Fault, ...]]]:
        # so that it comes back from another process
        return InputError, (self.faults,)


def refused(file: str, key: str, got: str, wanted: str, suggestion: str) -> InputError:
    """Return the error of one fault alone."""
    return InputError([Fault(file=file, key=key, got=got, wanted=wanted, suggestion=suggestion)])
