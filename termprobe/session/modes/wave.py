"""Bytes that are sent over and over for the scope are set up."""

from collections.abc import Callable
from dataclasses import replace

from termprobe.link.base import LineFormat
from termprobe.notation import NotationError, parse, show
from termprobe.observer.typed_reading import parse_reading
from termprobe.session.draw.loop_rows import loop_rows
from termprobe.session.draw.rows import Rows, paragraph
from termprobe.session.messages import StartLoop
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.in_hand import take_again
from termprobe.session.react.typed_lines import TypedLineError, asked, open_line
from termprobe.session.react.waveform import Loop
from termprobe.session.shared_keys import BESIDE_A_STEP, way_back
from termprobe.session.state import Purpose, Reaction, State

PARITIES = {"N": "none", "E": "even", "O": "odd", "M": "mark", "S": "space"}
MAX_GAP_S = 10.0
MAX_BAUD = 4_000_000


def _loop(state: State) -> Loop:
    """Return the loop that is set up; without one nobody gets here."""
    if state.loop is None:
        raise RuntimeError("a loop must be set up")
    return state.loop


def _taken(change: Callable[[Loop, str], Loop]) -> Callable[[State, str], Reaction]:
    """Return what takes a line by which `change(loop, text)` gives another loop."""

    def accept(state: State, text: str) -> Reaction:
        loop = change(_loop(state), text)
        return replace(state.back(), loop=loop), ()

    return accept


def _with_bytes(loop: Loop, text: str) -> Loop:
    try:
        data = parse(text)
    except NotationError as error:
        raise TypedLineError(str(error)) from None
    if not data:
        raise TypedLineError('at least one byte must be given, such as "U" or 55h')
    return replace(loop, data=data)


def _with_gap(loop: Loop, text: str) -> Loop:
    gap_s = parse_reading(text or "0", "s")
    if not 0 <= gap_s <= MAX_GAP_S:
        raise TypedLineError(f"the gap must be 0 to {MAX_GAP_S:g} s, such as 5 ms, not {text}")
    return replace(loop, gap_s=gap_s)


def _with_speed(loop: Loop, text: str) -> Loop:
    speed, _, frame = text.strip().partition(" ")
    line = loop.format
    if frame.strip():
        line = parse_frame(frame.strip(), line)
    if not speed.isdecimal() or not 1 <= int(speed) <= MAX_BAUD:
        raise TypedLineError(
            f"the speed must be 1 to {MAX_BAUD} baud, such as 1200 or 1200 8N1, "
            f"not {speed or 'nothing'}"
        )
    return replace(loop, format=replace(line, speed_baud=int(speed)))


def parse_frame(text: str, line: LineFormat) -> LineFormat:
    """Return `line` with the frame that `text` names, such as 7E1; raise TypedLineError."""
    data_bits, parity, stop_bits = text[:1], text[1:2].upper(), text[2:]
    if data_bits not in set("5678") or parity not in PARITIES or stop_bits not in set("12"):
        raise TypedLineError(
            "the frame must be data bits, parity letter N E O M S, and stop bits, "
            f"such as 7E1, not {text}"
        )
    return replace(
        line, data_bits=int(data_bits), parity=PARITIES[parity], stop_bits=int(stop_bits)
    )


BYTES = Purpose('Bytes, such as "U" or ESC "=" 20h', _taken(_with_bytes))
GAP = Purpose("Idle time between two rounds, such as 5 ms; 0 is back to back", _taken(_with_gap))
SPEED = Purpose(
    "Speed in baud, and a frame where it is to differ, such as 1200 8N1", _taken(_with_speed)
)


def _ask_bytes(state: State, key: str) -> Reaction:
    """Have the bytes typed, the present ones given."""
    return open_line(state, BYTES, show(_loop(state).data)), ()


def _start(state: State, key: str) -> Reaction:
    """Begin to send."""
    return state.at("waving").say(""), (StartLoop(_loop(state)),)


def _panel(view: View) -> Rows:
    words = "Enter starts. The board's screen fills with it; the step is sent again afterwards."
    return loop_rows(view) + paragraph(words, view.columns)


MODE = Mode(
    name="wave",
    title="bytes for the scope",
    keys=(
        ModeKey("d", _ask_bytes, "bytes", 'the bytes, in the notation: ESC "=" 20h'),
        ModeKey("i", asked(GAP), "gap", "idle time between two rounds"),
        ModeKey(
            "r",
            asked(SPEED),
            "rate",
            "speed in baud, and the frame if it is to differ: 1200 8N1",
        ),
        ModeKey("enter space", _start, "start", "start sending, until any key"),
        way_back(
            "w c-g backspace",
            take_again,
            "leave",
            "back to the step; the line is as it was",
        ),
        *BESIDE_A_STEP,
    ),
    is_of_step=True,
    panel=_panel,
)
