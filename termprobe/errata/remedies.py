"""The designer's own words for the items of an errata sheet: a YAML file, read and begun."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from termprobe import yamlfile
from termprobe.findings import Findings
from termprobe.notation import visible
from termprobe.yamlvalues import Text

HEAD = """\
# The designer's words for the errata sheet. Each entry stands for the item whose name is in
# `what`; whatever key has a text takes the place of what termprobe would say. Entries are
# kept when the sheet is made again, also those of which nothing is seen any more.
remedies:
"""
KEYS = ("title", "symptom", "revisions", "cause", "remedy", "check", "mended_in")


@dataclass(frozen=True)
class Remedy:
    """The words for one item; None where they are termprobe's own."""

    what: Text
    """The name of a fault, or the id of a step."""
    title: str | None = None
    symptom: str | None = None
    revisions: str | None = None
    """Which are affected, and how they are known."""
    cause: str | None = None
    remedy: str | None = None
    check: str | None = None
    """How to see that the remedy helped."""
    mended_in: str | None = None
    """The revision that has it no more."""


@dataclass(frozen=True)
class RemedyFile:
    """What stands in the file."""

    remedies: tuple[Remedy, ...] | None = None

    @property
    def entries(self) -> tuple[Remedy, ...]:
        """The entries, in the order of the file."""
        return self.remedies or ()


def remedies_in(text: str, name: str) -> tuple[Remedy, ...]:
    """Return the entries written in `text`; `name` stands in the findings.

    Raises FileError with every finding.
    """
    return yamlfile.build(text, name, RemedyFile, (_check_once,)).entries


def _check_once(file: RemedyFile, findings: Findings) -> None:
    """Refuse two entries for one item."""
    known: set[str] = set()
    for entry in file.entries:
        if entry.what in known:
            findings.add(entry.what, f"{entry.what} must have one entry, and has one above")
        known.add(entry.what)


def begun_file(items: Iterable[tuple[str, str]]) -> str:
    """Return the text of a new file with an entry for each (what, title), to be filled in."""
    entries = list(items)
    if not entries:
        return HEAD + "  []\n"
    return HEAD + "".join(entry_in_yaml(what, title) for what, title in entries)


def entry_in_yaml(what: str, title: str) -> str:
    """Return an entry to be filled in, as it stands in the file."""
    return "\n".join(_lines(what, title)) + "\n"


def _lines(what: str, title: str) -> Iterator[str]:
    yield f"  # {visible(title)}"
    yield f"  - what: {_quoted(what)}"
    for key in KEYS:
        yield f"    {key}:"


def _quoted(text: str) -> str:
    """Return a text as a YAML scalar that stands for just it."""
    shown = visible(text).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{shown}"'
