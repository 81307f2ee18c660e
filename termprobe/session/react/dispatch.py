"""What each key does: State and key -> State and requests. Pure: the time is passed in.

An action is a function (state, key) -> (state, requests); what needs more of the world finds it in the state.
"""

from dataclasses import replace

from termprobe.plan.model import PRESS, SWITCH
from termprobe.session import keymap
from termprobe.session.react import marked_cells, tools, typed_lines
from termprobe.session.messages import (
    Acknowledge,
    Note,
    PressKey,
    Quit,
    Record,
    Retry,
    Send,
    SetOption,
    StopLoop,
    TakeBack,
)
from termprobe.session.state import (
    KEPT_PACES,
    SLOWER_BY,
    SLOWEST,
    is_any_key,
    settings_due,
    verdict_of,
)
from termprobe.observer.base import AS_EXPECTED, DIFFERS, KEYBOARD, UNSURE, Answer
from termprobe.observer.press import answer_of

TOO_SOON_S = 0.25
"""A key this short after a screen has come was meant for the one before."""
ANSWERS = ("as_expected", "differs", "unsure", "disputed", "is_set", "acknowledge")
OF_ONE_KEY = ("key_is_missing", "skip", "disputed")
"""Actions that speak of the key asked for; in free order none is."""
WHICH_KEY = "of which key? o asks for one key after the other; say it there"
LOOK_FIRST = "too soon: look first, then answer"
WAIT = "sending: answer when all is there"
BUILDER, BOARD_KEYBOARD = "builder", "board keyboard"


def press(state, key, now_s):
    """Return (state, requests) after `key`, a character or one of the names in keymap.MODES, at `now_s`."""
    state = replace(state, now_s=now_s)
    if state.mode == "waving":
        return state, (StopLoop(),)
    entry = keymap.find(state.mode, key)
    if entry is None or entry.action in keymap.ONLY_IN_PRACTICE and not state.is_practice:
        return _unbound(state, key)
    if entry.action in OF_ONE_KEY and state.mode == "press" and is_any_key(state):
        return state.say(WHICH_KEY), ()
    if entry.action in ANSWERS and is_too_soon(state):
        return state.say(LOOK_FIRST), ()
    return ACTIONS[entry.action](state, key)


def is_too_soon(state):
    """Return whether a key of now was meant for the screen before."""
    return state.now_s - state.ready_at_s < TOO_SOON_S


def _unbound(state, key):
    if state.mode == "help":
        return state.back(), ()
    if state.mode == "line":
        text = " " if key == "space" else key
        return (
            replace(state, text=state.text + text, notice="")
            if len(text) == 1 and text.isprintable()
            else state
        ), ()
    if state.mode == "measure" and key in "0123456789.-+":
        return typed_lines.open_line(state, "reading", key), ()
    return (state.say(WAIT) if state.mode == "sending" else state), ()


def take(state, step_id):
    """Return (state, requests) with the step `step_id` in hand: caution first, then settings, then it is sent."""
    state = state.at(
        "end",
        step_id=step_id,
        marks={},
        remark="",
        scroll=None,
        typed=b"",
        play=None,
        pace=1.0,
        is_on_board=False,
        ready_at_s=state.now_s,
    )
    if step_id is None:
        return state, ()
    if state.step.caution and _caution_key(state) not in state.acknowledged:
        return state.at("caution"), ()
    return _set_options(state)


def _caution_key(state):
    return state.step.stage, state.step.caution


def _set_options(state):
    """Return (state, requests): the step is sent once every option stands as it needs."""
    if state.step.kind != SWITCH and settings_due(state, state.step):
        return state.at("setting", ready_at_s=state.now_s), ()
    return state.at("sending"), (Send(state.step_id, state.pace),)


def answered(state, answer, observer=BUILDER):
    """Return (state, requests) that record `answer` to the step in hand."""
    took_s = max(state.now_s - state.ready_at_s, 0.0)
    state = state.at("sending", looks_s=(*state.looks_s, took_s)[-KEPT_PACES:], notice="")
    return state, (Record(state.step_id, replace(answer, observer=observer)),)


def go_on(state, key):
    """Leave the opening, or a pause; a pause does not count as time for the look. A key that comes very early is remembered."""
    if state.mode == "paused":
        return state.back(ready_at_s=state.now_s), (Note("pause ended", state.step_id),)
    return take(state, state.step_id) if state.is_known else (state.at("sending"), ())


