"""The door: words in, one command called, exit codes out. What a command does belongs in
`isolator.commands`, what is told of it in `isolator.report`.
"""

from __future__ import annotations

from isolator.cli.commands import app
from isolator.cli.run import main

__all__ = ["app", "main"]
