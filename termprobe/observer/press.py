"""One press of a key on the board's own keyboard, heard on the line.

Between two keys nothing comes; so what comes without a longer pause than PRESS_QUIET_S belongs to
one press.
"""

from collections.abc import Callable, Sequence

from termprobe.journal.records import AS_EXPECTED, DIFFERS, KEYBOARD, Answer, Heard
from termprobe.link.base import LineFormat, Received
from termprobe.observer.base import Incoming
from termprobe.plan.model import KeyPress, Press, Step

POLL_S = 0.02
PRESS_QUIET_S = 0.15
"""So long nothing may come before a press counts as over: longer than a bounce, shorter than the
way to the next key. An own estimate.
"""
CHORD_QUIET_S = 1.0
"""The same while several keys are to be pressed one after the other."""
LONGEST_S = 4.0
"""A key that is still sending after this is held or stuck; what came by then is one press."""
PERSON_LIMIT_S = 60.0
PRESS_LIMIT_S = 1.0
"""So long a press may take after a person, or after a machine, was asked for it."""
NAME = "board keyboard"

Events = tuple[Received, ...]
"""What one press sent, by time; `at_s` counts from the request."""


class Ear:
    """Waits for a press, and parts what comes into presses by the moments at which it came.

    What follows after a pause is kept for the next press.
    """

    def __init__(self, incoming: Incoming) -> None:
        self._incoming = incoming
        self._kept: list[Received] = []
        self._press: Press | None = None
        self._since_s = 0.0
        self._limit_s: float | None = None

    @property
    def is_waiting(self) -> bool:
        """Whether a press is waited for."""
        return self._press is not None

    def keep(self, events: Sequence[Received]) -> None:
        """Take `events`, which have come already, for the next press."""
        self._kept += events

    def wait_for(self, press: Press, limit_s: float | None) -> None:
        """Wait from now on for `press`, for `limit_s` at most, for ever where that is None."""
        self._press, self._limit_s = press, limit_s
        self._since_s = self._incoming.clock.now_s()

    def rest(self) -> None:
        """Wait for no press any more."""
        self._press = None

    def turn(self) -> Events | None:
        """Listen for a moment; return what a press sent.

        That is nothing where its time is over, and None while it is waited for.
        """
        assert self._press is not None
        events = self._hear(CHORD_QUIET_S if self._press.held else PRESS_QUIET_S)
        waited_s = self._incoming.clock.now_s() - self._since_s
        is_over = self._limit_s is not None and waited_s >= self._limit_s
        return events if events or is_over else None

    def _hear(self, quiet_s: float) -> Events:
        clock = self._incoming.clock
        self._kept += self._incoming.poll_events(0.0 if self._kept else POLL_S)
        begun_s = clock.now_s()
        while self._goes_on(quiet_s) and clock.now_s() - begun_s < LONGEST_S:
            quiet_at_s = self._kept[-1].at_s + quiet_s
            more = self._incoming.poll_events(max(quiet_at_s - clock.now_s(), 0.0))
            if not more:
                break
            self._kept += more
        size = _first_press(self._kept, quiet_s)
        press, self._kept = self._kept[:size], self._kept[size:]
        return tuple(self._since_request(event) for event in press)

    def _goes_on(self, quiet_s: float) -> bool:
        """Tell whether all that is kept may be the beginning of one press."""
        return bool(self._kept) and _first_press(self._kept, quiet_s) == len(self._kept)

    def _since_request(self, event: Received) -> Received:
        return Received(round(event.at_s - self._since_s, 6), event.data, event.error)


def _first_press(events: Sequence[Received], quiet_s: float) -> int:
    """Return how many of `events` come before the first pause of `quiet_s`."""
    for index in range(1, len(events)):
        if events[index].at_s - events[index - 1].at_s >= quiet_s:
            return index
    return len(events)


def bytes_of(events: Events) -> bytes:
    """Return the bytes that one press sent, without pauses and errors."""
    return b"".join(event.data for event in events)


def answer_of(press: Press, events: Events, line: LineFormat) -> Answer:
    """Return the Answer to a press by what was heard on `line`.

    Nothing heard means that the key is dead.
    """
    data = bytes_of(events)
    return Answer(
        AS_EXPECTED if data == press.code else DIFFERS,
        data=data,
        heard=Heard(line.speed_baud, line.data_bits, events),
        observer=NAME,
        strength=KEYBOARD,
    )


class PressObserver:
    """Has each key pressed by `hand` and answers by what comes.

    With a person at the keyboard a press that does not come in time is left unanswered; without one
    it is missing.
    """

    strength = KEYBOARD
    name = NAME

    def __init__(
        self,
        incoming: Incoming,
        hand: Callable[[KeyPress], None] | None = None,
        is_person: bool = False,
    ) -> None:
        self._incoming, self._hand, self._is_person = incoming, hand, is_person

    def can_answer(self, step: Step) -> bool:
        """Return whether a key is to be pressed and somebody can press it."""
        return isinstance(step, KeyPress) and self._hand is not None

    def answer(self, step: Step) -> Answer | None:
        """Return the Answer, or None where a person did not press in time."""
        assert isinstance(step, KeyPress) and self._hand is not None
        ear = Ear(self._incoming)
        ear.wait_for(step.press, PERSON_LIMIT_S if self._is_person else PRESS_LIMIT_S)
        self._hand(step)
        while (events := ear.turn()) is None:
            pass
        if self._is_person and not events:
            return None
        return answer_of(step.press, events, self._incoming.link_format)
