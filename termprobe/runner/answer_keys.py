"""The answer keys of the board's own keyboard: what they mean, and whether they are proven."""

from termprobe.journal.records import AS_EXPECTED, DIFFERS
from termprobe.plan.model import TypedBack
from termprobe.runner.course import Course
from termprobe.verdict.model import PASS

WORD_OF_LETTER = {"y": AS_EXPECTED, "n": DIFFERS}
"""What the answer keys of the board mean."""
TOO_SOON_S = 0.25
"""A key this short after a screen has come was meant for the one before."""


def letter_of(code: int) -> str | None:
    """Return the letter of an answer key that sends `code`, or None where it is none's."""
    letter = chr(code & 0x7F).lower()
    return letter if letter in WORD_OF_LETTER else None


def word_of(code: int) -> str | None:
    """Return the answer that a key of the board means, or None where it means none."""
    return WORD_OF_LETTER.get(letter_of(code) or "")


def are_proven(course: Course) -> bool:
    """Return whether words typed back right hold both answer keys, in one case or the other."""
    typed = [step for step in course.plan.steps if isinstance(step, TypedBack)]
    proven = [step.word for step in typed if course.word(step.id) == PASS]
    return set(WORD_OF_LETTER) <= set("".join(proven).lower())
