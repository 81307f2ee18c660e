"""The builder at plain prompts: shows what must be seen, asks what is seen."""

from collections.abc import Callable
from typing import NamedTuple

from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DISPUTED,
    EYES,
    SKIPPED,
    UNSURE,
    Answer,
)
from termprobe.notation import show, visible
from termprobe.observer.base import BACK, REPEAT, SLOWER, STOP, Remark, Said, Wish
from termprobe.observer.typed_reading import answer_of_reading, reading_of, wanted_reading
from termprobe.plan.model import Ask, Look, Measure, Step, Switch, TypedBack, expected_of
from termprobe.plan.readings import reading_in_words
from termprobe.terminal.screen import Screen


class Word(NamedTuple):
    """Something that may be typed."""

    short: str
    full: str
    meaning: str
    answers: str | None = None
    """The word of the answer that it is; None where it is a wish or a remark."""
    asks: str = ""
    """What is asked about it."""
    needs_reason: bool = False


BUILDER_WORDS = (
    Word("y", "yes", "as expected", AS_EXPECTED),
    Word(
        "n",
        "no",
        "it differs; you may say how",
        DIFFERS,
        asks="What do you see? (ENTER for no remark) ",
    ),
    Word("u", "unsure", "you cannot tell", UNSURE),
    Word(
        "d",
        "disputed",
        "the board is right, the expectation is wrong; you will be asked why",
        DISPUTED,
        asks="Why is the expectation wrong? ",
        needs_reason=True,
    ),
    Word("r", REPEAT, "send it again"),
    Word(SLOWER, SLOWER, "send it again at half the pace"),
    Word("note", "note", "write something down, then answer"),
    Word(
        "s",
        "skip",
        "leave this step out; you will be asked why",
        SKIPPED,
        asks="Why is it left out? ",
        needs_reason=True,
    ),
    Word("b", BACK, "to the step before"),
    Word(STOP, STOP, "end here; go on later with --resume"),
)
_HINT = "y n u d r s b, or ? for all: "
_WISHES = (REPEAT, SLOWER, BACK, STOP)
_BESIDE_A_READING = ("skip", "back", "note", STOP)
_PROMPTS = {Look.kind: "As expected? ", Switch.kind: "Done? "}


