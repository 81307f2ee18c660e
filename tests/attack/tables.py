"""Prints what was tried and what failed as rows of a table."""

import os
import pathlib
from typing import NamedTuple


class Failed(NamedTuple):
    """An input that went wrong."""

    number: int
    data: bytes
    wrong: str


NAMED = 8
"""So many failures of a row are told one by one."""


def heading(title, *columns):
    """Print the head of a table."""
    print(f"\n{title}\n\n| {' | '.join(columns)} |\n|{'---|' * len(columns)}", flush=True)


def row(*cells):
    """Print one row."""
    print(f"| {' | '.join(_shown(cell) for cell in cells)} |", flush=True)


def _shown(cell):
    if isinstance(cell, int):
        return f"{cell:,}"
    return str(cell)


def failures_told(folder, name, failures):
    """Print the first of the failures of a row, and keep the inputs of all in `folder`."""
    for failed in failures[:NAMED]:
        print(f"    {name} {failed.number}: {failed.wrong}", flush=True)
    for failed in failures:
        os.makedirs(folder, exist_ok=True)
        kept = pathlib.Path(folder, f"{name.replace(' ', '-')}-{failed.number}")
        kept.write_bytes(failed.data)
