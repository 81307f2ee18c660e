"""Whoever is at the board's own keyboard: a simulated board itself, or the builder who is told."""

from collections.abc import Callable
from dataclasses import replace

from termprobe.board.base import SimulatedBoard
from termprobe.cli.console import Console
from termprobe.line.functions import WITH_A_KEY_HELD
from termprobe.observer.builder import ON_THIS_KEYBOARD
from termprobe.plan.model import KeyPress, LineCheck, TypedBack
from termprobe.plan.typed_word import in_codes, word_shown
from termprobe.profile.model import Key
from termprobe.runner.asking import Hands
from termprobe.session.practice_board import PracticeHands

HOLD_S = 2.0
"""So long a key is held on a simulated board."""


def typing_on(board: SimulatedBoard) -> Callable[[TypedBack], None]:
    """Return what types the word of a step on the simulated board."""
    return lambda step: board.type(step.typed.decode("latin-1"))


def pressing_on(board: SimulatedBoard) -> Callable[[KeyPress], None]:
    """Return what presses the key of a step on the simulated board, or the keys of a chord."""
    return PracticeHands(board).press


def with_key_held(board: SimulatedBoard, hands: Hands, can_plug: bool) -> Hands:
    """Return `hands` that also hold keys of the simulated board for checks of the line.

    `can_plug`: there is an adapter at its line that takes a plug.
    """
    if board.profile.keyboard is None:
        return replace(hands, can_plug=can_plug)
    return replace(hands, type_key=board.type, hold=holding_on(board), can_plug=can_plug)


def holding_on(board: SimulatedBoard) -> Callable[[LineCheck], None]:
    """Return what holds a letter on the simulated board where a check of the line asks for that."""
    keyboard = board.profile.keyboard
    letters = [key for key in keyboard.keys if _is_letter(key)] if keyboard else []

    def hold(step: LineCheck) -> None:
        if keyboard is None or not letters or step.check not in WITH_A_KEY_HELD:
            return
        with_repeat = frozenset({"repeat"} if keyboard.repeat == "key" else ())
        board.press(str(letters[0].name), with_repeat, HOLD_S)

    return hold


def _is_letter(key: Key) -> bool:
    return key.role == "code" and key.code is not None and key.code.isalpha() and key.repeats


def told_hands(console: Console) -> Hands:
    """Return the hands of a builder who is told on `console` what to type and to press."""

    def type_word(step: TypedBack) -> None:
        console.tell(f"{_typing_request(step)}.")

    def press(step: KeyPress) -> None:
        console.tell(f"\nPress {step.press.asked} on the board's own keyboard.")

    return Hands(type_word, press)


def asked_hands(console: Console, board: SimulatedBoard | None) -> Hands:
    """Return the hands of a builder who types words and says when it is done.

    What is typed at a simulated board's prompt is typed on that board.
    """

    def type_word(step: TypedBack) -> None:
        if board is None:
            prompt = f"{_typing_request(step)}, then press ENTER here: "
            while console.ask(prompt).strip().lower() == word_shown(step).lower():
                prompt = f"{ON_THIS_KEYBOARD} Then press ENTER here: "
        else:
            typed = console.ask(f"{_typing_request(step)}: ")
            board.type(in_codes(step, typed) + "\r")

    return Hands(type_word)


def _typing_request(step: TypedBack) -> str:
    return (
        f"\n{step.title}\n{step.question}\n"
        f"Type {word_shown(step)} and RETURN on the board's own keyboard"
    )