def acknowledge(state, key):
    """The caution was read: go on to the step."""
    after, requests = _set_options(
        replace(state, acknowledged=state.acknowledged | {_caution_key(state)})
    )
    return after, (Acknowledge(state.step_id), *requests)


def is_set(state, key):
    """The option that was asked for stands: ask for the next, or go on."""
    step = state.step
    if step.kind == SWITCH:
        return answered(
            replace(state, options={**state.options, step.option: step.position}),
            Answer(AS_EXPECTED),
        )
    option, position = settings_due(state, step)[0]
    after, requests = _set_options(replace(state, options={**state.options, option: position}))
    return after, (SetOption(option, position), *requests)


def as_expected(state, key):
    """The step shows what it must."""
    return answered(state, Answer(AS_EXPECTED))


def differs(state, key):
    """It does not: ask where, if there is a screen to be marked."""
    if state.step.expected is None:
        return answered(state, Answer(DIFFERS))
    return state.at(
        "marking",
        cursor=marked_cells.first_cell(state.step.expected),
        marks={},
        remark="",
        notice="",
    ), ()


def unsure(state, key):
    """The builder cannot tell."""
    return answered(state, Answer(UNSURE))


def typed_differs(state, key):
    """The word cannot be typed: what has come is the answer."""
    return answered(state, Answer(DIFFERS, data=state.typed, strength=KEYBOARD))


def type_anew(state, key):
    """Forget what has come of the word."""
    return replace(state, typed=b"", notice="type the word again"), ()


def line(purpose):
    """Return the action that has a line typed for `purpose`."""
    return lambda state, key: (typed_lines.open_line(state, purpose), ())


def accept_line(state, key):
    """Take the line typed; an answer in it is recorded as any other."""
    state, requests = typed_lines.accept(state)
    record = next((request for request in requests if isinstance(request, Record)), None)
    if record is None:
        return state, requests
    notice = state.notice
    state, requests = answered(state, record.answer)
    return state.say(notice), requests


def rub_out(state, key):
    """Rub out the last character, or leave an empty line."""
    return (
        (replace(state, text=state.text[:-1], notice=""), ()) if state.text else go_back(state, key)
    )


def clear_line(state, key):
    """Forget the line, stay in it."""
    return replace(state, text="", notice=""), ()


def go_back(state, key):
    """Leave a passing mode."""
    return state.back(notice=""), ()


def repeat(state, key):
    """Send the step again."""
    return _resend(state, state.pace, "sent again")


def slower(state, key):
    """Send the step again, slower than before."""
    pace = min(state.pace * SLOWER_BY, SLOWEST)
    return _resend(state, pace, f"sent again, each character takes {pace:g} times as long")


def _resend(state, pace, notice):
    return state.at("sending", pace=pace, typed=b"", notice=notice), (Send(state.step_id, pace),)


def back(state, key):
    """Take the step answered before this one in hand again."""
    trail = state.trail[:-1] if state.trail[-1:] == (state.step_id,) else state.trail
    if not trail:
        return state.say("no step was answered before this one; j lists all"), ()
    after, requests = take(replace(state, trail=trail[:-1]), trail[-1])
    return after.say(
        f"answered before ({verdict_of(state, trail[-1])}); both answers are kept, the last one counts"
    ), requests


def key_is_missing(state, key):
    """The key was pressed, and nothing came."""
    return answered(state, answer_of(state.step, (), state.format))


def _last_press(state):
    return next(
        (step_id for step_id in reversed(state.trail) if state.plan.step(step_id).kind == PRESS),
        None,
    )


def take_back(state, key):
    """Let the last press count no more, and ask for it again."""
    last = _last_press(state)
    if last is None:
        return state.say("no key was pressed before this one"), ()
    after, requests = take(replace(state, trail=state.trail[:-1]), last)
    return after.say("taken back; press it again"), (TakeBack(last), *requests)


def press_again(state, key):
    """Ask for the last key once more; all its presses together give the rate of a contact that fails at times."""
    last = _last_press(state)
    if last is None:
        return state.say("no key was pressed before this one"), ()
    after, requests = take(state, last)
    return after.say(
        "press it once more; a contact that fails at times shows by its rate"
    ), requests


