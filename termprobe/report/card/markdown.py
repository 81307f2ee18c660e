"""A card as Markdown, for a wiki or a repository."""

from collections.abc import Iterable, Iterator, Sequence

from termprobe.report.card import words
from termprobe.report.card.facts import Card, CardKey, CardStage, CardStep
from termprobe.report.card.text import box_line
from termprobe.report.formats.markdown import escaped, fenced

_BOX = "\u2610"
_BLANK = "\\_" * 20


def card_markdown(card: Card) -> str:
    """Return the card; whatever came from a profile or a script is escaped."""
    return "\n".join(_lines(card)) + "\n"


def _lines(card: Card) -> Iterator[str]:
    yield from (f"# {escaped(words.card_title(card))}", "", escaped(words.made_of(card)))
    yield from ("", *_table(("", ""), [(blank, "") for blank in words.BLANKS]))
    if card.cautions:
        yield from ("", f"## {words.CAUTIONS}", "")
    for number, text, where in card.cautions:
        yield f"{number}. **{escaped(text)}** ({escaped('; '.join(where))})"
    yield from ("", f"## {words.HOW}", "", *(f"- {escaped(one)}" for one in words.how_to(card)))
    if card.codes:
        rows = [map(escaped, row) for row in card.codes]
        yield from ("", f"## {words.CODES}", "", *_table(words.CODE_HEADS, rows))
    for stage in card.stages:
        yield from _stage(stage)
    left_off = words.left_off_in_words(card)
    if left_off:
        yield from ("", f"## {words.LEFT_OFF}", "", escaped(left_off))
    yield from ("", f"## {words.NOTES}", "", _BLANK)


def _table(heads: Sequence[str], rows: Iterable[Iterable[str]]) -> Iterator[str]:
    """Yield a table of cells that are Markdown already."""
    yield f"| {' | '.join(heads)} |"
    yield f"|{'---|' * len(heads)}"
    for row in rows:
        yield f"| {' | '.join(row)} |"


def _stage(stage: CardStage) -> Iterator[str]:
    yield from ("", f"## {escaped(stage.title)}")
    for text in filter(None, (words.cautions_in_words(stage.cautions), *stage.do)):
        yield from ("", escaped(text))
    for step in stage.steps:
        yield from _step(step)
    if stage.keys:
        yield from ("", *_table(words.KEY_HEADS, map(_key, stage.keys)))


def _step(step: CardStep) -> Iterator[str]:
    yield from ("", f"### {step.number}\\. {escaped(step.title)}")
    if step.stop_if:
        yield from ("", f"**SWITCH OFF AT ONCE if {escaped(step.stop_if)}.**")
    for text in step.do:
        yield from ("", escaped(text))
    if step.sent:
        yield from ("", f"{step.sent_in_words}:", "", *fenced([step.sent]))
    for text in filter(None, (step.question, *step.must)):
        yield from ("", escaped(text))
    if step.drawn:
        yield from ("", *fenced([*step.drawn, *step.dots]))
    yield from ("", _answer(step), "", f"Note: {_BLANK}")


def _answer(step: CardStep) -> str:
    if step.is_reading:
        return f"{words.READING_BLANK}: {_BLANK} {_BOX} {words.NOT_TRIED_BOX}"
    return box_line().replace("[ ]", _BOX)


def _key(key: CardKey) -> Iterator[str]:
    pressed = " ".join(filter(None, (key.do, key.pressed)))
    yield from (key.number, *map(escaped, (pressed, key.sends, key.hexadecimal)))
    yield from (_BOX, _BOX, _BOX, "")
