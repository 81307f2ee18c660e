"""Every key of the session in one table: what the footer, the help and the dispatch read. Esc is not bound.

Letters are as typed; the other keys have the names that prompt_toolkit gives them.
"""

from typing import NamedTuple


class Key(NamedTuple):
    """Keys that do one thing in one mode."""

    keys: tuple[str, ...]
    action: str
    """Name of a function in actions.py."""
    label: str
    """For the footer; empty where the footer leaves it out."""
    help: str


class Mode(NamedTuple):
    """What the session is waiting for, and the keys that it then understands."""

    title: str
    keys: tuple[Key, ...]


def _keys(*rows):
    return tuple(
        Key(tuple(names.split()), action, label, text) for names, action, label, text in rows
    )


SCREEN_ALONE = (
    "g",
    "screen_alone",
    "screen",
    "the whole screen alone, without frame; again: all of the console",
)
BOARD = (
    "v",
    "look_at_board",
    "board",
    "practice: look at the simulated board's screen; again: the expected one",
)
BOARD_KEYS = (
    "i",
    "use_board_keys",
    "type on the board",
    "practice: type on the simulated board's keyboard",
)
AT_ANY_TIME = _keys(
    ("? f1", "show_help", "help", "this help; any key leads back"),
    ("q", "ask_stop", "stop", "stop: the run file is complete up to here, and --resume goes on"),
    ("c-c", "interrupt", "", "stop at once, without a question; nothing answered is lost"),
)
AROUND = _keys(
    ("r", "repeat", "repeat", "send the step again"),
    (
        "b",
        "back",
        "back",
        "back to the step answered before; both answers are kept, the last one counts",
    ),
    BOARD,
    ("j", "jump", "jump", "list of all stages and steps with their verdicts, to go to any of them"),
    SCREEN_ALONE,
    ("s", "skip", "skip", "skip the step; you are asked why"),
    ("l", "slower", "slower", "send it again slower; each time it takes twice as long"),
    (
        "t",
        "step_through",
        "step through",
        "play the step a byte group at a time, forward, back and up to a mark",
    ),
    (
        "w",
        "wave",
        "wave",
        "send bytes over and over for the scope, and say which waveform to expect",
    ),
    ("+", "add_note", "note", "add a note to the run file"),
    ("p", "pause", "pause", "pause; time does not count"),
    BOARD_KEYS,
    ("up down left right", "scroll", "", "scroll a screen that is larger than its place"),
)
DISPUTED = (
    "d",
    "disputed",
    "disputed",
    "the expectation is wrong; you are asked why, and it counts neither for nor against the board",
)
LOOK = _keys(
    ("y", "as_expected", "as expected", "the screen is exactly as expected, cursor included"),
    ("n", "differs", "differs", "it differs: mark where, or press enter at once"),
    ("u", "unsure", "unsure", "you cannot tell"),
    DISPUTED,
)
QUESTION = _keys(
    ("y", "as_expected", "yes", "yes: it is as it must be"),
    ("n", "differs", "no", "no: it is not as it must be"),
    ("u", "unsure", "unsure", "you cannot tell"),
    DISPUTED,
)
MARKING = _keys(
    (
        "up down left right pageup pagedown home end",
        "move",
        "",
        "move the marking cursor; page and home keys go to the edges",
    ),
    ("space", "mark_cell", "cell", "mark the cell, or take the mark away"),
    ("r", "mark_row", "row", "mark the whole row"),
    ("c", "mark_column", "column", "mark the whole column"),
    ("t", "type_seen", "type", "type the characters that you see from here on"),
    ("z", "unmark", "none", "take all marks away"),
    ("+", "remark", "remark", "say in words what differs"),
    ("enter", "record_differs", "record", "record that the step differs, with what is marked"),
    SCREEN_ALONE,
    BOARD,
    ("c-g backspace", "leave_marking", "not so", "back to the question, nothing recorded"),
)

