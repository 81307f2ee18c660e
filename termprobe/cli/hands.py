"""Whoever is at the board's own keyboard: a simulated board itself, or the builder who is told."""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.cli.console import Console
from termprobe.cli.line import SimulatedBoard
from termprobe.notation import visible
from termprobe.observer.base import Answer
from termprobe.observer.builder import BuilderObserver
from termprobe.plan.model import Step
from termprobe.plan.presses import press_of, spoken
from termprobe.profile.model import Keyboard

Action = Callable[[Step], None]


@dataclass(frozen=True)
class Hands:
    """What can be done at the board's own keyboard; None for what nobody can be told to do."""

    type_word: Action | None = None
    """Gets the word of a typed-back step typed."""
    again: Callable[[Step, bytes], Answer | None] | None = None
    """Is asked where other bytes came; see KeyboardObserver."""
    press: Action | None = None
    """Gets the key, or the keys, of a press pressed."""


NO_HANDS = Hands()


def typing_on(board: SimulatedBoard) -> Action:
    """Return what types the word of a step on the simulated board."""
    return lambda step: board.type(step.typed.decode("latin-1"))


def pressing_on(board: SimulatedBoard) -> Action:
    """Return what presses the key of a step on the simulated board, or the keys of a chord."""

    def press(step: Step) -> None:
        if step.held:
            board.chord([*step.held, step.key])
        else:
            board.press(step.key, frozenset(step.modifiers))

    return press


def told_hands(builder: BuilderObserver, console: Console, keyboard: Keyboard | None) -> Hands:
    """Return the hands of a builder who is told on `console` what to type and to press."""

    def type_word(step: Step) -> None:
        console.tell(f"{_typing_request(step)}.")

    def press(step: Step) -> None:
        keys = keys_to_press(step, keyboard)
        console.tell(f"\n[{step.id}] Press {keys} on the board's own keyboard.")

    return Hands(type_word, builder.typed, press)


def asked_hands(builder: BuilderObserver, console: Console, board: SimulatedBoard | None) -> Hands:
    """Return the hands of a builder who types words and says when it is done.

    What is typed at a simulated board's prompt is typed on that board.
    """

    def type_word(step: Step) -> None:
        if board is None:
            console.ask(f"{_typing_request(step)}, then press ENTER here: ")
        else:
            board.type(console.ask(f"{_typing_request(step)}: ") + "\r")

    return Hands(type_word, builder.typed)


def _typing_request(step: Step) -> str:
    word = (step.word or "").rstrip()
    return (
        f"\n[{step.id}] {step.title}\n{step.question}\n"
        f"Type {word} and RETURN on the board's own keyboard"
    )


def keys_to_press(step: Step, keyboard: Keyboard | None) -> str:
    """Return what to press: `"1 !" with SHIFT`, `key "A" and key "S" held, then key "Q"`."""
    if keyboard and step.held:
        legends = {str(key.name): key.legend for key in keyboard.keys}
        held = " and ".join(f'key "{visible(legends[name])}"' for name in step.held)
        return f"{held} held, then {spoken(press_of(step))}"
    modifiers = " and ".join(modifier.upper() for modifier in step.modifiers)
    return " with ".join(part for part in (f'"{visible(step.legend)}"', modifiers) if part)
