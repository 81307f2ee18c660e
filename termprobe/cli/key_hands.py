"""Whoever is at the board's own keyboard: a simulated board itself, or the builder who is told."""

from collections.abc import Callable

from termprobe.board.base import SimulatedBoard
from termprobe.cli.console import Console
from termprobe.observer.builder import ON_THIS_KEYBOARD
from termprobe.plan.model import KeyPress, TypedBack
from termprobe.plan.typed_word import in_codes, word_shown
from termprobe.runner.asking import Hands
from termprobe.session.practice_board import PracticeHands


def typing_on(board: SimulatedBoard) -> Callable[[TypedBack], None]:
    """Return what types the word of a step on the simulated board."""
    return lambda step: board.type(step.typed.decode("latin-1"))


def pressing_on(board: SimulatedBoard) -> Callable[[KeyPress], None]:
    """Return what presses the key of a step on the simulated board, or the keys of a chord."""
    return PracticeHands(board).press


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
