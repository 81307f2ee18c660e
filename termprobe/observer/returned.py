"""Bytes that come back on the line: replies of the board, and words typed on the board's own keyboard."""

from termprobe.plan.model import REPLY, TYPED_BACK
from termprobe.observer.base import AS_EXPECTED, DIFFERS, KEYBOARD, RETURNED, Answer

REPLY_LIMIT_S = 2.0
"""So long a reply may take to begin, and each of its bytes after the one before."""
QUIET_S = 0.1
"""So long nothing more may come after a complete reply."""
TYPING_LIMIT_S = 60.0
"""So long a person may look for the next key."""
MACHINE_LIMIT_S = 2.0
RETURN = b"\r"


class ReplyObserver:
    """Compares the reply of the board.

    `incoming` has `.data`, the bytes since the step began, and `.poll(wait_s) -> bytes`.
    """

    strength = RETURNED
    name = "returned bytes"

    def __init__(self, incoming, limit_s=REPLY_LIMIT_S):
        self._incoming, self._limit_s = incoming, limit_s

    def can_answer(self, step):
        """Return whether a reply is expected."""
        return step.kind == REPLY and step.reply is not None

    def answer(self, step):
        """Return the Answer by all that came, once it is complete and quiet, or the time is over."""
        while len(self._incoming.data) < len(step.reply) and self._incoming.poll(self._limit_s):
            pass
        while self._incoming.poll(QUIET_S) and len(self._incoming.data) < 4096:
            pass
        return _of_bytes(step.reply, self._incoming.data)


class KeyboardObserver:
    """Compares a word typed on the board's own keyboard.

    `hand(step)` gets it typed: a request to a person, or a press on simulated keys; None where nobody can type.
    `again(step, data) -> Answer | None` is asked where other bytes came, for people mistype; None means typed again.
    """

    strength = KEYBOARD
    name = "board keyboard"

    def __init__(self, incoming, hand=None, again=None, limit_s=None):
        self._incoming, self._hand, self._again = incoming, hand, again
        self._limit_s = limit_s or (TYPING_LIMIT_S if again else MACHINE_LIMIT_S)

    def can_answer(self, step):
        """Return whether a word is to be typed and somebody can type it."""
        return step.kind == TYPED_BACK and self._hand is not None

    def answer(self, step):
        """Return the Answer by the bytes from the keyboard up to RETURN, or up to the end of the time."""
        wanted = step.typed
        while True:
            start = len(self._incoming.data)
            self._hand(step)
            data = self._typed(start)
            if data == wanted or self._again is None:
                return _of_bytes(wanted, data)
            answer = self._again(step, data)
            if answer is not None:
                return answer if answer.word != DIFFERS else _of_bytes(wanted, data, answer.note)

    def _typed(self, start):
        while (
            not self._incoming.data[start:].endswith(RETURN)
            and len(self._incoming.data) - start < 4096
        ):
            if not self._incoming.poll(self._limit_s):
                break
        return self._incoming.data[start:]


def _of_bytes(wanted, data, note=""):
    return Answer(AS_EXPECTED if data == wanted else DIFFERS, data=data, note=note)
