"""The phrase that somebody may have meant by words that are not understood. Pure."""

import re
from collections.abc import Callable, Iterable

from termprobe.findings import nearest, nearest_word

LONGEST = 100
"""Of longer words no nearest phrase is looked for."""


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
    mended = re.sub(r"[a-z]{3,}", lambda word: nearest_word(word[0], vocabulary) or word[0], told)
    if is_understood(mended):
        return f'; nearest is "{mended}"'
    if re.search(r"\d", told):
        return ""
    return nearest(told, phrases)
