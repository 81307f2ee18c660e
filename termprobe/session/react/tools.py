"""Actions beside the question: the list of steps, looking and marking, stepping through, the loop for the scope. Pure."""

from dataclasses import replace

from termprobe.session.react import group_play, marked_cells, typed_lines
from termprobe.session.react.waveform import Loop
from termprobe.session.messages import SendGroups, StartLoop
from termprobe.session.state import verdict_of
from termprobe.terminal.reference import Reference
from termprobe.verdict.model import DISPUTED, FAIL, UNSURE
from termprobe.observer.base import DIFFERS, Answer

FAR = 9999
MOVES = {
    "up": (-1, 0),
    "down": (1, 0),
    "left": (0, -1),
    "right": (0, 1),
    "pageup": (-FAR, 0),
    "pagedown": (FAR, 0),
    "home": (0, -FAR),
    "end": (0, FAR),
}
SCROLL_COLUMNS = 8


def jump(state, key):
    """Open the list of steps at the step in hand."""
    places = [step.id for step in state.plan.steps]
    return state.to(
        "list", chosen=places.index(state.step_id) if state.step_id in places else 0, notice=""
    ), ()


def choose(state, key):
    """Move through the list."""
    steps, chosen = state.plan.steps, state.chosen
    stages = [
        place
        for place, step in enumerate(steps)
        if place == 0 or steps[place - 1].stage != step.stage
    ]
    places = {
        "up": chosen - 1,
        "down": chosen + 1,
        "home": 0,
        "end": len(steps) - 1,
        "pageup": max([place for place in stages if place < chosen], default=0),
        "pagedown": min([place for place in stages if place > chosen], default=len(steps) - 1),
    }
    return replace(state, chosen=min(max(places[key], 0), len(steps) - 1)), ()


def next_failed(state, key):
    """Move to the next step of the list that needs another look."""
    bad = [
        place
        for place, step in enumerate(state.plan.steps)
        if verdict_of(state, step.id) in (FAIL, UNSURE, DISPUTED)
    ]
    if not bad:
        return state.say("no step has failed, is unsure or disputed"), ()
    return replace(state, chosen=next((place for place in bad if place > state.chosen), bad[0])), ()


def screen_alone(state, key):
    """Give the whole console to the screen, or take it back."""
    return replace(state, is_alone=not state.is_alone), ()


def look_at_board(state, key):
    """Practice: show the simulated board's screen in the place of the expected one, or the expected one again."""
    return (replace(state, is_on_board=not state.is_on_board) if state.is_practice else state), ()


def scroll(state, key):
    """Move a screen that is larger than its place; draw.py keeps it within its bounds."""
    row, column = state.scroll or state.shown_from
    down, right = MOVES[key]
    return replace(state, scroll=(max(row + down, 0), max(column + SCROLL_COLUMNS * right, 0))), ()


def move(state, key):
    """Move the marking cursor."""
    rows = state.screen.rows
    row, column = (place + way for place, way in zip(state.cursor, MOVES[key], strict=True))
    return replace(
        state,
        cursor=(min(max(row, 0), len(rows) - 1), min(max(column, 0), len(rows[0]) - 1)),
        notice="",
    ), ()


def mark(cells):
    """Return the action that marks the cells that `cells(state)` gives, or takes the marks away."""
    return lambda state, key: (
        replace(state, marks=marked_cells.toggled(state.marks, cells(state))),
        (),
    )


def unmark(state, key):
    """Take all marks away."""
    return replace(state, marks={}), ()


def differing(state):
    """Return the Answer that the marks make."""
    return Answer(
        DIFFERS, seen=marked_cells.seen_rows(state.step.expected, state.marks), note=state.remark
    )


def step_through(state, key):
    """Play the step in hand group by group."""
    if not state.step.groups:
        return state.say("this step sends nothing"), ()
    return state.at(
        "play",
        play=group_play.play_of(state.plan, state.step, lambda: Reference(state.profile)),
        notice="",
        scroll=None,
    ), ()


def _played(function):
    def action(state, key):
        after, groups = function(state.play)
        return replace(state, play=after), (SendGroups(groups),) if groups else ()

    return action


play_forward, play_back = _played(group_play.forward), _played(group_play.back)
play_to_mark, play_restart = _played(group_play.to_mark), _played(group_play.restart)


def play_mark(state, key):
    """Move the mark."""
    place = (state.play.sent if state.play.mark is None else state.play.mark) + (
        1 if key == "down" else -1
    )
    return replace(
        state, play=replace(state.play, mark=min(max(place, 0), len(state.play.groups)))
    ), ()


def mark_here(state, key):
    """Set the mark after the groups sent so far, or take it away."""
    return replace(state, play=group_play.set_mark(state.play, state.play.sent)), ()


def wave(state, key):
    """Open the loop for the scope; it begins with U, the byte of most edges."""
    return state.at("wave", loop=state.loop or Loop(b"U", state.format), notice=""), ()


def open_wave_bytes(state):
    """Have the loop's bytes typed, the present ones given."""
    return typed_lines.open_line(state, "wave-bytes", typed_lines.wave_text(state.loop))


def start_wave(state, key):
    """Begin to send."""
    return state.at("waving", notice=""), (StartLoop(state.loop),)
