"""What an observer that tells characters did not see of a screen. Pure."""

from termprobe.journal.records import EYES, Answer
from termprobe.terminal.screen import Screen

CURSOR, BELL, RENDITION, DOTS = "cursor", "bell", "rendition", "dots"


def not_seen(expected: Screen, answer: Answer, asks_dots: bool = False) -> tuple[str, ...]:
    """Return what of the `expected` screen the answer says nothing of; eyes see all of it.

    Dots are told where the step asks for them.
    """
    if answer.strength <= EYES or answer.seen is None:
        return ()
    missing: list[str] = []
    if answer.cursor is None and expected.cursor is not None:
        missing.append(CURSOR)
    if answer.bells is None:
        missing.append(BELL)
    if expected.renditions:
        missing.append(RENDITION)
    if asks_dots and answer.misdrawn is None:
        missing.append(DOTS)
    return tuple(missing)