def change_order(state, key):
    """Take any press, or only the one asked for."""
    return replace(
        state,
        is_free=not state.is_free,
        notice="any key, in any order" if not state.is_free else "only the key asked for",
    ), ()


def press_simulated_key(state, key):
    """Practice: press the key asked for on the simulated board."""
    return state, (PressKey(state.step_id),)


def walk_simulated_keys(state, key):
    """Practice: press all keys that are left on the simulated board, or stop doing so; a press under way is seen to first."""
    if state.step.kind != PRESS:
        return state, ()
    state = replace(state, is_walking=not state.is_walking)
    return state, (PressKey(state.step_id),) if state.is_walking and state.mode == "press" else ()


def pause(state, key):
    """Pause, and write it down."""
    return state.to("paused", notice=""), (Note("paused", state.step_id),)


def board_keys(word):
    """Return the action that lets the board's own keys answer, or not."""

    def action(state, key):
        after, requests = take(replace(state, board_keys=word), state.step_id)
        return after, (Note(f"answers from the board's own keyboard: {word}"), *requests)

    return action


ACTIONS = {
    "go_on": go_on,
    "show_help": lambda state, key: (state.to("help", page=0), ()),
    "leave_help": lambda state, key: (state.back(), ()),
    "turn_page": lambda state, key: (replace(state, page=state.page + 1), ()),
    "ask_stop": lambda state, key: (state.to("stopping"), ()),
    "do_not_stop": go_back,
    "stop": lambda state, key: (state, (Quit(),)),
    "interrupt": lambda state, key: (state, (Quit(is_interrupted=True),)),
    "retry": lambda state, key: (state, (Retry(),)),
    "go_to_next": lambda state, key: take(state.say(""), state.next_id),
    "acknowledge": acknowledge,
    "is_set": is_set,
    "as_expected": as_expected,
    "differs": differs,
    "unsure": unsure,
    "disputed": line("dispute"),
    "skip": line("skip"),
    "add_note": line("note"),
    "enter_reading": line("reading"),
    "use_board_keys": line("board-keys"),
    "typed_differs": typed_differs,
    "type_anew": type_anew,
    "accept_line": accept_line,
    "rub_out": rub_out,
    "clear_line": clear_line,
    "leave_line": go_back,
    "key_is_missing": key_is_missing,
    "take_back": take_back,
    "press_again": press_again,
    "change_order": change_order,
    "press_simulated_key": press_simulated_key,
    "walk_simulated_keys": walk_simulated_keys,
    "repeat": repeat,
    "slower": slower,
    "back": back,
    "pause": pause,
    "board_keys_on": board_keys("on"),
    "board_keys_off": board_keys("off"),
    "jump": tools.jump,
    "choose": tools.choose,
    "next_failed": tools.next_failed,
    "leave_list": go_back,
    "go_to": lambda state, key: take(state.say(""), state.plan.steps[state.chosen].id),
    "screen_alone": tools.screen_alone,
    "look_at_board": tools.look_at_board,
    "scroll": tools.scroll,
    "move": tools.move,
    "mark_cell": tools.mark(lambda state: (state.cursor,)),
    "mark_row": tools.mark(lambda state: marked_cells.row_cells(state.screen, state.cursor[0])),
    "mark_column": tools.mark(
        lambda state: marked_cells.column_cells(state.screen, state.cursor[1])
    ),
    "type_seen": line("seen"),
    "remark": line("remark"),
    "unmark": tools.unmark,
    "record_differs": lambda state, key: answered(state, tools.differing(state)),
    "leave_marking": lambda state, key: (state.at("look", marks={}, remark=""), ()),
    "step_through": tools.step_through,
    "play_forward": tools.play_forward,
    "play_back": tools.play_back,
    "play_to_mark": tools.play_to_mark,
    "play_mark": tools.play_mark,
    "mark_here": tools.mark_here,
    "play_restart": tools.play_restart,
    "leave_play": lambda state, key: take(state, state.step_id),
    "wave": tools.wave,
    "wave_bytes": lambda state, key: (tools.open_wave_bytes(state), ()),
    "wave_gap": line("wave-gap"),
    "wave_speed": line("wave-speed"),
    "start_wave": tools.start_wave,
    "leave_wave": lambda state, key: take(state, state.step_id),
}
"""Every action that the keymap names."""
