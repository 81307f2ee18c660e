"""What an observer that tells characters did not see of a screen. Pure."""

from termprobe.journal.records import EYES, Answer
from termprobe.terminal.screen import Screen

CURSOR, BELL, RENDITION = "cursor", "bell", "rendition"


def not_seen(expected: Screen, answer: Answer) -> tuple[str, ...]:
    """Return what of the `expected` screen the answer says nothing of; eyes see all of it."""
    if answer.strength <= EYES or answer.seen is None:
        return ()
    missing: list[str] = []
    if answer.cursor is None and expected.cursor is not None:
        missing.append(CURSOR)
    if answer.bells is None:
        missing.append(BELL)
    if expected.renditions:
        missing.append(RENDITION)
    return tuple(missing)
