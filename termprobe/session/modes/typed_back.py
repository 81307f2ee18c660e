"""A word is typed on the board's own keyboard and comes back over the line."""

from dataclasses import replace

from termprobe.journal.records import AS_EXPECTED, KEYBOARD, Answer
from termprobe.notation import show
from termprobe.observer.base import BOARD_KEYBOARD
from termprobe.plan.model import TypedBack
from termprobe.plan.typed_word import variant_of
from termprobe.profile.variants import shown_as
from termprobe.session.draw.fit import columns_of
from termprobe.session.draw.rows import Row, Rows, plain
from termprobe.session.messages import Wanted
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.answering import answered
from termprobe.session.react.sounds import of_wrong_press
from termprobe.session.shared_keys import AROUND, AT_ANY_TIME, BOARD_KEYS, DISPUTED_KEY, UNSURE_KEY
from termprobe.session.state import Reaction, State

NAMES = {0x0D: "RETURN", 0x20: "SPACE"}
"""Codes that are called by the name of their key."""
NAMES_OF_KEYS = {"enter": "\r", "space": " "}
"""Characters of the keys of this computer that have names."""
NOT_YET = "·"
MISTYPED = "typed on this computer: type the word on the board's own keyboard"


def _wanted(state: State) -> bytes:
    """Return the bytes that must come from the board's keyboard."""
    return state.step.typed if isinstance(state.step, TypedBack) else b""


def _differs(state: State, key: str) -> Reaction:
    """The word cannot be typed; that is recorded once it is confirmed."""
    return state.to("confirming").say(""), ()


def _by_mistake(state: State, key: str) -> Reaction | None:
    """Take a key that goes on with the word for one that was meant for the board's keyboard."""
    word = shown_as(_wanted(state).decode("latin-1"), variant_of(state.step)).lower()
    before = state.mistyped if state.mistyped != word else ""
    mistyped = before + NAMES_OF_KEYS.get(key, key).lower()
    if not word.startswith(mistyped):
        return None
    return replace(state.say(MISTYPED), mistyped=mistyped), ()


def _type_anew(state: State, key: str) -> Reaction:
    """Forget what has come of the word."""
    return replace(state, typed=b"").say("type the word again"), ()


def take_code(state: State, code: int) -> Reaction:
    """Record the word once it has come right.

    Otherwise the builder decides when its end has come.
    """
    state = replace(state, typed=state.typed + bytes([code]))
    wanted = _wanted(state)
    if state.typed == wanted:
        answer = Answer(AS_EXPECTED, data=state.typed, strength=KEYBOARD)
        return answered(state, answer, BOARD_KEYBOARD)
    bell: tuple[Wanted, ...] = ()
    if not wanted.startswith(state.typed):
        bell = of_wrong_press(state)
    if code == wanted[-1] or len(state.typed) >= len(wanted):
        return state.say("that is not the word: x types it anew, ctrl-W records what came"), bell
    return state, bell


def _task(view: View) -> Rows:
    """Return the word to be typed, and live which of its characters have come right."""
    wanted, came = _wanted(view.state), view.state.typed
    above, below = plain("  type    "), plain("  came    ")
    variant = variant_of(view.state.step)
    for index, code in enumerate(wanted):
        style, got = _got(code, came[index : index + 1], variant)
        name = _key_name(code, variant)
        size = max(columns_of(name), columns_of(got)) + 1
        above.append(("class:strong", name.ljust(size)))
        below.append((style, got.ljust(size)))
    return [above, below, _count_row(wanted, came)]


def _got(code: int, came: bytes, variant: str) -> tuple[str, str]:
    """Return the style and the name of what came where `code` is wanted."""
    if not came:
        return "", NOT_YET
    style = "class:pass" if came[0] == code else "class:fail"
    return style, _key_name(came[0], variant)


def _count_row(wanted: bytes, came: bytes) -> Row:
    right = sum(one == other for one, other in zip(wanted, came, strict=False))
    words = f"          {right} of {len(wanted)} right"
    if len(came) > len(wanted):
        words += f", {len(came) - len(wanted)} too many"
    return plain(words)


def _key_name(code: int, variant: str) -> str:
    """Return what a key is called that sends `code`: as the screen shows it, where it does."""
    if code in NAMES:
        return NAMES[code]
    if 0x21 <= code <= 0x7E:
        return shown_as(chr(code), variant)
    return show(bytes([code]))


MODE = Mode(
    name="typed-back",
    title="type on the board's own keyboard",
    keys=(
        BOARD_KEYS,
        ModeKey("x", _type_anew, "type anew", "forget what came, and type the word again"),
        ModeKey("c-w", _differs, "wrong", "it cannot be typed: record what came; you are asked"),
        UNSURE_KEY,
        DISPUTED_KEY,
        *(key for key in AROUND if key is not BOARD_KEYS),
        *AT_ANY_TIME,
    ),
    kind=TypedBack.kind,
    is_of_step=True,
    on_code=take_code,
    takes_first=_by_mistake,
    task=_task,
    shows_screen=True,
    shows_question=True,
)
