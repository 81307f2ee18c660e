"""A key is pressed on the board's own keyboard: the one asked for, or in free order any."""

import functools
from dataclasses import replace

from termprobe.observer.base import BOARD_KEYBOARD
from termprobe.observer.press import Events, answer_of, bytes_of
from termprobe.plan.model import KeyPress
from termprobe.plan.presses import request
from termprobe.report.keyboard_drawing import legend
from termprobe.report.walk_words import (
    NONE_BEFORE,
    PRESS_RIGHT,
    PRESS_WRONG,
    all_noticed,
    of_no_press_left,
)
from termprobe.session.draw.fit import wrap
from termprobe.session.draw.keyboard_rows import keyboard_rows
from termprobe.session.draw.rows import Rows, Styled, blank, plain
from termprobe.session.draw.step_list import VERDICT_STYLES
from termprobe.session.messages import PressHeard, PressKey, TakeBack
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.answering import answered
from termprobe.session.react.in_hand import take
from termprobe.session.react.sounds import of_wrong_press, switch_press_bell
from termprobe.session.react.typed_lines import disputed, skip
from termprobe.session.shared_keys import (
    ADD_NOTE,
    AT_ANY_TIME,
    BACK_KEY,
    DISPUTED_KEY,
    FORWARD_KEY,
    JUMP,
    PAUSE,
    SKIP_STAGE_KEY,
)
from termprobe.session.standing import is_any_key
from termprobe.session.state import KeyAction, Reaction, State
from termprobe.verdict.model import FAIL, PASS

WHICH_KEY = "of which key? o asks for one key after the other; say it there"
ANY_KEY = (
    "Press any key that is not pressed yet, with a short pause between two keys, "
    "on the board's own keyboard."
)
WORD_OF_VERDICT = {PASS: PRESS_RIGHT, FAIL: PRESS_WRONG}


def _of_one_key(action: KeyAction) -> KeyAction:
    """Return `action`, which speaks of the key asked for, refused in free order: there none is."""

    @functools.wraps(action)
    def guarded(state: State, key: str) -> Reaction:
        if is_any_key(state):
            return state.say(WHICH_KEY), ()
        return action(state, key)

    return guarded


def _asked(state: State) -> KeyPress:
    """Return the step in hand; without a key to be pressed nobody gets here."""
    if not isinstance(state.step, KeyPress):
        raise RuntimeError(f"{state.step.id} must be a press")
    return state.step


def _press_simulated_key(state: State, key: str) -> Reaction:
    """Practice: press the key asked for on the simulated board."""
    return state, (PressKey(state.step.id),)


def _walk_simulated_keys(state: State, key: str) -> Reaction:
    """Practice: press all keys that are left on the simulated board, or stop doing so."""
    return _begin(replace(state, is_walking=not state.is_walking))


def _begin(state: State) -> Reaction:
    """Practice: press the key asked for where all are pressed one after the other."""
    if not state.is_walking:
        return state, ()
    return state, (PressKey(state.step.id),)


def _take_back(state: State, key: str) -> Reaction:
    """Let the last press count no more, and ask for it again."""
    last = state.course.last_press()
    if last is None:
        return state.say(NONE_BEFORE), ()
    without = replace(state, course=state.course.taken_back(last.id), heard_id=None)
    after, requests = take(without, last.id)
    return after.say("undone; press it again"), (TakeBack(last.id), *requests)


def _press_again(state: State, key: str) -> Reaction:
    """Ask for the last key once more.

    All its presses together give the rate of a contact that fails at times.
    """
    last = state.course.last_press()
    if last is None:
        return state.say(NONE_BEFORE), ()
    after, requests = take(state, last.id)
    notice = "press it once more; a contact that fails at times shows by its rate"
    return after.say(notice), requests


@_of_one_key
def _is_missing(state: State, key: str) -> Reaction:
    """The key was pressed, and nothing came."""
    return answered(state, answer_of(_asked(state).press, (), state.format))


def _change_order(state: State, key: str) -> Reaction:
    """Take any press, or only the one asked for."""
    if state.is_free:
        return replace(state, is_free=False).say("only the key asked for"), ()
    return replace(state, is_free=True).say("any key, in any order"), ()


