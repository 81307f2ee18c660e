"""The words that a builder may type at a prompt, and what each means."""

from typing import NamedTuple

from termprobe.journal.records import AS_EXPECTED, DIFFERS, DISPUTED, SKIPPED, UNSURE
from termprobe.observer.base import BACK, FORWARD, REPEAT, SKIP_STAGE, SLOWER, STOP

STOPS = ("q", STOP)
"""Both end a sitting, at every prompt and on the full screen."""


class Word(NamedTuple):
    """Something that may be typed."""

    short: str
    full: str
    meaning: str
    answers: str | None = None
    """The word of the answer that it is; None where it is a wish or a remark."""
    asks: str = ""
    """What is asked about it."""
    needs_reason: bool = False


BUILDER_WORDS = (
    Word("y", "yes", "as expected", AS_EXPECTED),
    Word(
        "n",
        "no",
        "it differs; you may say how",
        DIFFERS,
        asks="What do you see? (ENTER for no remark) ",
    ),
    Word("u", "unsure", "you cannot tell", UNSURE),
    Word(
        "d",
        "disputed",
        "the board is right, the expectation is wrong; you will be asked why",
        DISPUTED,
        asks="Why is the expectation wrong? ",
        needs_reason=True,
    ),
    Word("r", REPEAT, "send it again"),
    Word(SLOWER, SLOWER, "send it again at half the pace"),
    Word("note", "note", "write something down (a photo with @FILE), then answer"),
    Word(
        "s",
        "skip",
        "leave this step out; you will be asked why",
        SKIPPED,
        asks="Why is it left out? ",
        needs_reason=True,
    ),
    Word(
        "e",
        SKIP_STAGE,
        "end the stage: leave out the rest of it; you will be asked why",
        asks="Why is the rest of the stage left out? ",
        needs_reason=True,
    ),
    Word("b", BACK, "to the step before"),
    Word("f", FORWARD, "forward again to where you were; the earlier answer stands"),
    Word(*STOPS, "end here; go on later with --resume"),
)


def word_of(typed: str) -> Word | None:
    """Return the word that is typed in short or in full, None where it is none."""
    return next((one for one in BUILDER_WORDS if typed in (one.short, one.full)), None)


def help_text() -> str:
    """Return what may be typed and what it means, one line each."""
    lines: list[str] = []
    for word in BUILDER_WORDS:
        names = dict.fromkeys((word.short, word.full))
        lines.append(f"  {', '.join(names):<12} {word.meaning}")
    return "\n".join(lines)
