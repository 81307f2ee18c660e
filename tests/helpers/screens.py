"""A small terminal of every action, made for tests, and what it shows."""

from helpers.profiles import LETTERS, with_every_action
from termprobe.profile.model import Coordinates
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.terminal.reference import Reference

LETTER = dict(zip(VOCABULARY, LETTERS, strict=False))


def does(action, *codes):
    """Return the bytes for an action of the made-up profile; its numbers are single bytes."""
    return b"\x1b" + LETTER[action].encode() + bytes(codes)


def shown(*data, edges=None, **display):
    reference = Reference(
        with_every_action(edges or {}, Coordinates("binary"), **{"columns": 4} | display)
    )
    for piece in data:
        reference.feed(piece)
    return reference.screen()


def at(row, column):
    return does("address", row, column)


ROWS = b"".join(
    at(row, 0) + bytes([65 + row]) * 3 for row in range(5)
)  # AAA to EEE, a blank at the end of each row


def rows(screen):
    return " ".join(row.rstrip() or "." for row in screen.rows)