def _take_press(state: State, event: PressHeard) -> Reaction:
    """Record a press for the step in hand; in free order for the one it fits.

    There none is missed, but in practice: the key of the step was pressed.
    """
    is_missed = state.is_practice and not event.events
    is_free = state.is_free and not is_missed
    step = state.course.press_meant(_asked(state), event.events, is_free)
    if step is None:
        return _unmeant(replace(state, heard_id=None), event.events)
    answer = answer_of(step.press, event.events, state.format)
    after, requests = answered(replace(state, step_id=step.id), answer, BOARD_KEYBOARD)
    if event.events:
        after = replace(after, heard_id=step.id)
    return after, requests


def _unmeant(state: State, events: Events) -> Reaction:
    """Say what came that counts for no press, where anything came."""
    if not events:
        return state, ()
    return state.say(of_no_press_left(bytes_of(events))), of_wrong_press(state)


def _panel(view: View) -> Rows:
    """Return what to press, what came last, and as much of the keyboard as there is room for."""
    state, columns = view.state, view.columns
    rows = [plain(f" {text}", "class:strong") for text in wrap(_request(state), columns - 2)]
    below = replace(view, rows=max(view.rows - len(rows), 0))
    return rows + came_and_keyboard(below)


def came_and_keyboard(view: View) -> Rows:
    """Return what came last, and as much of the keyboard as there is room for."""
    state, columns = view.state, view.columns
    rows = _last_rows(state, columns)
    room = max(view.rows - len(rows), 0)
    drawn = keyboard_rows(state, columns - 2, room)
    if room > len(drawn):
        rows.append(blank())
    return rows + drawn


def _request(state: State) -> str:
    keyboard = state.profile.keyboard
    if is_any_key(state) or keyboard is None:
        return ANY_KEY
    return f"Press {request(keyboard, _asked(state).press)} once, and let go."


def _last_rows(state: State, columns: int) -> Rows:
    """Return what the last press sent, and what was noticed of it."""
    last = state.course.last_press()
    if last is None or not state.course.verdict(last.id).answers:
        return [plain(" The last press is shown here, with its code and name.")]
    verdict = state.course.verdict(last.id)
    word = WORD_OF_VERDICT.get(verdict.verdict, verdict.verdict)
    lines = wrap(f"Last: {last.press.asked}: {word}: {all_noticed(verdict)}", columns - 2)
    style = VERDICT_STYLES.get(verdict.verdict, "")
    return [plain(f" {line}", style) for line in lines]


def _hint(state: State) -> Styled:
    """Say what the marks on the keyboard mean."""
    return "", legend()


MODE = Mode(
    name="pressing",
    title="press the key on the board's own keyboard",
    keys=(
        ModeKey(
            "enter",
            _press_simulated_key,
            "press it",
            "practice: press the key on the simulated board",
            is_practice=True,
        ),
        ModeKey(
            "a",
            _walk_simulated_keys,
            "press all",
            "practice: press all that are left; again: stop that",
            is_practice=True,
        ),
        ModeKey(
            "x",
            _take_back,
            "undo",
            "undo the last press: it counts no more, and is asked for again",
        ),
        ModeKey(
            "r",
            _press_again,
            "again",
            "press the last key once more; its presses together give a rate",
        ),
        ModeKey("m", _is_missing, "no code", "the key was pressed, and no code was received"),
        ModeKey("s", _of_one_key(skip), "skip", "leave the press out; you are asked why"),
        SKIP_STAGE_KEY,
        ModeKey("o", _change_order, "order", "any key in any order, or only the key asked for"),
        ModeKey("k", switch_press_bell, "", "the bell for a wrong press: off, or on again"),
        replace(DISPUTED_KEY, action=_of_one_key(disputed)),
        BACK_KEY,
        FORWARD_KEY,
        JUMP,
        ADD_NOTE,
        PAUSE,
        *AT_ANY_TIME,
    ),
    kind=KeyPress.kind,
    is_of_step=True,
    on_begin=_begin,
    on_press=_take_press,
    panel=_panel,
    is_panel_kept=True,
    hint=_hint,
    help_more=legend(),
)
