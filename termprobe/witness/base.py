"""The interface Witness, and what one answers. The strongest that can answer a step is asked first."""

from dataclasses import dataclass
from typing import Protocol

from termprobe.plan.model import Step

AS_EXPECTED, DIFFERS, UNSURE, DISPUTED, SKIPPED = "as-expected", "differs", "unsure", "disputed", "skipped"
RETURNED, KEYBOARD, DUMP, EYES = 4, 3, 2, 1
"""Strength: returned bytes, the board's own keyboard, a dump, eyes."""


@dataclass(frozen=True)
class Answer:
    """What a witness says of a step. `word` is None where it asks for something else instead of answering."""

    word: str | None = None
    """as-expected, differs, unsure, disputed, skipped; None with `wish` or where only `value` or `data` speaks."""
    seen: tuple[str, ...] | None = None
    """The rows of the glass as seen, where the witness can tell."""
    cursor: tuple[int, int] | None = None
    value: float | None = None
    """measure: the reading, in the step's unit."""
    data: bytes | None = None
    """reply and typed-back: the bytes that came."""
    note: str = ""
    wish: str | None = None
    """repeat, slower, back, stop, or a note alone: what to do before answering."""


class Witness(Protocol):
    """Whoever answers."""

    name: str
    strength: int

    def can_answer(self, step: Step) -> bool:
        """Return whether this witness can answer that kind of step."""

    def answer(self, step: Step) -> Answer | None:
        """Return the answer to `step`, whose bytes have just been sent; None where it stays unanswered."""
