"""Texts that fit a console: measured, cut and wrapped in columns, never in characters."""

from collections.abc import Iterator

from prompt_toolkit.utils import get_cwidth

from termprobe.notation import visible

MORE = "…"
SHOWS_ALL = " (? all)"
"""Stands behind a text that was cut off, which the help shows whole."""


def columns_of(text: str) -> int:
    """Return how many columns `text`, made harmless before, takes as prompt_toolkit draws it."""
    if text.isascii():
        return len(text)
    return sum(get_cwidth(character) for character in text)


def harmless(text: str) -> str:
    """Return `text` with all that could act on the console made visible.

    What has no known width becomes a question mark.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(_printable(character) for character in visible(text))


def _printable(character: str) -> str:
    return character if character.isprintable() else "?"


def cut(text: str, columns: int) -> str:
    """Return `text`, made harmless, in at most `columns` columns.

    An ellipsis stands for what was cut off.
    """
    text = harmless(text)
    if columns_of(text) <= columns:
        return text
    if columns <= 0:
        return ""
    return _start(text, columns - columns_of(MORE)) + MORE


def _start(text: str, columns: int) -> str:
    """Return as much of the start of `text` as `columns` columns hold."""
    left = columns
    for count, character in enumerate(text):
        left -= get_cwidth(character)
        if left < 0:
            return text[:count]
    return text


def pad(text: str, columns: int) -> str:
    """Return `text` cut or filled up with blanks to exactly `columns` columns."""
    text = cut(text, columns)
    return text + " " * (columns - columns_of(text))


def wrap(text: str, columns: int) -> list[str]:
    """Return `text` as lines of at most `columns` columns.

    They are broken at blanks; a longer word is broken where it must be.
    """
    lines: list[str] = []
    line = ""
    for word in _words(harmless(text), max(columns, 1)):
        longer = f"{line} {word}" if line else word
        if columns_of(longer) > columns:
            lines.append(line)
            longer = word
        line = longer
    if line:
        lines.append(line)
    return lines


def fitted(text: str, columns: int, rows: int) -> list[str]:
    """Return `text` as at most `rows` lines, 1 or more, of at most `columns` columns.

    Where it is longer, the last line says which key shows all of it.
    """
    lines = wrap(text, columns)
    if len(lines) <= rows:
        return lines
    rest = " ".join(lines[rows - 1 :])
    start = cut(rest, max(columns - len(SHOWS_ALL), 0))
    return [*lines[: rows - 1], cut(start + SHOWS_ALL, columns)]


def _words(text: str, columns: int) -> Iterator[str]:
    """Return the words of `text`, each in pieces that fit."""
    for word in text.split():
        while columns_of(word) > columns:
            piece = _start(word, columns) or word[0]
            yield piece
            word = word[len(piece) :]
        yield word
