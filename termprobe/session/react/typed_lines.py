"""Lines that are typed: how one is opened and taken, and what those are for that many modes ask.

Pure.
"""

from dataclasses import replace

from termprobe.journal.records import DISPUTED, SKIPPED, Answer
from termprobe.photo.naming import NOTE_PROMPT, photo_in
from termprobe.runner.stage_skipped import rest_of_stage
from termprobe.session.messages import Note, PressBoardKeys
from termprobe.session.react.answering import after_looking, answered
from termprobe.session.stage_left import SkipStage
from termprobe.session.state import KeyAction, Purpose, Reaction, State

TAKING_PHOTO = "the photo is taken in"
STAGE_SKIPPED = "the rest of the stage is left out; j lists its steps, to go back to any of them"
NOTHING_LEFT = "no step of this stage waits for an answer: there is nothing to be left out"


class TypedLineError(ValueError):
    """A line that cannot be taken; says why."""


def open_line(state: State, purpose: Purpose, text: str = "") -> State:
    """Return the state with a line being typed, `text` of it given."""
    return replace(state.to("typing"), purpose=purpose, text=text, notice="")


def asked(purpose: Purpose) -> KeyAction:
    """Return the action that has a line typed for `purpose`."""

    def ask(state: State, key: str) -> Reaction:
        return open_line(state, purpose), ()

    return ask


def prompt(state: State) -> str:
    """Return the line's prompt."""
    purpose = state.purpose
    return "" if purpose is None else purpose.prompt + purpose.detail(state)


def accept(state: State) -> Reaction:
    """Take the line typed; the state says why where it cannot be taken."""
    if state.purpose is None:
        return state, ()
    try:
        return state.purpose.accept(state, state.text)
    except ValueError as error:
        return state.say(str(error)), ()


def answered_by_line(state: State, answer: Answer, notice: str) -> Reaction:
    """Return the reaction that records an answer that was typed, and says `notice`."""
    after, requests = answered(state.back(), answer)
    return after.say(notice), requests


def _needed(text: str, what: str) -> str:
    if not text.strip():
        raise TypedLineError(f"{what} must be told, in a few words")
    return text.strip()


def _dispute(state: State, text: str) -> Reaction:
    note = _needed(text, "what is wrong with the expectation")
    return answered_by_line(state, Answer(DISPUTED, note=note), state.notice)


def _skip(state: State, text: str) -> Reaction:
    note = _needed(text, "the reason for skipping")
    return answered_by_line(state, Answer(SKIPPED, note=note), state.notice)


def _skip_stage(state: State, text: str) -> Reaction:
    """Leave out the rest of the stage; what was gone back over lies behind, too."""
    reason = _needed(text, "the reason for skipping the rest of the stage")
    gone_on = replace(state.back(), course=state.course.gone_on(), heard_id=None)
    return gone_on.at("waiting").say(STAGE_SKIPPED), (SkipStage(state.step.id, reason),)


def _ask_of_stage(state: State, key: str) -> Reaction:
    if not rest_of_stage(state.course, state.step):
        return state.say(NOTHING_LEFT), ()
    return open_line(state, STAGE_REASON), ()


def _steps_left_out(state: State) -> str:
    count = len(rest_of_stage(state.course, state.step))
    return f" ({count} step{'s' * (count > 1)})"


def _note(state: State, text: str) -> Reaction:
    photo, words = photo_in(_needed(text, "the note"))
    if photo:
        return state.back().say(TAKING_PHOTO), (Note(words, state.step_id, photo),)
    return state.back().say("noted"), (Note(words, state.step_id),)


def _board_keys(state: State, text: str) -> Reaction:
    return state.back().say("typed on the simulated board"), (PressBoardKeys(text + "\r"),)


DISPUTE = Purpose("What is wrong with the expectation", _dispute)
SKIP_REASON = Purpose("Why skip the step", _skip)
STAGE_REASON = Purpose("Why skip the rest of this stage", _skip_stage, _steps_left_out)
NOTE = Purpose(NOTE_PROMPT, _note)
BOARD_TEXT = Purpose("Typed on the simulated board's keyboard, RETURN at the end", _board_keys)

disputed = after_looking(asked(DISPUTE))
skip, add_note, use_board_keys = asked(SKIP_REASON), asked(NOTE), asked(BOARD_TEXT)
skip_stage = _ask_of_stage
