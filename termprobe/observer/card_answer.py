"""What is written at one item of a card, as an answer to its step."""

import re
from dataclasses import replace

from termprobe import notation
from termprobe.findings import nearest, quoted
from termprobe.journal.card import CARD
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DISPUTED,
    EYES,
    SKIPPED,
    UNSURE,
    Answer,
)
from termprobe.link.base import LineFormat, Received
from termprobe.observer.press import Events, answer_of
from termprobe.observer.typed_reading import answer_of_reading, reading_of
from termprobe.plan.model import KeyPress, Measure, Press, Reply, Step, TypedBack

OK, NOT_TRIED_WORD, CAME, NOTHING = "ok", "not tried", "came", "nothing"
ANSWER_OF_BOX = {
    OK: AS_EXPECTED,
    "as expected": AS_EXPECTED,
    "yes": AS_EXPECTED,
    "differs": DIFFERS,
    "no": DIFFERS,
    "unsure": UNSURE,
    "disputed": DISPUTED,
    NOT_TRIED_WORD: SKIPPED,
    "skip": SKIPPED,
}
"""What may be written at an item, capitals or not, a remark behind it."""
_LONGEST_FIRST = sorted((*ANSWER_OF_BOX, CAME), key=len, reverse=True)
_WORD = re.compile(rf"({'|'.join(_LONGEST_FIRST)})(?:[\s,;:]+(.*))?", re.IGNORECASE)
_REMARK = re.compile(r"\s{2,}|\s*;\s*")
"""Parts a reading, which may have a blank before its unit, from a remark."""
_EXAMPLES = (
    "3: ok, 3: differs  row 5 is blank, 3: not tried  no scope, 3: seen 5,10 HEMMO, "
    "3: note  it flickers"
)


def answer_written(step: Step, text: str, line: LineFormat) -> Answer:
    """Return the answer that `text` is; raise ValueError with what must be written.

    `line` is what the board is set to: codes that were read off it are kept as heard on such a one.
    """
    match = _WORD.fullmatch(text)
    if match is None and isinstance(step, Measure):
        return _reading(step, text)
    if match is None:
        words = ", ".join(ANSWER_OF_BOX)
        near = nearest(text.split()[0], ANSWER_OF_BOX)
        raise ValueError(
            f"the answer must be one of {words} ({_EXAMPLES}), not {quoted(text)}{near}"
        )
    word, remark = match[1].casefold(), match[2] or ""
    if word == CAME:
        return _of_bytes(step, remark, line)
    said = ANSWER_OF_BOX[word]
    if isinstance(step, Measure) and said != SKIPPED:
        unit = f" in {step.unit}" if step.unit else ""
        raise ValueError(
            f"the answer must be a reading{unit}, or {NOT_TRIED_WORD}, not {quoted(text)}"
        )
    if said == DISPUTED and not remark:
        raise ValueError(f"the reason must be written behind the word, not {quoted(text)} alone")
    if said == AS_EXPECTED:
        return _as_expected(step, line, remark)
    if said == SKIPPED:
        remark = remark or NOT_TRIED_WORD
    return _written_down(Answer(said, note=remark))


def _as_expected(step: Step, line: LineFormat, remark: str) -> Answer:
    """Return the answer where all is right: of what must come, that it came."""
    match step:
        case KeyPress():
            return _of_press(step.press, _right_events(step.press), line, remark)
        case Reply():
            data: bytes | None = step.reply
        case TypedBack():
            data = step.typed
        case _:
            data = None
    return _written_down(Answer(AS_EXPECTED, data=data, note=remark))


def _reading(step: Measure, text: str) -> Answer:
    reading, *remarks = _REMARK.split(text, maxsplit=1)
    answer = answer_of_reading(step, reading_of(step, reading))
    return _written_down(replace(answer, note="".join(remarks)))


def _of_bytes(step: Step, text: str, line: LineFormat) -> Answer:
    """Return the answer where other bytes came than had to."""
    if not isinstance(step, KeyPress | Reply | TypedBack):
        raise ValueError(f"{CAME} must be written where bytes come back, not at this item")
    data = b""
    if text.casefold() != NOTHING:
        try:
            data = notation.parse(text)
        except notation.NotationError as error:
            raise ValueError(f'{CAME} must have bytes behind it (42h, "B", CR): {error}') from None
        if not data:
            raise ValueError(f'{CAME} must have bytes behind it (42h, "B", CR), or {NOTHING}')
    if isinstance(step, KeyPress):
        return _of_press(step.press, _events(data), line, "")
    is_right = step.allows(data) if isinstance(step, Reply) else data == step.typed
    word = AS_EXPECTED if is_right else DIFFERS
    return _written_down(Answer(word, data=data))


def _right_events(press: Press) -> Events:
    """Return what a press must send, as heard at one moment: nothing told how long it took."""
    if press.is_break:
        return (Received(0.0, b"", "break"),)
    return _events(press.code)


def _events(data: bytes) -> Events:
    return (Received(0.0, data),) if data else ()


def _of_press(press: Press, events: Events, line: LineFormat, remark: str) -> Answer:
    """Return the answer to a press: what was read off the line is kept as heard.

    So a keyboard can be diagnosed by a card as by a link.
    """
    return _written_down(replace(answer_of(press, events, line), note=remark))


def _written_down(answer: Answer) -> Answer:
    return replace(answer, observer=CARD, strength=EYES)
