"""The phrase that somebody may have meant by words that are not understood. Pure."""

import difflib
import re
from collections.abc import Callable, Iterable

from termprobe.findings import nearest

LONGEST = 100
"""Of longer words no nearest phrase is looked for."""
MISTYPED = 0.8
"""A word that is less like another than this, of 1, is a word of its own, as `wrong` is."""


def nearest_phrase(words: str, known: Iterable[str], is_understood: Callable[[str], bool]) -> str:
    """Return `; nearest is "…"`, or nothing.

    `known` are phrases that are understood. The nearest is `words` with each word replaced by the
    one most like it among all of theirs, where that is understood, else the one most like it.
    Numbers are never replaced.
    """
    told, phrases = words.lower(), list(known)
    if len(told) > LONGEST:
        return ""
    vocabulary = dict.fromkeys(re.findall(r"[a-z]+", " ".join(phrases).lower()))

    def mend(word: re.Match[str]) -> str:
        return next(iter(difflib.get_close_matches(word[0], vocabulary, 1, MISTYPED)), word[0])

    mended = re.sub(r"[a-z]{3,}", mend, told)
    if is_understood(mended):
        return f'; nearest is "{mended}"'
    if re.search(r"\d", told):
        return ""
    return nearest(told, phrases)
