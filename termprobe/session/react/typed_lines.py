"""Lines that are typed: what each is for, and what becomes of it. Pure: State -> State and requests."""

from dataclasses import replace
from typing import NamedTuple

from termprobe.notation import NotationError, parse, show
from termprobe.session.react import marked_cells
from termprobe.session.messages import Note, PressBoardKeys, Record
from termprobe.observer.base import AS_EXPECTED, DIFFERS, DISPUTED, SKIPPED, Answer
from termprobe.observer.reading import parse_reading

FORMAT_WORDS = {"N": "none", "E": "even", "O": "odd", "M": "mark", "S": "space"}
MAX_GAP_S = 10.0


class LineError(ValueError):
    """A line that cannot be taken; says why."""


class Purpose(NamedTuple):
    """What a line is for."""

    prompt: str
    accept: object
    """(state, text) -> (state, requests); raises ValueError with what must be typed."""


def open_line(state, purpose, text=""):
    """Return the state with a line being typed."""
    return state.to("line", purpose=purpose, text=text, notice="")


def prompt(state):
    """Return the line's prompt."""
    words = PURPOSES[state.purpose].prompt
    if state.purpose == "reading":
        return f"{words}: {state.step.limits or 'no limits, it is noted'}"
    return (
        f"{words} from row {state.cursor[0]}, column {state.cursor[1]} on"
        if state.purpose == "seen"
        else words
    )


def judged_so_far(state):
    """Return (answer word, sentence) for a reading that is being typed, or None."""
    if state.purpose != "reading":
        return None
    try:
        return judgement(state.step, parse_reading(state.text, state.step.unit))
    except ValueError:
        return None


def judgement(step, value):
    """Return (answer word, sentence) for reading `value` of a measure step."""
    shown = f"{value:g} {step.unit or ''}".rstrip()
    if not step.limits:
        return AS_EXPECTED, f"{shown}, noted"
    if step.allows(value):
        return AS_EXPECTED, f"{shown} is within the limits, {step.limits}"
    return DIFFERS, f"{shown} is OUTSIDE the limits, {step.limits}"


def _needed(text, what):
    if not text.strip():
        raise LineError(f"{what} must be told, in a few words")
    return text.strip()


def _reading(state, text):
    value = parse_reading(text, state.step.unit)
    word, sentence = judgement(state.step, value)
    return state.back(notice=f"{state.step.title}: {sentence}"), (
        Record(state.step_id, Answer(word, value=value)),
    )


def _dispute(state, text):
    return state.back(), (
        Record(
            state.step_id,
            Answer(DISPUTED, note=_needed(text, "what is wrong with the expectation")),
        ),
    )


def _skip(state, text):
    return state.back(), (
        Record(state.step_id, Answer(SKIPPED, note=_needed(text, "the reason for skipping"))),
    )


def _note(state, text):
    return state.back(notice="noted"), (Note(_needed(text, "the note"), state.step_id),)


def _remark(state, text):
    return state.back(remark=text.strip()), ()


def _seen(state, text):
    row, column = state.cursor
    found = marked_cells.typed(state.marks, state.screen, state.cursor, text)
    last = len(state.screen.rows[row]) - 1
    return state.back(marks=found, cursor=(row, min(column + len(text), last))), ()


def _wave_bytes(state, text):
    try:
        data = parse(text)
    except NotationError as error:
        raise LineError(str(error)) from None
    if not data:
        raise LineError('at least one byte must be given, such as "U" or 55h')
    return state.back(loop=replace(state.loop, data=data)), ()


def _wave_gap(state, text):
    gap_s = parse_reading(text or "0", "s")
    if not 0 <= gap_s <= MAX_GAP_S:
        raise LineError(f"the gap must be 0 to {MAX_GAP_S:g} s, such as 5 ms, not {text}")
    return state.back(loop=replace(state.loop, gap_s=gap_s)), ()


def _wave_speed(state, text):
    speed, _, frame = text.strip().partition(" ")
    format = parse_frame(frame.strip(), state.loop.format) if frame.strip() else state.loop.format
    if not speed.isdecimal() or not 1 <= int(speed) <= 4_000_000:
        raise LineError(
            f"the speed must be 1 to 4000000 baud, such as 1200 or 1200 8N1, not {speed or 'nothing'}"
        )
    return state.back(loop=replace(state.loop, format=replace(format, speed_baud=int(speed)))), ()


def parse_frame(text, format):
    """Return `format` with the frame that `text` names, such as 7E1; raise LineError."""
    if (
        len(text) != 3
        or text[0] not in "5678"
        or text[1].upper() not in FORMAT_WORDS
        or text[2] not in "12"
    ):
        raise LineError(
            f"the format must be data bits, parity letter N E O M S, and stop bits, such as 7E1, not {text}"
        )
    return replace(
        format, data_bits=int(text[0]), parity=FORMAT_WORDS[text[1].upper()], stop_bits=int(text[2])
    )


def _board_keys(state, text):
    return state.back(notice="typed on the simulated board"), (PressBoardKeys(text + "\r"),)


PURPOSES = {
    "reading": Purpose("Reading", _reading),
    "dispute": Purpose("What is wrong with the expectation", _dispute),
    "skip": Purpose("Why skip the step", _skip),
    "note": Purpose("Note", _note),
    "remark": Purpose("What differs, in words", _remark),
    "seen": Purpose("Characters seen", _seen),
    "board-keys": Purpose(
        "Typed on the simulated board's keyboard, RETURN at the end", _board_keys
    ),
    "wave-bytes": Purpose('Bytes, such as "U" or ESC "=" 20h', _wave_bytes),
    "wave-gap": Purpose("Idle time between two rounds, such as 5 ms; 0 is back to back", _wave_gap),
    "wave-speed": Purpose(
        "Speed in baud, and a format where it is to differ, such as 1200 8N1", _wave_speed
    ),
}


def accept(state):
    """Return (state, requests) for the line typed; the state says why where it cannot be taken."""
    try:
        return PURPOSES[state.purpose].accept(state, state.text)
    except ValueError as error:
        return state.say(str(error)), ()


def wave_text(loop):
    """Return the bytes of `loop` as they are typed."""
    return show(loop.data)
