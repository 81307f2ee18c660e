"""The form that is typed off a card: its lines, each with where it stood.

A line is a word or a number, a colon, and what was written. One that begins with # is a remark, so
that a # may stand in what was written. What is left empty was not written down.
"""

import datetime
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.findings import MAX_SHOWN, Findings, Place, nearest, quoted

BOARD_LINE, DATE_LINE, NOTE_LINE, PLAN_LINE = "board", "date", "note", "plan"
PROFILE_LINE, SCRIPT_LINE, STAGES_LINE = "profile", "script", "stages"
OF_PLAN = (PROFILE_LINE, SCRIPT_LINE, PLAN_LINE, STAGES_LINE)
OF_BOARD = (BOARD_LINE, "revision", "builder", "batch", "fitted", DATE_LINE, NOTE_LINE)
"""Words that a line may begin with, beside the numbers of items, in the order of the form."""
NEEDED = {
    BOARD_LINE: "the serial number of the board, for example 0007",
    DATE_LINE: "the day of the card",
}
_LINE = re.compile(r"\s*([^:]*?)\s*:\s*(.*?)\s*")
_NUMBER = re.compile(r"[A-Za-z]?[0-9]{1,5}(?:\s*-\s*[A-Za-z]?[0-9]{1,5})?")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}(?: [0-9]{2}:[0-9]{2})?")
_DAY_LENGTH = 10


class Written(NamedTuple):
    """One line."""

    name: str
    """A word of the form, or the number of an item: `3`, `V1`, `K1-K40`."""
    text: str
    place: Place
    """Of the text."""


@dataclass(frozen=True)
class CardForm:
    """All that was written."""

    heads: Mapping[str, Written]
    """Of the words all but notes, each with its line."""
    notes: tuple[Written, ...]
    entries: tuple[Written, ...]
    """What stands at numbers, in order."""

    def head(self, word: str) -> str:
        """Return what was written behind a word; empty where nothing was."""
        return self.heads[word].text if word in self.heads else ""


def form_of(text: str, findings: Findings) -> CardForm:
    """Return the form in `text`; what is wrong with its lines is added to `findings`."""
    heads: dict[str, Written] = {}
    notes: list[Written] = []
    entries: list[Written] = []
    for number, line in enumerate(text.split("\n"), 1):
        if len(findings) >= MAX_SHOWN:
            break
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        written = _written(line, number, findings)
        if written is None or not written.text:
            continue
        if written.name == NOTE_LINE:
            notes.append(written)
        elif _NUMBER.fullmatch(written.name):
            entries.append(written)
        elif written.name in heads:
            _refuse_twice(written, heads[written.name], findings)
        else:
            heads[written.name] = written
    _refuse_missing(heads, findings)
    return CardForm(heads, tuple(notes), tuple(entries))


def moment_of(text: str) -> str:
    """Return a date as written down as ISO 8601: a day alone, or with a time of day of this place.

    Raises ValueError with what must be written.
    """
    wanted = f"a day, for example 2026-07-03, or with a time, 2026-07-03 18:45, not {quoted(text)}"
    try:
        moment = datetime.datetime.fromisoformat(text)
    except ValueError:
        moment = None
    if moment is None or not _DATE.fullmatch(text):
        raise ValueError(wanted)
    if len(text) == _DAY_LENGTH:
        return text
    return moment.astimezone().isoformat(timespec="seconds")


def _written(line: str, number: int, findings: Findings) -> Written | None:
    """Return what stands in a line; None, with a finding, where it is none of a form."""
    match = _LINE.fullmatch(line.rstrip("\r"))
    if match is None:
        findings.add(
            Place(number, 1),
            f"a line must be NUMBER: ANSWER, for example 3: ok, not {quoted(line.strip())}",
        )
        return None
    name, text = match.groups()
    known = (*OF_PLAN, *OF_BOARD)
    if not _NUMBER.fullmatch(name):
        name = name.casefold()
        if name not in known:
            words = f"a line must begin with the number of an item or one of {', '.join(known)}"
            findings.add(Place(number, 1), f"{words}, not {quoted(name)}{nearest(name, known)}")
            return None
    return Written(name, text, Place(number, match.start(2) + 1))


def _refuse_twice(written: Written, before: Written, findings: Findings) -> None:
    told = f"{written.name} must be written once, and line {before.place.line} has it"
    findings.add(written.place, f"{told}, not again as {quoted(written.text)}")


def _refuse_missing(heads: Mapping[str, Written], findings: Findings) -> None:
    for word, what in NEEDED.items():
        if word not in heads:
            findings.add(Place(1, 1), f"the form must say {what}: {word} is empty or not there")
    if DATE_LINE in heads:
        try:
            moment_of(heads[DATE_LINE].text)
        except ValueError as error:
            findings.add(heads[DATE_LINE].place, f"{DATE_LINE} must be {error}")
