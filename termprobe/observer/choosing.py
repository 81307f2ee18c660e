"""The builder at plain prompts, who chooses which of the predicted wrong screens is seen."""

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple, Protocol

from termprobe.journal.records import DIFFERS, Answer
from termprobe.notation import visible
from termprobe.observer.base import BOARD_KEYBOARD, Said
from termprobe.observer.builder import BuilderObserver
from termprobe.observer.builder_words import Word
from termprobe.plan.model import Ask, Look, Step, TypedBack, expected_of
from termprobe.terminal.predicted import Predictions
from termprobe.terminal.screen import Screen, differences

MOST_ROWS = 6
"""So many rows that differ are shown below a picture."""
_YES_OR_NO = {"y": True, "yes": True, "n": False, "no": False}
_SHOWN = re.compile(r"p ?([1-9])")


class Foreseer(Protocol):
    """Whoever works out what a look may show where it is not right."""

    def begin(self, step: Step) -> None:
        """Begin to work that out for `step`, which has just been sent; return at once."""

    def found(self, step: Step) -> Predictions | None:
        """Return what was worked out for `step`; None where nothing is there by now."""


class EitherAnswer(NamedTuple):
    """What was answered on one of two keyboards."""

    typed: str
    is_of_board: bool = False
    """It is the letter of an answer key of the board's own keyboard."""


class AnswerKeys(Protocol):
    """The answer keys of the board's own keyboard, y and n, beside this keyboard."""

    def are_proven(self) -> bool:
        """Return whether they answer."""

    def ask(self, prompt: str) -> EitherAnswer:
        """Return what is typed behind `prompt`, or pressed on the board; raise EOFError."""


class ChoosingBuilder(BuilderObserver):
    """Asks as BuilderObserver does; where a look differs, by pictures if there are any."""

    def __init__(
        self,
        ask: Callable[[str], str],
        show: Callable[[str], None],
        draw: Callable[[Screen], str],
        name: str = "builder",
    ) -> None:
        super().__init__(ask, show, draw, name)
        self.foreseer: Foreseer | None = None
        """None where nothing is predicted."""
        self.answer_keys: AnswerKeys | None = None
        """None where nobody is at the board's own keyboard."""
        self._step: Step | None = None
        self._is_by_board = False

    def typed(self, step: TypedBack, data: bytes) -> Said | None:
        """Return what BuilderObserver does: of a word there is no picture."""
        self._step = None
        return super().typed(step, data)

    def _present(self, step: Step) -> None:
        super()._present(step)
        self._step = step
        if self.foreseer is not None:
            self.foreseer.begin(step)

    def _asked(self, step: Step, prompt: str) -> str:
        keys = self.answer_keys
        if keys is None or not isinstance(step, Look | Ask) or not keys.are_proven():
            return super()._asked(step, prompt)
        answer = keys.ask(prompt)
        self._is_by_board = answer.is_of_board
        return answer.typed.strip().lower()

    def _answer(self, says: str, word: Word) -> Answer | None:
        if self._is_by_board:
            self._is_by_board = False
            return Answer(says, observer=BOARD_KEYBOARD)
        predictions = self._predictions()
        if says != DIFFERS or predictions is None:
            return super()._answer(says, word)
        for line in choice_lines(predictions):
            self._show(line)
        number = self._number(predictions)
        if number:
            return answer_of_choice(predictions, number)
        regions = tuple(self._regions(predictions))
        note = self._ask(word.asks).strip()
        return Answer(DIFFERS, note=note, offered=predictions.offered, regions=regions)

    def _regions(self, predictions: Predictions) -> Iterator[tuple[str, bool]]:
        """Yield what is said of each part of the screen that is asked about."""
        asked = predictions.region
        while asked is not None:
            typed = self._lower(f"{asked.question} y n, ENTER to leave it: ")
            if typed in _YES_OR_NO:
                yield asked.words, _YES_OR_NO[typed]
                asked = asked.after(_YES_OR_NO[typed])
            elif not typed:
                return
            else:
                self._show(f"An answer must be y or n, not {visible(typed)[:40]!r}.")

    def _predictions(self) -> Predictions | None:
        if self._step is None or self.foreseer is None:
            return None
        return self.foreseer.found(self._step)

    def _number(self, predictions: Predictions) -> int:
        """Ask until a number is given; 0 is none of them."""
        count = len(predictions.found)
        while True:
            typed = self._lower(f"Which do you see? 1-{count}, 0 none, p1-p{count} show it: ")
            shown = _SHOWN.fullmatch(typed)
            if typed.isdecimal() and int(typed) <= count:
                return int(typed)
            if shown and int(shown[1]) <= count:
                self._draw_picture(predictions, int(shown[1]))
            else:
                self._show(
                    f"A number from 0 to {count} must be given, not {visible(typed)[:40]!r}."
                )

    def _draw_picture(self, predictions: Predictions, number: int) -> None:
        seen = predictions.found[number - 1].screen
        assert self._step is not None
        expected = expected_of(self._step)
        self._show(self._draw(seen))
        if expected is not None:
            for line in difference_lines(expected, seen):
                self._show(line)


def choice_lines(predictions: Predictions) -> Iterator[str]:
    """Yield the sentences that are chosen from, each with its number."""
    percent = max(round(100 * predictions.share), 1)
    yield f"Predicted; {percent} % that it is one of these:"
    for number, one in enumerate(predictions.found, 1):
        yield f"  {number}  {one.sentence}"
    yield "  0  none of these"


def difference_lines(expected: Screen, seen: Screen) -> Iterator[str]:
    """Yield the rows of `seen` that differ, each cell that does so marked below by a caret."""
    columns: dict[int, list[int]] = {}
    for cell in differences(expected.rows, seen.rows):
        columns.setdefault(cell.row, []).append(cell.column)
    for row, found in list(columns.items())[:MOST_ROWS]:
        text = seen.rows[row].rstrip()
        yield f"row {row:>2}: {text}"
        yield " " * 8 + "".join(" ^"[column in found] for column in range(found[-1] + 1))
    if len(columns) > MOST_ROWS:
        yield f"{len(columns) - MOST_ROWS} more rows differ."


def answer_of_choice(predictions: Predictions, number: int) -> Answer:
    """Return the answer that the picture of this number, from 1, is what is seen."""
    chosen = predictions.found[number - 1]
    return Answer(
        DIFFERS,
        seen=chosen.screen.rows,
        cursor=chosen.screen.cursor,
        bells=chosen.screen.bells,
        misdrawn=chosen.screen.misdrawn or None,
        chosen=chosen.picture,
        offered=predictions.offered,
    )
