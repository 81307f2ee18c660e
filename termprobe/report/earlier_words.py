"""What earlier answers to a step said, in words: `second reading; first 5.5 V`."""

from termprobe.folding import first_of
from termprobe.plan.quantities import reading_in_words
from termprobe.report import words
from termprobe.verdict.model import PASS, Earlier, Measured, Pressed, StepVerdict

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
NAMED = 4
"""How many earlier answers are told one by one."""


def re_answered(step: StepVerdict) -> str:
    """Return which answer the one that counts is, and what those before it said.

    It is empty where there were none, and where presses went right before this one as well.
    """
    if not is_told(step):
        return ""
    told = [_earlier(number, one) for number, one in enumerate(step.earlier)]
    return f"{_ordinal(len(step.earlier))} {_noun(step)}; {first_of(told, NAMED)}"


def is_told(step: StepVerdict) -> bool:
    """Return whether anything is to be told of earlier answers."""
    if isinstance(step.because, Pressed):
        return any(one.verdict != PASS or one.is_taken_back for one in step.earlier)
    return bool(step.earlier)


def said(earlier: Earlier) -> str:
    """Return what one earlier answer said: `5.5 V`, `unsure`, `fail, 3 cells differ`."""
    because = earlier.because
    if isinstance(because, Measured) and because.value is not None:
        return reading_in_words(because.value, because.unit)
    if isinstance(because, Pressed):
        return words.because_in_words(because)
    return ", ".join(filter(None, (earlier.verdict, reason(earlier))))


def reason(earlier: Earlier) -> str:
    """Return why it had its verdict; empty where an observer gave no reason."""
    if earlier.because is None:
        return earlier.note
    return words.because_in_words(earlier.because)


def _earlier(number: int, earlier: Earlier) -> str:
    taken_back = ", taken back" if earlier.is_taken_back else ""
    is_reading = isinstance(earlier.because, Measured) and not taken_back
    colon = "" if is_reading else ":"
    return f"{_ordinal(number)}{taken_back}{colon} {said(earlier)}"


def _noun(step: StepVerdict) -> str:
    match step.because:
        case Measured():
            return "reading"
        case Pressed():
            return "press"
    return "answer"


def _ordinal(index: int) -> str:
    """Return the word for an answer by its index, `10th` and so on where there is none."""
    return ORDINALS[index] if index < len(ORDINALS) else f"{index + 1}th"
