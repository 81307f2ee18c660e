"""Bytes that come back on the line: the board's replies, and words typed on its own keyboard."""

from collections.abc import Callable

from termprobe.journal.records import AS_EXPECTED, DIFFERS, KEYBOARD, RETURNED, Answer
from termprobe.observer.base import STOP, Incoming, Said, Wish
from termprobe.plan.model import Reply, Step, TypedBack

REPLY_LIMIT_S = 2.0
"""So long a reply may take to begin, and each of its bytes after the one before."""
QUIET_S = 0.1
"""So long nothing more may come after a complete reply."""
TYPING_LIMIT_S = 60.0
"""So long a person may look for the next key."""
MACHINE_LIMIT_S = 2.0
MAX_BYTES = 4096
"""A board that goes on sending is listened to no further."""
RETURN = b"\r"


class ReplyObserver:
    """Compares the reply of the board."""

    strength = RETURNED
    name = "returned bytes"

    def __init__(self, incoming: Incoming, limit_s: float = REPLY_LIMIT_S) -> None:
        self._incoming, self._limit_s = incoming, limit_s

    def can_answer(self, step: Step) -> bool:
        """Return whether a reply is expected."""
        return isinstance(step, Reply) and bool(step.reply)

    def answer(self, step: Step) -> Answer:
        """Return the Answer by all that came, once it is complete and quiet, or time is over."""
        assert isinstance(step, Reply)
        incoming = self._incoming
        while not self._is_over(step) and incoming.poll(self._limit_s):
            pass
        while incoming.poll(QUIET_S) and len(incoming.data) < MAX_BYTES:
            pass
        return _of_bytes(step.allows(incoming.data), incoming.data)

    def _is_over(self, step: Reply) -> bool:
        data = self._incoming.data
        return step.is_complete(data) or len(data) >= MAX_BYTES


class KeyboardObserver:
    """Compares a word typed on the board's own keyboard.

    `hand` gets it typed: a request to a person, or a press on simulated keys; None where nobody can
    type.
    `again` is asked where other bytes came, for people mistype; what it says counts, and None means
    typed again.
    """

    strength = KEYBOARD
    name = "board keyboard"

    def __init__(
        self,
        incoming: Incoming,
        hand: Callable[[TypedBack], None] | None = None,
        again: Callable[[TypedBack, bytes], Said | None] | None = None,
        limit_s: float | None = None,
    ) -> None:
        self._incoming, self._hand, self._again = incoming, hand, again
        self._limit_s = limit_s or (TYPING_LIMIT_S if again else MACHINE_LIMIT_S)

    def can_answer(self, step: Step) -> bool:
        """Return whether a word is to be typed and somebody can type it."""
        return isinstance(step, TypedBack) and self._hand is not None

    def answer(self, step: Step) -> Said | None:
        """Return what the bytes from the keyboard say, or what a person says of them.

        They are taken up to RETURN or the end of the time. The end of the input means stop.
        """
        assert isinstance(step, TypedBack) and self._hand is not None
        while True:
            start = len(self._incoming.data)
            try:
                self._hand(step)
            except EOFError:
                return Wish(STOP)
            data = self._typed(start)
            is_right = data == step.typed
            if is_right or self._again is None:
                return _of_bytes(is_right, data)
            said = self._again(step, data)
            if isinstance(said, Answer) and said.word == DIFFERS:
                return _of_bytes(is_right, data, said.note)
            if said is not None:
                return said

    def _typed(self, start: int) -> bytes:
        while True:
            data = self._incoming.data[start:]
            if data.endswith(RETURN) or len(data) >= MAX_BYTES:
                return data
            if not self._incoming.poll(self._limit_s):
                return self._incoming.data[start:]


def _of_bytes(is_right: bool, data: bytes, note: str = "") -> Answer:
    return Answer(AS_EXPECTED if is_right else DIFFERS, data=data, note=note)
