"""Who answers in a run: its own observers and those given, the strongest first."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Protocol

from termprobe.errors import ObserverError
from termprobe.journal.records import Answer
from termprobe.observer.base import Incoming, Observer, Person, Said
from termprobe.observer.line_checks import LineObserver
from termprobe.observer.press import PressObserver
from termprobe.observer.returned import KeyboardObserver, ReplyObserver
from termprobe.observer.untried import UntriedObserver
from termprobe.plan.model import KeyPress, LineCheck, Step, TypedBack
from termprobe.runner.line_of_run import LineOfRun, OnLine
from termprobe.runner.told import Listener, ObserverTrouble

GIVEN_UP_AFTER = 3
"""An observer that could not answer so many times in a row is asked no more."""


@dataclass(frozen=True)
class Hands:
    """Who can press keys of the board's own keyboard; None where nobody can.

    It is a person who is asked to, or a simulated board.
    """

    type_word: Callable[[TypedBack], None] | None = None
    press: Callable[[KeyPress], None] | None = None
    type_key: Callable[[str], None] | None = None
    """Presses the key that sends a character; over and over, where a check wants a stream of it."""
    hold: Callable[[LineCheck], None] | None = None
    """Holds a letter, where a check is of the board's own repeat; None where a person does."""
    can_plug: bool = True
    """Whether a loopback plug can be put on the line."""


NO_HANDS = Hands()


class NotingIncoming(Incoming, OnLine, Protocol):
    """What comes from the board, its line, and the run file that takes a note."""

    def note(self, text: str, step: Step | None = None) -> None:
        """Write a remark to the journal."""


class Asking:
    """Asks the observers of one run."""

    def __init__(
        self,
        run: NotingIncoming,
        others: Iterable[Observer],
        hands: Hands,
        listener: Listener,
    ) -> None:
        others = list(others)
        person = next((one for one in others if isinstance(one, Person)), None)
        line = LineOfRun(run, hands.type_key)
        own: list[Observer] = [
            ReplyObserver(run),
            UntriedObserver(run.plan, line, hands.can_plug),
            LineObserver(line, line.hold_key, hands.hold),
            KeyboardObserver(run, hands.type_word, person.typed if person else None),
            PressObserver(run, hands.press, is_person=person is not None),
        ]
        self.observers = sorted([*own, *others], key=lambda observer: -observer.strength)
        """The strongest first."""
        self._run, self._tell = run, listener
        self._troubles: dict[str, int] = {}

    def ask(self, step: Step) -> Said | None:
        """Return what the strongest observer says that has something to say, or None.

        One in trouble is passed over, and after several times in a row asked no more.
        """
        for observer in self.observers:
            if not observer.can_answer(step) or self._is_given_up(observer):
                continue
            try:
                said = observer.answer(step)
                self._troubles[observer.name] = 0
            except ObserverError as error:
                self._note_trouble(observer, step, error)
                continue
            if isinstance(said, Answer):
                name = said.observer or observer.name
                return replace(said, observer=name, strength=observer.strength)
            if said is not None:
                return said
        return None

    def _is_given_up(self, observer: Observer) -> bool:
        return self._troubles.get(observer.name, 0) >= GIVEN_UP_AFTER

    def _note_trouble(self, observer: Observer, step: Step, error: ObserverError) -> None:
        self._troubles[observer.name] = self._troubles.get(observer.name, 0) + 1
        self._run.note(f"{observer.name} could not answer: {error}", step)
        self._tell(ObserverTrouble(observer.name, str(error), self._is_given_up(observer)))