MODES = {
    "opening": Mode(
        "before the first step", _keys(("enter space y", "go_on", "go on", "go on")) + AT_ANY_TIME
    ),
    "caution": Mode(
        "caution: read, then acknowledge",
        _keys(
            ("enter", "acknowledge", "read and understood", "acknowledge the caution"),
            ("s", "skip", "skip", "skip the step; you are asked why"),
            ("j", "jump", "jump", "list of all stages and steps, to go to another"),
        )
        + AT_ANY_TIME,
    ),
    "setting": Mode(
        "set the option on the board",
        _keys(
            ("y enter", "is_set", "it is set", "the option stands as asked; it is written down"),
            ("s", "skip", "skip", "skip the step; you are asked why"),
            ("j", "jump", "jump", "list of all stages and steps, to go to another"),
        )
        + AT_ANY_TIME,
    ),
    "sending": Mode(
        "sending",
        _keys(
            SCREEN_ALONE,
            BOARD,
            (
                "a",
                "walk_simulated_keys",
                "",
                "practice: press all keys that are left; again: stop that",
            ),
        )
        + AT_ANY_TIME,
    ),
    "look": Mode("look at the screen", LOOK + AROUND + AT_ANY_TIME),
    "ask": Mode("answer the question", QUESTION + AROUND + AT_ANY_TIME),
    "typed-back": Mode(
        "type on the board's own keyboard",
        _keys(
            BOARD_KEYS,
            ("n", "typed_differs", "wrong", "it cannot be typed: record what came"),
            ("x", "type_anew", "type anew", "forget what came, and type the word again"),
            ("u", "unsure", "unsure", "you cannot tell"),
            DISPUTED,
        )
        + tuple(key for key in AROUND if key.action != BOARD_KEYS[1])
        + AT_ANY_TIME,
    ),
    "press": Mode(
        "press the key on the board's own keyboard",
        _keys(
            (
                "enter",
                "press_simulated_key",
                "press it",
                "practice: press the key on the simulated board",
            ),
            (
                "a",
                "walk_simulated_keys",
                "press all",
                "practice: press all that are left; again: stop that",
            ),
            (
                "b",
                "take_back",
                "take back",
                "take the last press back: it counts no more, and is asked for again",
            ),
            (
                "r",
                "press_again",
                "again",
                "press the last key once more; its presses together give a rate",
            ),
            ("m", "key_is_missing", "nothing came", "the key was pressed, and nothing came"),
            ("s", "skip", "skip", "leave the press out; you are asked why"),
            ("o", "change_order", "order", "any key in any order, or only the key asked for"),
            DISPUTED,
            (
                "j",
                "jump",
                "jump",
                "list of all stages and steps with their verdicts, to go to any of them",
            ),
            ("+", "add_note", "note", "add a note to the run file"),
            ("p", "pause", "pause", "pause; time does not count"),
        )
        + AT_ANY_TIME,
    ),
    "reply": Mode(
        "the board's reply is not as expected",
        _keys(("enter space", "go_to_next", "go on", "go on to the next step"), DISPUTED)
        + AROUND
        + AT_ANY_TIME,
    ),
    "measure": Mode(
        "measure",
        _keys(
            (
                "enter",
                "enter_reading",
                "enter reading",
                "type the reading; a digit starts it as well",
            ),
            DISPUTED,
        )
        + AROUND
        + AT_ANY_TIME,
    ),
    "marking": Mode("mark what differs", MARKING + AT_ANY_TIME),
    "line": Mode(
        "type a line",
        _keys(
            ("enter", "accept_line", "done", "take the line"),
            (
                "backspace c-h delete",
                "rub_out",
                "",
                "rub out the last character; on an empty line: back",
            ),
            ("c-u", "clear_line", "clear", "clear the line"),
            ("c-g", "leave_line", "back", "back, the line is forgotten"),
            ("c-c", "interrupt", "", "stop the session at once"),
        ),
    ),
    "list": Mode(
        "go to a step",
        _keys(
            (
                "up down pageup pagedown home end",
                "choose",
                "choose",
                "move to another step; page keys go by stages",
            ),
            (
                "f",
                "next_failed",
                "next failed",
                "to the next step that failed, is unsure or disputed",
            ),
            ("enter", "go_to", "go to", "go to the step"),
            ("j c-g backspace", "leave_list", "back", "back to the step"),
        )
        + AT_ANY_TIME,
    ),
    "play": Mode(
        "step through",
        _keys(
            ("right f", "play_forward", "forward", "send the next byte group"),
            (
                "left b",
                "play_back",
                "back",
                "one group back: all groups but the last are sent again",
            ),
            (
                "enter",
                "play_to_mark",
                "to mark",
                "send up to the mark, to the end where there is none",
            ),
            ("up down", "play_mark", "move mark", "move the mark"),
            ("m", "mark_here", "mark", "set the mark here, or take it away"),
            ("r", "play_restart", "from start", "begin again"),
            SCREEN_ALONE,
            BOARD,
            ("+", "add_note", "note", "add a note to the run file"),
            ("t c-g backspace", "leave_play", "leave", "send the step as a whole, and answer"),
        )
        + AT_ANY_TIME,
    ),
    "wave": Mode(
        "bytes for the scope",
        _keys(
            ("d", "wave_bytes", "bytes", 'the bytes, in the notation: ESC "=" 20h'),
            ("i", "wave_gap", "gap", "idle time between two rounds"),
            (
                "r",
                "wave_speed",
                "rate",
                "speed in baud, and the format if it is to differ: 1200 8N1",
            ),
            ("enter space", "start_wave", "start", "start sending, until any key"),
            ("w c-g backspace", "leave_wave", "leave", "back to the step; the line is as it was"),
        )
        + AT_ANY_TIME,
    ),
    "waving": Mode(
        "sending for the scope: any key ends it",
        _keys(
            ("any", "", "ends it", "end the loop"),
        ),
    ),
    "announced": Mode(
        "try the board's own answer keys",
        _keys(
            ("y", "board_keys_on", "go on", "go on; answers may come from either keyboard"),
            ("n", "board_keys_off", "only here", "answer on this keyboard only"),
            BOARD_KEYS,
        )
        + AT_ANY_TIME,
    ),
    "paused": Mode("paused", _keys(("p enter space", "go_on", "go on", "go on")) + AT_ANY_TIME),
    "lost": Mode(
        "the line is gone",
        _keys(
            ("enter", "retry", "try now", "try to get the line back now"),
            ("+", "add_note", "note", "add a note to the run file"),
        )
        + AT_ANY_TIME,
    ),
    "stopping": Mode(
        "stop?",
        _keys(
            ("y enter q", "stop", "stop", "stop now"),
            ("n c-g backspace", "do_not_stop", "go on", "go on"),
            ("c-c", "interrupt", "", "stop at once"),
        ),
    ),
    "help": Mode(
        "help",
        _keys(
            (
                "down pagedown space",
                "turn_page",
                "more",
                "the rest of a help that is longer than the console",
            ),
            ("c-c", "interrupt", "", "stop the session at once"),
            ("enter", "leave_help", "back", "back; so does any other key"),
        ),
    ),
    "end": Mode(
        "every step has its verdict",
        _keys(
            ("q enter", "stop", "end", "end the session"),
            ("j", "jump", "jump", "go to any step and answer it again"),
            ("b", "back", "back", "back to the step answered last"),
            ("+", "add_note", "note", "add a note to the run file"),
            ("? f1", "show_help", "help", "this help; any key leads back"),
            ("c-c", "interrupt", "", "stop at once"),
        ),
    ),
}

