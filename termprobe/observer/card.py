"""A card as observer: what was written at the numbers of its items, as answers.

Nobody asks it. It has said all that it says before there is a run.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from termprobe.findings import MAX_SHOWN, Findings, nearest, quoted
from termprobe.journal.card import CARD
from termprobe.journal.records import DIFFERS, Answer
from termprobe.link.base import LineFormat
from termprobe.observer.card_answer import answer_written
from termprobe.observer.card_form import NOTE_LINE, CardForm, Written
from termprobe.observer.card_screen import Seen, seen_at, with_seen
from termprobe.plan.card_items import CardItem
from termprobe.plan.model import Step, expected_of
from termprobe.terminal.screen import Screen

SEEN = "seen"
"""Stands before what a place of the screen shows: `3: seen 5,10 HEMMO`."""
_BESIDE = re.compile(rf"({NOTE_LINE}|{SEEN})[\s,;:]+(\S.*)", re.IGNORECASE)
"""What may stand at an item beside its answer."""
_NUMBERS = re.compile(r"([A-Z]?)([0-9]+)(?:-([A-Z]?)([0-9]+))?")


@dataclass(frozen=True)
class CardAnswers:
    """What a card says of steps."""

    answers: Mapping[str, Answer]
    """Id of a step -> its answer."""
    notes: tuple[tuple[str, str], ...]
    """(id of a step, remark) of those beside an answer, or without one."""


def answers_on(
    form: CardForm, items: Sequence[CardItem], line: LineFormat, findings: Findings
) -> CardAnswers:
    """Return what `form` says of `items`; what is wrong with it is added to `findings`.

    `line` is what the board is set to: codes that were read off it are kept as heard on such a one.
    """
    known = {item.number: item.step for item in items}
    reading = _Reading(line, findings)
    for written in form.entries:
        if len(findings) >= MAX_SHOWN:
            break
        for number in _numbers(written, known, findings):
            if not reading.takes(number, known[number], written):
                break
    reading.take_screens()
    return CardAnswers(reading.answers, tuple(reading.notes))


@dataclass
class _Reading:
    """What has been read of a form so far."""

    line: LineFormat
    findings: Findings
    answers: dict[str, Answer] = field(default_factory=dict)
    notes: list[tuple[str, str]] = field(default_factory=list)
    lines: dict[str, int] = field(default_factory=dict)
    """Number of an item -> the line that answers it."""
    screens: dict[str, tuple[Screen, Written, list[Seen]]] = field(default_factory=dict)
    """Id of a step -> its screen, the first line on it, and what was seen of it."""

    def takes(self, number: str, step: Step, written: Written) -> bool:
        """Take what a line says of an item; return whether nothing is wrong with it."""
        try:
            self._take(number, step, written)
        except ValueError as error:
            self.findings.add(written.place, f"item {number}: {error}")
            return False
        return True

    def _take(self, number: str, step: Step, written: Written) -> None:
        beside = _BESIDE.fullmatch(written.text)
        if beside is None:
            self._answer(number, step, written)
        elif beside[1].casefold() == SEEN:
            self._see(step, written, beside[2])
        else:
            self.notes.append((step.id, beside[2]))

    def _answer(self, number: str, step: Step, written: Written) -> None:
        if number in self.lines:
            told = f"it must be answered once, and line {self.lines[number]} does"
            raise ValueError(f"{told}, not again by {quoted(written.text)}")
        self.lines[number] = written.place.line
        self.answers[step.id] = answer_written(step, written.text, self.line)

    def _see(self, step: Step, written: Written, text: str) -> None:
        screen = expected_of(step)
        if screen is None:
            raise ValueError(f"{SEEN} must be written where a screen is drawn, not at this item")
        one = seen_at(screen, text)
        *_, seen = self.screens.setdefault(step.id, (screen, written, []))
        seen.append(one)

    def take_screens(self) -> None:
        """Let what was seen of screens stand in the answers; by itself it says that they differ."""
        for step_id, (screen, written, seen) in self.screens.items():
            answer = self.answers.get(step_id, Answer(DIFFERS, observer=CARD))
            if answer.word != DIFFERS:
                self.findings.add(
                    written.place,
                    f"{SEEN} must stand beside differs, not beside {answer.word}",
                )
                continue
            rows = with_seen(screen, seen)
            if rows != tuple(screen.rows):
                self.answers[step_id] = replace(answer, seen=rows)
            elif step_id not in self.answers:
                told = f"{SEEN} is just what must be there; write ok, or what differs"
                self.findings.add(written.place, told)


def _numbers(written: Written, known: Mapping[str, Step], findings: Findings) -> Sequence[str]:
    """Return the numbers that a line is of: one, or all of `K1-K40`; none, with a finding."""
    name = re.sub(r"\s", "", written.name).upper()
    match = _NUMBERS.fullmatch(name)
    assert match is not None  # the form has let it pass
    letter, first, letter_again, last = match.groups()
    wrong = _unknown(name, letter, (first, last or first), known)
    if letter_again in (None, "", letter) and not wrong:
        return [f"{letter}{one}" for one in range(int(first), int(last or first) + 1)]
    wrong = wrong or name
    must_be = f"a number must be of this card: {_in_short(list(known))}"
    findings.add(written.place, f"{must_be}; not {wrong}{nearest(wrong, known)}")
    return ()


def _unknown(name: str, letter: str, ends: Sequence[str], known: Mapping[str, Step]) -> str:
    """Return the end of a range that no card has, or all of one that runs back; empty if right."""
    first, last = map(int, ends)
    for number in (f"{letter}{first}", f"{letter}{last}"):
        if number not in known:
            return number
    return "" if first <= last else name


def _in_short(numbers: Sequence[str]) -> str:
    """Return `1 to 12, V1 to V4, K1 to K137`, of numbers in the order of a card."""
    ends: dict[str, tuple[str, str]] = {}
    for number in numbers:
        letter = number.rstrip("0123456789")
        ends[letter] = ends.get(letter, (number,))[0], number
    return ", ".join(" to ".join(dict.fromkeys(pair)) for pair in ends.values())
