"""One press of a key on the board's own keyboard, heard on the line.

Between two keys nothing comes; so what comes without a longer pause than QUIET_S belongs to one press.
"""

from termprobe.plan.model import PRESS
from termprobe.observer.base import AS_EXPECTED, DIFFERS, KEYBOARD, Answer

POLL_S = 0.02
QUIET_S = 0.15
"""So long nothing may come before a press counts as over: longer than a bounce, shorter than the way to the next key."""
CHORD_QUIET_S = 1.0
"""The same while several keys are to be pressed one after the other."""
LONGEST_S = 4.0
"""A key that is still sending after this is held or stuck; what came by then is one press."""
PERSON_LIMIT_S = 60.0
MACHINE_LIMIT_S = 1.0
NAME = "board keyboard"


class Ear:
    """Parts what comes into presses, by the moments at which it came; what follows after a pause is kept for the next press.

    `incoming` has poll_events(wait_s), which returns records with `at_s`, `data` and `error`, and `clock`.
    """

    def __init__(self, incoming):
        self._incoming, self._kept = incoming, []

    def keep(self, events):
        """Take `events`, which have come already, for the next press."""
        self._kept += events

    def hear(self, start_s, step):
        """Return ((seconds since `start_s`, bytes, error), ...) of one press of `step`, empty where none begins within POLL_S."""
        clock, quiet_s = self._incoming.clock, CHORD_QUIET_S if step.held else QUIET_S
        self._kept += self._incoming.poll_events(0.0 if self._kept else POLL_S)
        begun_s = clock.now_s()
        while (
            self._kept
            and _first_press(self._kept, quiet_s) == len(self._kept)
            and clock.now_s() - begun_s < LONGEST_S
        ):
            more = self._incoming.poll_events(
                max(self._kept[-1].at_s + quiet_s - clock.now_s(), 0.0)
            )
            if not more:
                break
            self._kept += more
        size = _first_press(self._kept, quiet_s)
        press, self._kept = self._kept[:size], self._kept[size:]
        return tuple((round(event.at_s - start_s, 6), event.data, event.error) for event in press)


def _first_press(events, quiet_s):
    """Return how many of `events` come before the first pause of `quiet_s`."""
    pauses = (
        place
        for place in range(1, len(events))
        if events[place].at_s - events[place - 1].at_s >= quiet_s
    )
    return next(pauses, len(events))


def answer_of(step, events, line):
    """Return the Answer to a press by what was heard on a line of LineFormat `line`; nothing heard means that the key is dead."""
    data = b"".join(data for _, data, _ in events)
    heard = {
        "speed_baud": line.speed_baud,
        "data_bits": line.data_bits,
        "events": [[at_s, data.hex(), error] for at_s, data, error in events],
    }
    return Answer(
        AS_EXPECTED if data == step.reply else DIFFERS,
        data=data,
        heard=heard,
        observer=NAME,
        strength=KEYBOARD,
    )


def fitting(steps, data):
    """Return the first of `steps` that sends just `data`, else the first whose code `data` begins with, else None."""
    same = (step for step in steps if step.reply == data)
    begun = (step for step in steps if step.reply and data.startswith(step.reply))
    return next(same, None) or next(begun, None)


class PressObserver:
    """Has each key pressed by `hand(step)` and answers by what comes. `incoming` has also `clock` and `link_format`.

    With a person at the keyboard a press that does not come in time is left unanswered; without one it is missing.
    """

    strength = KEYBOARD
    name = NAME

    def __init__(self, incoming, hand=None, is_person=False):
        self._incoming, self._hand, self._is_person = incoming, hand, is_person

    def can_answer(self, step):
        """Return whether a key is to be pressed and somebody can press it."""
        return step.kind == PRESS and self._hand is not None

    def answer(self, step):
        """Return the Answer, or None where a person did not press in time."""
        clock, ear = self._incoming.clock, Ear(self._incoming)
        start_s = clock.now_s()
        self._hand(step)
        limit_s = PERSON_LIMIT_S if self._is_person else MACHINE_LIMIT_S
        while not (events := ear.hear(start_s, step)) and clock.now_s() - start_s < limit_s:
            pass
        return (
            None
            if self._is_person and not events
            else answer_of(step, events, self._incoming.link_format)
        )
