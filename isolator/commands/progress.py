"""How a command tells what it is at."""

from collections.abc import Callable

Progress = Callable[[str, int, int], None]
"""(what is being done, how much is done, of how much)."""


def silent(what: str, done: int, total: int) -> None:
    """Tell nobody."""
