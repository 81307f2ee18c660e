"""A card as plain text, to print on anything."""

from collections.abc import Iterable, Iterator

from termprobe.folding import folded
from termprobe.notation import visible
from termprobe.report.card import words
from termprobe.report.card.facts import Card, CardKey, CardStage, CardStep

COLUMNS = 96
INDENT = "    "
_LINE = "_" * 60
_KEY_COLUMNS = 26, 24
"""Of what is pressed and what it must send."""


def card_text(card: Card) -> str:
    """Return the card."""
    return "\n".join(_lines(card)) + "\n"


def box_line() -> str:
    """Return the boxes of an item."""
    return "   ".join(f"[ ] {word}" for word in words.BOXES)


def _lines(card: Card) -> Iterator[str]:
    yield from folded("", words.card_title(card), COLUMNS)
    yield from folded("", words.made_of(card), COLUMNS)
    yield ""
    for blank in words.BLANKS:
        yield f"{blank}:".ljust(30) + _LINE
    if card.cautions:
        yield from _heading(words.CAUTIONS)
    for number, text, where in card.cautions:
        yield from folded(f" {number}. ", text, COLUMNS)
        yield from folded(INDENT, f"({'; '.join(where)})", COLUMNS)
    yield from _heading(words.HOW)
    for text in words.how_to(card):
        yield from folded(" - ", text, COLUMNS)
    if card.codes:
        yield from _heading(words.CODES)
    for name, hexadecimal, pressed in card.codes:
        yield f"{INDENT}{name:<6}{hexadecimal:<6}{visible(pressed)}".rstrip()
    for stage in card.stages:
        yield from _stage(stage)
    left_off = words.left_off_in_words(card)
    if left_off:
        yield from _heading(words.LEFT_OFF)
        yield from folded("", left_off, COLUMNS)
    yield from _heading(words.NOTES)
    yield from ["", _LINE] * 3


def _heading(text: str) -> Iterator[str]:
    shown = visible(text)
    yield from ("", shown, "=" * len(shown))


def _stage(stage: CardStage) -> Iterator[str]:
    yield from _heading(stage.title)
    for text in filter(None, (words.cautions_in_words(stage.cautions), *stage.do)):
        yield from folded("", text, COLUMNS)
    for step in stage.steps:
        yield ""
        yield from _step(step)
    if stage.keys:
        yield ""
        yield from _keys(stage.keys)


def _step(step: CardStep) -> Iterator[str]:
    yield from folded(f"{step.number}. ".ljust(len(INDENT)), step.title, COLUMNS)
    if step.stop_if:
        yield from _told([f"SWITCH OFF AT ONCE if {step.stop_if}."])
    yield from _told(step.do)
    if step.sent:
        yield from folded(f"{INDENT}{step.sent_in_words}: ", step.sent, COLUMNS, 8)
    yield from _told([step.question, *step.must])
    for line in (*step.drawn, *step.dots):
        yield f"{INDENT}{line}".rstrip()
    if step.is_reading:
        yield f"{INDENT}{words.READING_BLANK}: {'_' * 20}   [ ] {words.NOT_TRIED_BOX}"
    else:
        yield f"{INDENT}{box_line()}"
    yield f"{INDENT}Note: {_LINE}"


def _told(texts: Iterable[str]) -> Iterator[str]:
    for text in filter(None, texts):
        yield from folded(INDENT, text, COLUMNS)


def _keys(keys: Iterable[CardKey]) -> Iterator[str]:
    pressed, sends = _KEY_COLUMNS
    yield f"{'No.':<6}{'Press':<{pressed}}{'Must send':<{sends}}ok  differs  not tried  Code seen"
    for key in keys:
        yield from _told([key.do])
        named = f"{visible(key.pressed):<{pressed}}{_sent(key):<{sends}}"
        yield f"{key.number:<6}{named}[ ]   [ ]      [ ]      __________"


def _sent(key: CardKey) -> str:
    return " ".join(filter(None, (visible(key.sends), key.hexadecimal)))
