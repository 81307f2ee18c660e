"""Texts that fit a console: measured, cut and wrapped in columns, never in characters."""

from prompt_toolkit.utils import get_cwidth

from termprobe.notation import visible

MORE = "…"


def columns_of(text):
    """Return how many columns `text`, made harmless before, takes as prompt_toolkit draws it."""
    return len(text) if text.isascii() else sum(get_cwidth(character) for character in text)


def harmless(text):
    """Return `text` with all that could act on the console made visible, and what has no known width as a question mark."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(character if character.isprintable() else "?" for character in visible(text))


def cut(text, columns):
    """Return `text`, made harmless, in at most `columns` columns; an ellipsis stands for what was cut off."""
    text = harmless(text)
    if columns_of(text) <= columns:
        return text
    kept, left = [], columns - 1
    for character in text:
        left -= get_cwidth(character)
        if left < 0:
            break
        kept.append(character)
    return "".join(kept) + MORE if columns > 0 else ""


def pad(text, columns):
    """Return `text` cut or filled up with blanks to exactly `columns` columns."""
    text = cut(text, columns)
    return text + " " * (columns - columns_of(text))


def wrap(text, columns):
    """Return `text` as lines of at most `columns` columns, broken at blanks; a longer word is broken where it must be."""
    lines, line = [], ""
    for word in _words(harmless(text), max(columns, 1)):
        longer = f"{line} {word}" if line else word
        if columns_of(longer) > columns:
            lines.append(line)
            longer = word
        line = longer
    return [*lines, line] if line else lines


def _words(text, columns):
    for word in text.split():
        while columns_of(word) > columns:
            piece = _head(word, columns)
            yield piece
            word = word[len(piece) :]
        yield word


def _head(word, columns):
    """Return as much of the start of `word` as fits, one character at least."""
    taken = 0
    for count, character in enumerate(word):
        taken += get_cwidth(character)
        if taken > columns:
            return word[: max(count, 1)]
    return word