NAMES = {
    "space": "space",
    "enter": "enter",
    "backspace": "backspace",
    "c-g": "ctrl-G",
    "c-c": "ctrl-C",
    "c-u": "ctrl-U",
    "f1": "F1",
}


def find(mode, key):
    """Return the Key that `key` is bound to in `mode`, or None."""
    return next((entry for entry in MODES[mode].keys if key in entry.keys), None)


def shown_key(name):
    """Return the key's name as people write it."""
    return NAMES.get(name, name)


ONLY_IN_PRACTICE = ("look_at_board", "use_board_keys", "press_simulated_key", "walk_simulated_keys")


def footer(mode, is_practice=False):
    """Return ((key, label), ...) for the keys of `mode` that the footer names, in order of importance."""
    return tuple(
        ("up/down" if entry.keys[0] == "up" else shown_key(entry.keys[0]), entry.label)
        for entry in MODES[mode].keys
        if entry.label and (is_practice or entry.action not in ONLY_IN_PRACTICE)
    )


def help_lines(mode, is_practice=False):
    """Return ((keys, text), ...) for all keys of `mode`."""
    return tuple(
        (" ".join(shown_key(name) for name in entry.keys), entry.help)
        for entry in MODES[mode].keys
        if is_practice or entry.action not in ONLY_IN_PRACTICE
    )
