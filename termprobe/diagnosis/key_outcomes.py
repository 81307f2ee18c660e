"""What a press showed, the codes and the error of the line, and how a journal's records tell it."""

import math
from collections.abc import Iterable
from typing import NamedTuple

from termprobe.journal.records import Answered, Arrived, Record, TakenBack
from termprobe.link.base import Received
from termprobe.plan.model import Press
from termprobe.verdict.listening import REPEATS_AFTER_S


class Outcome(NamedTuple):
    """What came of one press, or what may come of it. Made by `of` and `error_alone`."""

    codes: bytes
    """Sorted, since the order of a scan is not known."""
    error: str = ""
    """Empty, or parity, framing, overrun, break: what the port reports."""
    has_any_codes: bool = False
    """Only the error is predicted; it stands for any codes that come with it."""

    @classmethod
    def of(cls, data: bytes, error: str = "") -> "Outcome":
        """Return the Outcome of the bytes `data`, in whatever order they came."""
        return cls(bytes(sorted(data)), error)

    @classmethod
    def error_alone(cls, error: str) -> "Outcome":
        """Return the Outcome that stands for any codes with this error."""
        return cls(b"", error, has_any_codes=True)

    def as_compared(self, press: Press) -> "Outcome":
        """Return what is compared where this came of `press`.

        Of several keys held together each code counts once: held long enough, they repeat.
        """
        if not press.held:
            return self
        return Outcome.of(bytes(set(self.codes)), self.error)

    def count_in(self, predicted: "Predicted") -> int:
        """Return how many of the outcomes predicted are as this one, which came."""
        if not self.error:
            return predicted.count(self)
        return predicted.count(self) + predicted.count(Outcome.error_alone(self.error))


Predicted = tuple[Outcome, ...]
"""The outcomes that a press may have, each as likely."""


def outcomes_of(records: Iterable[Record]) -> dict[str, list[Outcome]]:
    """Return press id -> an Outcome for each time that it was made, from a journal's records.

    What was taken back or amended is left out, and so is what a key adds while it is held: a
    repeat says nothing of the lines. That nothing came while nothing had ever come over the line
    counts only for a press that was not made again.
    """
    outcomes: dict[str, list[Outcome]] = {}
    unheard: dict[str, list[Outcome]] = {}
    has_come = False
    for record in records:
        if isinstance(record, TakenBack):
            outcomes.pop(record.step, None)
            unheard.pop(record.step, None)
        elif isinstance(record, Arrived):
            has_come = True
        elif isinstance(record, Answered) and record.answer.heard:
            events = record.answer.heard.events
            has_come = has_come or bool(events)
            kept = outcomes if has_come else unheard
            made = kept.setdefault(record.step, [])
            if record.amends:
                del made[-1:]
            made.append(_outcome(events))
    return unheard | outcomes


def _outcome(heard: Iterable[Received]) -> Outcome:
    events = _without_repeats(heard)
    data = b"".join(event.data for event in events)
    errors = [event.error for event in events if event.error]
    return Outcome.of(data, next(iter(errors), ""))


def _without_repeats(events: Iterable[Received]) -> list[Received]:
    """Return the events without those that bring once more, after a pause, what came before."""
    kept: list[Received] = []
    known: set[bytes] = set()
    before_s, is_held = math.inf, False
    for event in events:
        is_held = is_held or event.at_s - before_s >= REPEATS_AFTER_S
        if not (is_held and event.data in known):
            kept.append(event)
        known.add(event.data)
        before_s = event.at_s
    return kept
