"""The survivors that are known, with the reason why no test finds them."""

import pathlib
from typing import NamedTuple

import yaml

from .mutants import Survivor, changed_lines

PATH = pathlib.Path(__file__).with_name("survivors.yaml")


class Known(NamedTuple):
    """One row of survivors.yaml: its name is the location and the lines that change."""

    location: str
    change: tuple[str, ...]
    reason: str


class Reasons:
    """Finds the reason of a survivor, by where it is and what it changes."""

    def __init__(self, known: list[Known]) -> None:
        self._reasons = {(row.location, row.change): row.reason for row in known}

    def of(self, survivor: Survivor) -> str:
        """Return the reason, or nothing for a survivor that is new."""
        return self._reasons.get((survivor.location, changed_lines(survivor.diff)), "")


def read_known(text: str) -> list[Known]:
    """Return the rows of the text of such a file, in its order."""
    rows = yaml.safe_load(text) or []
    return [
        Known(row["in"], tuple(row["change"].strip().split("\n")), row["reason"].strip())
        for row in rows
    ]


def read_reasons() -> Reasons:
    return Reasons(read_known(PATH.read_text(encoding="utf-8")))
