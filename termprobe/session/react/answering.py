"""Answers to the step in hand, from either keyboard.

Pure.
"""

import functools
from dataclasses import replace

from termprobe.journal.records import AS_EXPECTED, DIFFERS, UNSURE, Answer
from termprobe.observer.base import BOARD_KEYBOARD
from termprobe.plan.model import expected_of
from termprobe.runner.answer_keys import TOO_SOON_S, WORD_OF_LETTER, letter_of, word_of
from termprobe.runner.time_left import paces_s
from termprobe.session.messages import Note, RecordAnswer
from termprobe.session.react import marked_cells
from termprobe.session.state import KeyAction, Reaction, State
from termprobe.terminal.predicted import RegionAsked

LOOK_FIRST = "that came too soon and does not count: look, then press again"
BUILDER = "builder"
BOARD_IS_HEARD = "the board's keyboard is heard: press y and n on it, and they answer from then on"
ONE_HEARD = (
    "{} came from the board's keyboard: press the other one too, and both answer from then on"
)
PROVEN = "y and n came from the board's keyboard: they answer from now on"
BOARD_KEYS_NOTE = "answers from the board's own keyboard: {}"


def is_too_soon(state: State) -> bool:
    """Return whether a key of now was meant for the screen before."""
    return state.now_s - state.ready_at_s < TOO_SOON_S


def after_looking(action: KeyAction) -> KeyAction:
    """Return `action` refused where its key was meant for the screen before."""

    @functools.wraps(action)
    def guarded(state: State, key: str) -> Reaction:
        if is_too_soon(state):
            return state.say(LOOK_FIRST), ()
        return action(state, key)

    return guarded


def answered(state: State, answer: Answer, observer: str = BUILDER) -> Reaction:
    """Return the reaction that records `answer` to the step in hand."""
    took_s = state.now_s - state.ready_at_s
    looks_s = paces_s((*state.looks_s, took_s))
    waiting = replace(state.at("waiting"), looks_s=looks_s, notice="", heard_id=None)
    note = "; ".join(filter(None, (answer.note, state.broke_at)))
    told = replace(answer, observer=observer, note=note)
    return waiting, (RecordAnswer(state.step.id, told),)


@after_looking
def as_expected(state: State, key: str) -> Reaction:
    """The step shows what it must."""
    return answered(state, Answer(AS_EXPECTED))


@after_looking
def differs(state: State, key: str) -> Reaction:
    """It does not: ask which of the predicted screens it shows, or where it differs.

    Nothing is asked where no screen is expected.
    """
    if expected_of(state.step) is None:
        return answered(state, Answer(DIFFERS))
    if state.predictions is None:
        return begin_marking(state, key)
    return choose(state, key)


def choose(state: State, key: str) -> Reaction:
    """Show the predicted screens to choose from."""
    choosing = replace(state.at("choosing"), picked=0, turns=0, scroll=None)
    return choosing.say(""), ()


def begin_marking(state: State, key: str) -> Reaction:
    """Let it be marked where the screen differs."""
    expected = expected_of(state.step)
    if expected is None:
        return state, ()
    cursor = marked_cells.first_cell(expected)
    marking = replace(state.at("marking"), cursor=cursor, marks={}, remark="", turns=0)
    return marking.say(""), ()


def region_due(state: State) -> RegionAsked | None:
    """Return which part of the screen is to be asked about; None where that tells nothing."""
    if state.predictions is None:
        return None
    return state.predictions.region_after(state.regions)


def has_region_due(state: State) -> bool:
    """Return whether a part of the screen can be asked about."""
    return region_due(state) is not None


def begin_narrowing(state: State, key: str) -> Reaction:
    """Ask in which parts of the screen anything is wrong."""
    return replace(state.at("narrowing"), regions=(), turns=0, scroll=None).say(""), ()


@after_looking
def unsure(state: State, key: str) -> Reaction:
    """The builder cannot tell."""
    return answered(state, Answer(UNSURE))


def by_board_key(state: State, code: int) -> Reaction:
    """Take an answer from the board's own keyboard, once its keys are proven and wanted.

    Where no word has proven them yet, that both come proves them.
    """
    if state.board_keys == "unproven":
        return _proving(state, code)
    word = word_of(code)
    if state.board_keys != "on" or word is None:
        return state, ()
    if is_too_soon(state):
        return state.say(LOOK_FIRST), ()
    return answered(state, Answer(word), BOARD_KEYBOARD)


def _proving(state: State, code: int) -> Reaction:
    """Take what comes of the board's keyboard while its answer keys are not proven."""
    letter = letter_of(code)
    if letter is None:
        if chr(code & 0x7F).isprintable():
            return state.say(BOARD_IS_HEARD), ()
        return state, ()
    heard = state.letters_heard | {letter}
    if heard < set(WORD_OF_LETTER):
        return replace(state, letters_heard=heard).say(ONE_HEARD.format(letter)), ()
    proven = replace(state, letters_heard=heard, board_keys="on", ready_at_s=state.now_s)
    return proven.say(PROVEN), (Note(BOARD_KEYS_NOTE.format("on")),)