class BuilderObserver:
    """Asks by `ask(text) -> str` and tells by `show(text)`.

    `draw(screen) -> str` draws a screen.
    """

    strength = EYES

    def __init__(
        self,
        ask: Callable[[str], str],
        show: Callable[[str], None],
        draw: Callable[[Screen], str],
        name: str = "builder",
    ) -> None:
        self._ask, self._show, self._draw = ask, show, draw
        self.name = name

    def can_answer(self, step: Step) -> bool:
        """Return whether eyes, hands or a meter can tell."""
        return isinstance(step, Look | Ask | Measure | Switch)

    def answer(self, step: Step) -> Said | None:
        """Return what the builder says; None where a reading is left blank.

        The end of the input means stop.
        """
        try:
            self._present(step)
            return self._reading(step) if isinstance(step, Measure) else self._word(step)
        except EOFError:
            return Wish(STOP)

    def acknowledge(self, text: str) -> bool:
        """Show a caution; return whether the builder has read it and goes on."""
        self._show(f"\nCAUTION: {_plain(text)}")
        typed = ""
        while typed not in ("yes", "y", STOP):
            try:
                typed = self._lower("Type yes when you have read this and it is safe, or stop: ")
            except EOFError:
                typed = STOP
        return typed != STOP

    def typed(self, step: TypedBack, data: bytes) -> Said | None:
        """Return what is said of a typed-back step where `data` came and not its word.

        None means that it is to be typed again.
        """
        wanted = f'"{_plain(step.word.rstrip())}" and RETURN'
        self._show(f"{wanted} must come from the keyboard, not {show(data) or 'nothing'}.")
        try:
            while True:
                question = "Type it again (r), or does the board send this (n)? r n u s b stop: "
                typed = self._lower(question)
                if typed in ("r", REPEAT, "y", "yes", ""):
                    return None
                said = self._of_typed(typed)
                if said is not None:
                    return said
        except EOFError:
            return Wish(STOP)

    def _lower(self, prompt: str) -> str:
        return self._ask(prompt).strip().lower()

    def _present(self, step: Step) -> None:
        self._show(f"\n[{step.id}] {_plain(step.title)}")
        screen = expected_of(step)
        if screen is not None:
            self._show(self._draw(screen))
        if isinstance(step, Switch):
            self._show(f"Set {_plain(step.option)} to {_plain(step.position)}.")
        if step.question:
            self._show(_plain(step.question))
        if step.stop_if:
            self._show(f"Switch off at once if: {_plain(step.stop_if)}")

    def _word(self, step: Step) -> Said:
        prompt = _PROMPTS.get(step.kind, "Is it so? ") + _HINT
        while True:
            typed = self._lower(prompt)
            said = self._of_typed(typed)
            if said is not None:
                return said
            if typed not in ("?", "h", "help", ""):
                self._show(
                    f"An answer must be one of the words below, not {visible(typed)[:40]!r}."
                )
            self._show(help_text())

    def _of_typed(self, typed: str) -> Said | None:
        """Return what a typed word stands for, asking for its remark.

        It is None where the word stands for nothing.
        """
        word = next((one for one in BUILDER_WORDS if typed in (one.short, one.full)), None)
        if word is None:
            return None
        if word.answers:
            return Answer(word.answers, note=self._remark(word))
        if word.full in _WISHES:
            return Wish(word.full)
        return Remark(self._ask("Note: ").strip())

    def _remark(self, word: Word) -> str:
        text = self._ask(word.asks).strip() if word.asks else ""
        while not text and word.needs_reason:
            text = self._ask(f"A reason is needed. {word.asks}").strip()
        return text

    def _reading(self, step: Measure) -> Said | None:
        """Ask for a number until one is given; one outside its limits is to be confirmed."""
        unit = f" in {step.unit}" if step.unit else ""
        self._show(wanted_reading(step, _plain(step.source or "")))
        while True:
            typed = self._ask(f"Reading{unit} (ENTER if not measured; s b note stop): ").strip()
            if not typed:
                return None
            said = self._beside(typed.lower()) or self._measured(step, typed)
            if said is not None:
                return said

    def _beside(self, typed: str) -> Said | None:
        """Return what a word stands for that may be typed in the place of a reading.

        It is None for all else.
        """
        allowed = [word for word in BUILDER_WORDS if word.full in _BESIDE_A_READING]
        if any(typed in (word.short, word.full) for word in allowed):
            return self._of_typed(typed)
        return None

    def _measured(self, step: Measure, typed: str) -> Answer | None:
        try:
            value = reading_of(step, typed)
        except ValueError as error:
            text = visible(str(error))
            self._show(f"{text[0].upper()}{text[1:]}.")
            return None
        answer = answer_of_reading(step, value)
        if answer.word == AS_EXPECTED:
            self._show(_right(step, value))
            return answer
        danger = f" Switch off at once if: {_plain(step.stop_if)}" if step.stop_if else ""
        self._show(f"OUTSIDE: {reading_in_words(value, step.unit)} is not {step.limits}.{danger}")
        typed = self._lower("ENTER to keep it, r to measure again: ")
        return None if typed in ("r", REPEAT) else answer


def _right(step: Measure, value: float) -> str:
    """Return what is said of a reading that is not outside its limits."""
    if not step.limits:
        return "Noted."
    if step.usual.holds(value):
        return "Within limits."
    return f"Within limits, but {step.usual.in_words(step.unit)} is usual."


def help_text() -> str:
    """Return what may be typed and what it means, one line each."""
    lines: list[str] = []
    for word in BUILDER_WORDS:
        names = dict.fromkeys((word.short, word.full))
        lines.append(f"  {', '.join(names):<12} {word.meaning}")
    return "\n".join(lines)


def _plain(text: str) -> str:
    return "\n".join(visible(line) for line in text.split("\n"))
