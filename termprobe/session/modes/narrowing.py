"""It is asked in which parts of a screen that differs anything is wrong."""

from dataclasses import replace

from termprobe.journal.records import DIFFERS, Answer
from termprobe.session.draw.rows import Styled
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.react import marked_cells
from termprobe.session.react.answering import answered, region_due
from termprobe.session.shared_keys import BESIDE_A_STEP, SCREEN_ALONE, way_back
from termprobe.session.state import Reaction, State


def _wrong(state: State, key: str) -> Reaction:
    """Something in that part is wrong."""
    return _told(state, True)


def _right(state: State, key: str) -> Reaction:
    """All of that part is right."""
    return _told(state, False)


def _told(state: State, is_wrong: bool) -> Reaction:
    """Take what was said of a part, and ask about the next; record once none is left."""
    region = region_due(state)
    if region is None:
        return _record(state, "")
    after = replace(
        state, regions=(*state.regions, (region.words, is_wrong)), notice="", scroll=None
    )
    if region_due(after) is None:
        return _record(after, "")
    return after, ()


def _record(state: State, key: str) -> Reaction:
    """Record that the step differs, with what was said so far."""
    seen = None
    if state.screen is not None:
        seen = marked_cells.seen_rows(state.screen, state.marks)
    said = Answer(
        DIFFERS, seen=seen, note=state.remark, offered=state.offered, regions=state.regions
    )
    return answered(state, said)


def _leave(state: State, key: str) -> Reaction:
    left = replace(state.at("look"), marks={}, remark="", offered=(), regions=())
    return left, ()


def _hint(state: State) -> Styled | None:
    """Ask about the part that is due."""
    region = region_due(state)
    if region is None:
        return None
    return "class:notice", region.question


MODE = Mode(
    name="narrowing",
    title="tell where it differs",
    keys=(
        ModeKey("y", _wrong, "yes, wrong", "something in that part of the screen is wrong"),
        ModeKey("n", _right, "no, right", "all of that part is right"),
        ModeKey("enter", _record, "record", "record that it differs, with what was said so far"),
        SCREEN_ALONE,
        way_back("c-g backspace", _leave, "not so", "back to the question, nothing recorded"),
        *BESIDE_A_STEP,
    ),
    is_of_step=True,
    shows_screen=True,
    shows_question=True,
    question="In which part of the screen is it wrong?",
    hint=_hint,
)
