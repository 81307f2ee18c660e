"""What a press showed, the codes and the error of the line, and how a journal's records tell it."""

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from termprobe.plan.presses import Press
from termprobe.verdict.noticed import REPEATS_AFTER_S


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


def outcomes_of(records: Iterable[Mapping[str, Any]]) -> dict[str, list[Outcome]]:
    """Return press id -> an Outcome for each time that it was made, from a journal's records.

    What was taken back is left out, and so is what a key adds while it is held: a repeat says
    nothing of the lines.
    """
    outcomes: dict[str, list[Outcome]] = {}
    for record in records:
        if record["kind"] == "taken-back":
            outcomes.pop(record["step"], None)
        elif record["kind"] == "answer" and record.get("heard"):
            outcome = _outcome(record["heard"]["events"])
            outcomes.setdefault(record["step"], []).append(outcome)
    return outcomes


class _Event(NamedTuple):
    """What came at one moment, as a journal has it."""

    at_s: float
    data: str
    """In hexadecimal."""
    error: str


def _outcome(heard: Sequence[Sequence[Any]]) -> Outcome:
    events = _without_repeats(_Event(*event) for event in heard)
    data = bytes.fromhex("".join(event.data for event in events))
    errors = [event.error for event in events if event.error]
    return Outcome.of(data, next(iter(errors), ""))


def _without_repeats(events: Iterable[_Event]) -> list[_Event]:
    """Return the events without those that bring once more, after a pause, what came before."""
    kept: list[_Event] = []
    known: set[str] = set()
    before_s, is_held = math.inf, False
    for event in events:
        is_held = is_held or event.at_s - before_s >= REPEATS_AFTER_S
        if not (is_held and event.data in known):
            kept.append(event)
        known.add(event.data)
        before_s = event.at_s
    return kept
