"""It is chosen which of the predicted wrong screens is seen."""

from dataclasses import replace

from termprobe.journal.records import DIFFERS, Answer
from termprobe.observer.choosing import answer_of_choice
from termprobe.session.draw.choices import choice_rows
from termprobe.session.draw.rows import Styled
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.react.answering import (
    answered,
    begin_marking,
    begin_narrowing,
    has_region_due,
)
from termprobe.session.react.viewing import WAYS, scroll, turn
from termprobe.session.shared_keys import BESIDE_A_STEP, SCREEN_ALONE, way_back
from termprobe.session.state import Reaction, State
from termprobe.terminal.predicted import Predictions


def _predictions(state: State) -> Predictions:
    """Return what is chosen from; without it nobody gets here."""
    if state.predictions is None:
        raise RuntimeError(f"{state.step.id} must have predictions to be chosen from")
    return state.predictions


def _move(state: State, key: str) -> Reaction:
    """Show the picture before or behind; both ends are stops."""
    last = len(_predictions(state).found) - 1
    picked = min(max(state.picked + WAYS[key][0], 0), last)
    return replace(state, picked=picked, scroll=None, notice=""), ()


def _choose(state: State, key: str) -> Reaction:
    """Record that the picture of this number is seen."""
    number, count = int(key), len(_predictions(state).found)
    if number > count:
        return state.say(f"there are {count} to choose from; 0 where it is none of them"), ()
    return _chosen(replace(state, picked=number - 1), key)


def _chosen(state: State, key: str) -> Reaction:
    """Record that the picture shown is what is seen."""
    return answered(state, answer_of_choice(_predictions(state), state.picked + 1))


def _none(state: State, key: str) -> Reaction:
    """It is none of them: let it be marked."""
    return begin_marking(replace(state, offered=_predictions(state).offered), key)


def _none_unmarked(state: State, key: str) -> Reaction:
    """It is none of them: ask in which parts of the screen, or record that at once."""
    if has_region_due(state):
        return begin_narrowing(replace(state, offered=_predictions(state).offered), key)
    return answered(state, Answer(DIFFERS, offered=_predictions(state).offered))


def _leave(state: State, key: str) -> Reaction:
    return replace(state.at("look"), picked=0, turns=0, scroll=None), ()


def _hint(state: State) -> Styled | None:
    """Say the whole sentence of the picture shown."""
    if state.prediction is None:
        return None
    return "class:notice", f"{state.picked + 1}: {state.prediction.sentence}"


MODE = Mode(
    name="choosing",
    title="choose what is seen",
    keys=(
        ModeKey(
            "1 2 3 4 5 6 7 8",
            _choose,
            "this is seen",
            "record that this is what is seen",
            is_always_shown=True,
        ),
        ModeKey("0", _none, "none", "none of these: mark what differs", is_always_shown=True),
        ModeKey("n", _none_unmarked, "none, by parts", "none of these: say which part is wrong"),
        ModeKey("up down", _move, "look at", "look at another of the pictures"),
        ModeKey("enter", _chosen, "this one", "record that the picture shown is what is seen"),
        ModeKey(
            "v",
            turn,
            "turn",
            "turn between the picture, what must be seen and the difference; in practice the "
            "board too",
        ),
        SCREEN_ALONE,
        ModeKey(
            "left right pageup pagedown home end",
            scroll,
            "",
            "move a screen that is larger than its place",
        ),
        way_back("c-g backspace", _leave, "not so", "back to the question, nothing recorded"),
        *BESIDE_A_STEP,
    ),
    is_of_step=True,
    shows_screen=True,
    shows_question=True,
    question="Which of these is what you see?",
    side=choice_rows,
    is_side_needed=True,
    shows_prediction=True,
    hint=_hint,
)
