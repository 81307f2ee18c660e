"""The step is played a code at a time, to find the one that makes it go wrong."""

from collections.abc import Callable
from dataclasses import replace

from termprobe.notation import show
from termprobe.session.draw.fit import cut
from termprobe.session.draw.rows import Rows, Styled, part_around, plain
from termprobe.session.messages import SendGroups, SetOption
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react import group_play
from termprobe.session.react.group_play import OptionMove, Play, Played
from termprobe.session.react.in_hand import take_again
from termprobe.session.shared_keys import ADD_NOTE, BESIDE_A_STEP, BOARD, SCREEN_ALONE, way_back
from termprobe.session.state import KeyAction, Reaction, State

QUESTION = "Send it code by code; press n as soon as the board's screen is not as drawn here."
SHOWN_BYTES = 200
MARK_WAYS = {"up": -1, "down": 1, "pageup": -10, "pagedown": 10}
"""How many groups a key moves the mark."""


def _play(state: State) -> Play:
    """Return what is played; without it nobody gets here."""
    if state.play is None:
        raise RuntimeError("a step must be played")
    return state.play


def _played(go: Callable[[Play], Played]) -> KeyAction:
    """Return the action that goes through the play as `go` does."""

    def action(state: State, key: str) -> Reaction:
        play, groups = go(_play(state))
        after = replace(state, play=play)
        match groups:
            case ():
                return after, ()
            case (OptionMove(option=option, position=position),):
                moved = replace(after, course=state.course.set(option, position))
                return moved, (SetOption(option, position),)
        return after, (SendGroups(groups),)

    return action


def _move_mark(state: State, key: str) -> Reaction:
    """Move the mark."""
    by = MARK_WAYS[key]
    return replace(state, play=group_play.move_mark(_play(state), by)), ()


def _mark_here(state: State, key: str) -> Reaction:
    """Set the mark after the groups sent so far, or take it away."""
    play = _play(state)
    return replace(state, play=group_play.set_mark(play, play.sent)), ()


def _went_wrong(state: State, key: str) -> Reaction:
    """Keep for the answer which group made it go wrong, and send the step as a whole."""
    play = _play(state)
    if not play.sent:
        return state.say("nothing is sent yet: send the groups until it is wrong"), ()
    after, requests = take_again(state, key)
    found = f"wrong from group {play.sent} of {len(play.groups)} on: {_last_sent(play)}"
    return replace(after, broke_at=found).say(f"{found}; answer the step to record it"), requests


def _last_sent(play: Play) -> str:
    """Return what was sent last: its name, and of text what it is."""
    group = play.groups[play.sent - 1]
    if group.data.hex(" ").upper() in group.label:
        return group.label
    return f"{group.label}: {show(group.data[:SHOWN_BYTES])}"


def _sent_words(state: State) -> str:
    """Return how far the play is, and what was sent last."""
    play = _play(state)
    sent = f"sent: {play.groups[play.sent - 1].label}" if play.sent else "nothing sent"
    mark = "" if play.mark is None else f", mark after {play.mark}"
    return f"group {play.sent} of {len(play.groups)}{mark}; {sent}"


def _hint(state: State) -> Styled:
    """Say what is sent next."""
    play = _play(state)
    if play.sent == len(play.groups):
        return "class:notice", "all is sent"
    group = play.groups[play.sent]
    if isinstance(group, OptionMove):
        return "class:notice", f"next: {group.label} on the board, then press right"
    return "class:notice", f"next: {group.label}: {show(group.data[:SHOWN_BYTES])}"


def _side(view: View) -> Rows:
    """Return the groups, the next one pointed at, those that were sent and the mark shown."""
    play = _play(view.state)
    rows = [plain(cut("groups", view.columns), "class:strong")]
    for number, group in enumerate(play.groups, 1):
        mark = "M" if play.mark == number else " "
        text = f"{_pointer(play, number)}{mark}{group.label}"
        rows.append(plain(cut(text, view.columns)))
    return rows[part_around(play.sent + 1, len(rows), view.rows)]


def _pointer(play: Play, number: int) -> str:
    if number <= play.sent:
        return "+"
    return ">" if number == play.sent + 1 else " "


MODE = Mode(
    name="play",
    title="step through",
    keys=(
        ModeKey(
            "right", _played(group_play.forward), "forward", "send the next code, command or text"
        ),
        ModeKey(
            "n",
            _went_wrong,
            "went wrong",
            "the group sent last made it go wrong: it is recorded with your next answer",
        ),
        ModeKey(
            "left",
            _played(group_play.back),
            "undo",
            "one group back: all groups but the last are sent again",
        ),
        ModeKey(
            "enter",
            _played(group_play.to_mark),
            "to mark",
            "send up to the mark, to the end where there is none",
        ),
        ModeKey(
            "up down pageup pagedown",
            _move_mark,
            "move mark",
            "move the mark; page keys by ten groups",
        ),
        ModeKey("m", _mark_here, "mark", "set the mark here, or take it away"),
        ModeKey("r", _played(group_play.restart), "from start", "begin again"),
        SCREEN_ALONE,
        BOARD,
        ADD_NOTE,
        way_back("t c-g backspace", take_again, "leave", "send the step as a whole, and answer"),
        *BESIDE_A_STEP,
    ),
    is_of_step=True,
    shows_screen=True,
    shows_question=True,
    question=QUESTION,
    is_part=True,
    side=_side,
    sent_words=_sent_words,
    hint=_hint,
)
