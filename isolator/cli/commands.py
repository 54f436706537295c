"""All commands, in the order in which help lists them.

Each parses its words, calls one function and tells what came of it. Nothing heavy is loaded for
--help.
"""

# the order is that of the help
# isort: off
from isolator.cli import start, design, check, draw_and_fit, tables, triage, squash, measure, tap
from isolator.cli.app import app

__all__ = [
    "app",
    "check",
    "design",
    "draw_and_fit",
    "measure",
    "squash",
    "start",
    "tables",
    "tap",
    "triage",
]
