"""The words for what is wrong with the light of the whole screen: blank, no cursor, lines."""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from termprobe.diagnosis.dot_symptom import DotsNoticed, Light
from termprobe.diagnosis.drawing_changes import DrawnBox

_NO_CURSOR: frozenset[tuple[str, str]] = frozenset({("cursor", "missing")})


def light_noticed(phrase: str, boxed: DrawnBox) -> DotsNoticed | None:
    """Return what a phrase means; None where it is not of the light of the whole screen."""
    for one in _OF_LIGHT:
        if one.is_told(phrase):
            return DotsNoticed(tuple(one.meant(boxed)))
    return None


def _dark(boxed: DrawnBox, beside: frozenset[tuple[str, str]]) -> Light:
    return boxed.light(lambda glyph: (0,) * len(glyph), beside)


def _blank(boxed: DrawnBox) -> Iterator[Light]:
    yield _dark(boxed, _NO_CURSOR)
    yield _dark(boxed, frozenset())


@dataclass(frozen=True)
class _OfLight:
    """What is wrong with the light of the whole screen, and by which words that is told."""

    told: re.Pattern[str]
    meant: Callable[[DrawnBox], Iterable[Light]]
    and_not: re.Pattern[str] = re.compile(r"(?!)")

    def is_told(self, phrase: str) -> bool:
        """Return whether a phrase tells of it."""
        return bool(self.told.search(phrase)) and not self.and_not.search(phrase)


_BLANK = (
    r"(?:screen|display|picture|tube)\b.*\b(?:blank|dark|empty|black|dead)\b|\bnothing\b"
    r"|(?:blank|dark|empty|black|dead) (?:screen|display|picture|tube)"
    r"|no (?:text|characters|picture|video)\b"
)
_CURSOR_TOO = re.compile(
    r"no cursor|cursor.*\b(?:missing|gone|not|nowhere|either|too|never|invisible|lost|as well)"
    r"|not even|\bnor\b|without (?:a |the )?cursor|neither"
)
_GONE = (
    r"(?:no|not|never|nowhere|without|missing|gone|lost|dead|dark|off|invisible|absent|vanished|"
    r"disappeared|disappears)"
)
_CURSOR_GONE = rf"\b{_GONE}\b.*cursor|n't\b.*cursor|cursor.*(?:\b{_GONE}\b|n't\b)"
_CURSOR_ALL_OVER = re.compile(r"cursor.*(?:everywhere|every|each|all )|screen.*(?:inver|reverse)")
_OF_LIGHT = (
    _OfLight(
        re.compile(rf"(?:{_BLANK}).*cursor|cursor.*(?:{_BLANK})"),
        lambda boxed: [_dark(boxed, frozenset())],
        _CURSOR_TOO,
    ),
    _OfLight(
        re.compile(rf"(?:{_BLANK}).*cursor|cursor.*(?:{_BLANK})"),
        lambda boxed: [_dark(boxed, _NO_CURSOR)],
    ),
    _OfLight(re.compile(_BLANK), _blank),
    _OfLight(_CURSOR_ALL_OVER, lambda _boxed: [Light(0, frozenset({("cursor", "everywhere")}))]),
    _OfLight(
        re.compile(_CURSOR_GONE),
        lambda _boxed: [Light(0, _NO_CURSOR)],
        re.compile(r"\b(?:wrong|place|position|mov|left|right|row|column|stays?\b)"),
    ),
    _OfLight(
        re.compile(r"(?:bright|retrace|flyback|diagonal|slanting|white) lines|beam|not blanked"),
        lambda _boxed: [Light(0, frozenset({("beam", "seen")}))],
    ),
)
