"""Plain prompts answered here or on the board's own keyboard, whichever comes first."""

from collections.abc import Callable

from termprobe.cli.console import Console, is_typed_at
from termprobe.cli.typed_lines import LINES
from termprobe.observer.choosing import AnswerKeys, EitherAnswer
from termprobe.runner.answer_keys import TOO_SOON_S, are_proven, letter_of
from termprobe.runner.run import Run

LISTEN_S = 0.02
OFFERED = (
    "The board's keyboard has proven y and n. From now on you may answer here or on it: "
    "y as expected, n differs."
)
NOTED = "answers from the board's own keyboard: on"


class EitherKeyboard:
    """The AnswerKeys of termprobe/observer/choosing.py, for a person at plain prompts.

    `prompt(text)` begins a line, `tell(text)` writes one; `read(wait_s)` returns a line that was
    typed, None where none comes in time, and an empty one at the end of the input.
    """

    def __init__(
        self,
        run: Run,
        prompt: Callable[[str], None],
        tell: Callable[[str], None],
        read: Callable[[float], str | None],
    ) -> None:
        self._run, self._prompt, self._tell, self._read = run, prompt, tell, read
        self._is_told = False

    def are_proven(self) -> bool:
        """Return whether the board's own keys answer; the first time say so."""
        is_proven = are_proven(self._run.course)
        if is_proven and not self._is_told:
            self._is_told = True
            self._tell(f"\n{OFFERED}")
            self._run.note(NOTED)
        return is_proven

    def ask(self, prompt: str) -> EitherAnswer:
        """Return what is typed, or the letter of the board's key; raise EOFError, LinkError."""
        self._run.poll()
        counts_s = self._run.clock.now_s() + TOO_SOON_S
        self._prompt(prompt)
        while True:
            line = self._read(LISTEN_S)
            if line is not None:
                return self._typed(line)
            letter = self._pressed()
            if letter and self._run.clock.now_s() >= counts_s:
                self._tell(f"{letter}, on the board's keyboard")
                self._run.forget_screen()
                return EitherAnswer(letter, is_of_board=True)

    def _typed(self, line: str) -> EitherAnswer:
        if not line:
            raise EOFError
        return EitherAnswer(line.rstrip("\n"))

    def _pressed(self) -> str | None:
        """Return the letter of the first answer key that has come, or None."""
        letters = filter(None, map(letter_of, self._run.poll()))
        return next(letters, None)


def either_keyboard(run: Run, console: Console) -> AnswerKeys | None:
    """Return the answer keys of the board of `run`; None where nobody types on this keyboard."""
    if not is_typed_at():
        return None
    return EitherKeyboard(run, console.prompt, console.tell, LINES.read)
