"""Keys that several modes have."""

from collections.abc import Callable
from dataclasses import replace

from termprobe.session.draw.rows import Styled
from termprobe.session.mode import ModeKey
from termprobe.session.react.answering import unsure
from termprobe.session.react.asides import (
    ask_stop,
    interrupt,
    jump,
    pause,
    show_help,
    step_through,
    wave,
)
from termprobe.session.react.in_hand import go_back, go_forward, repeat, show_slower
from termprobe.session.react.sounds import switch_look_bell
from termprobe.session.react.typed_lines import (
    add_note,
    disputed,
    skip,
    skip_stage,
    use_board_keys,
)
from termprobe.session.react.viewing import (
    is_less,
    is_more,
    page_back,
    page_on,
    screen_alone,
    scroll,
    turn,
)
from termprobe.session.state import KeyAction, State

HELP = ModeKey("? f1", show_help, "help", "this help; any key leads back", is_always_shown=True)
INTERRUPT = ModeKey(
    "c-c", interrupt, "", "stop at once, without a question; nothing answered is lost"
)
STOP_KEY = ModeKey(
    "q escape",
    ask_stop,
    "stop",
    "stop: the run file is complete up to here, and --resume goes on",
    is_always_shown=True,
)
AT_ANY_TIME = (STOP_KEY, HELP, INTERRUPT)
BESIDE_A_STEP = (replace(STOP_KEY, names="q", is_always_shown=False), HELP, INTERRUPT)
"""The same in modes that lie over a step: there Esc leads back to it."""


def way_back(names: str, action: KeyAction, label: str, help_: str) -> ModeKey:
    """Return the key that leads back from a mode, which its footer always names."""
    return ModeKey(f"escape {names}", action, label, help_, is_always_shown=True)


def _has_screen(state: State) -> bool:
    return state.screen is not None


def _has_gone_back(state: State) -> bool:
    return bool(state.course.ahead)


def _is_sent(state: State) -> bool:
    return bool(state.step.groups)


SCREEN_ALONE = ModeKey(
    "g",
    screen_alone,
    "screen",
    "the whole screen alone, without frame; again: all of the console",
    is_useful=_has_screen,
)
BOARD = ModeKey(
    "v",
    turn,
    "board",
    "practice: turn to the simulated board's screen, to the difference, to the expected one",
    is_practice=True,
)
BOARD_KEYS = ModeKey(
    "i",
    use_board_keys,
    "type on the board",
    "practice: type on the simulated board's keyboard",
    is_practice=True,
)
BACK_KEY = ModeKey(
    "b",
    go_back,
    "back",
    "back to the step answered before; both answers are kept, the last one counts",
)
FORWARD_KEY = ModeKey(
    "f",
    go_forward,
    "forward",
    "forward again to the next step that you went back over; the earlier answer stands",
    is_useful=_has_gone_back,
)
ADD_NOTE = ModeKey("+", add_note, "note", "add a note to the run file; @FILE: with a photo")
PAUSE = ModeKey("p", pause, "pause", "pause; time does not count")
SKIP_KEY = ModeKey("s", skip, "skip", "skip the step; you are asked why")
SKIP_STAGE_KEY = ModeKey(
    "e", skip_stage, "end stage", "leave out the rest of the stage; you are asked why"
)
JUMP = ModeKey(
    "j",
    jump,
    "jump",
    "list of all stages and steps with their verdicts, to go to any of them",
)
JUMP_AWAY = ModeKey("j", jump, "jump", "list of all stages and steps, to go to another")
UNSURE_KEY = ModeKey("u", unsure, "unsure", "you cannot tell")
DISPUTED_KEY = ModeKey(
    "d",
    disputed,
    "disputed",
    "the expectation is wrong; you are asked why, and it counts neither for nor against the board",
)

PAGE_ON = ModeKey("down pagedown space", page_on, "more", "the next page", is_useful=is_more)
PAGE_BACK = ModeKey("pageup up", page_back, "less", "the page before", is_useful=is_less)

AROUND = (
    ModeKey("r", repeat, "repeat", "send the step again", is_useful=_is_sent),
    BACK_KEY,
    FORWARD_KEY,
    BOARD,
    JUMP,
    SCREEN_ALONE,
    SKIP_KEY,
    SKIP_STAGE_KEY,
    ModeKey(
        "l",
        show_slower,
        "slower",
        "send it again slower; each time it takes twice as long",
        is_useful=_is_sent,
    ),
    ModeKey(
        "t",
        step_through,
        "step through",
        "play the step code by code, forward, back and up to a mark, to find the one that is wrong",
        is_useful=_is_sent,
    ),
    ModeKey(
        "w",
        wave,
        "wave",
        "send bytes over and over for the scope, and say which waveform to expect",
    ),
    ADD_NOTE,
    PAUSE,
    ModeKey("k", switch_look_bell, "", "the bell when a look is ready: off, or on again"),
    BOARD_KEYS,
    ModeKey(
        "up down left right",
        scroll,
        "",
        "scroll a screen that is larger than its place",
        is_useful=_has_screen,
    ),
)
"""What is at hand around a step that is answered."""


def hint_of_answers(yes: ModeKey, no: ModeKey) -> Callable[[State], Styled | None]:
    """Return the hint that the board's own keys answer as these do, for when they do."""
    words = f"{yes.names} {yes.label}, {no.names} {no.label}"

    def hint(state: State) -> Styled | None:
        if state.board_keys != "on":
            return None
        return "class:notice", f"answer here or on the board's own keyboard: {words}"

    return hint
