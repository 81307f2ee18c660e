"""Command lines that can be copied into a shell, whatever their words hold."""

import os
import shlex
from collections.abc import Iterable

from termprobe.notation import visible


def command_line(words: Iterable[str]) -> str:
    """Return `words` as one line that a shell takes apart again.

    A word that holds what would act on a console is written with escapes, which shells read between
    $' and ' (POSIX.1-2024, Shell Command Language 2.2.4).
    """
    return " ".join(map(_quoted, words))


def _quoted(word: str) -> str:
    if visible(word) == word:
        return shlex.quote(word)
    return "$'" + "".join(map(_escaped, os.fsencode(word))) + "'"


def _escaped(code: int) -> str:
    character = chr(code)
    if 0x20 <= code < 0x7F and character not in "'\\":
        return character
    return f"\\{code:03o}"
