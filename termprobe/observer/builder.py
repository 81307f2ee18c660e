"""The builder at plain prompts: shows what must be seen, asks what is seen."""

from collections.abc import Callable

from termprobe.errors import FileError
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import AS_EXPECTED, EYES, Answer
from termprobe.notation import show, visible
from termprobe.observer.base import (
    BACK,
    FORWARD,
    REPEAT,
    SKIP_STAGE,
    SLOWER,
    STOP,
    Remark,
    Said,
    Wish,
)
from termprobe.observer.builder_words import STOPS, Word, help_text, word_of
from termprobe.observer.typed_reading import (
    answer_of_reading,
    reading_of,
    wanted_reading,
    what_is_right,
)
from termprobe.photo.naming import NOTE_PROMPT, photo_in
from termprobe.plan.dot_drawing import dots_in_text, enlarged_of
from termprobe.plan.model import Ask, Look, Measure, Step, Switch, TypedBack, expected_of
from termprobe.plan.quantities import reading_in_words
from termprobe.plan.typed_word import word_shown
from termprobe.terminal.screen import Screen

CANNOT_BE_TYPED = "wrong"
"""Said of a word that cannot be typed; no key of the word itself may mean that."""
ON_THIS_KEYBOARD = "That was typed on this computer. Type it on the board's own keyboard."
_HINT = "y n u d r s e b q, or ? for all: "
_CAUTION_PROMPT = (
    "Type yes when you have read this and it is safe, e to leave out the rest of the stage, or "
    "stop: "
)
_WISHES = (REPEAT, SLOWER, BACK, FORWARD, STOP)
_BESIDE_A_WORD = (
    *("u", "unsure", "d", "disputed", "s", "skip", "e", SKIP_STAGE),
    *("b", "back", "f", "forward", "note", *STOPS),
)
_BESIDE_A_CAUTION = ("e", SKIP_STAGE, *STOPS)
_BESIDE_A_READING = ("skip", SKIP_STAGE, "back", "forward", "note", STOP)
_PROMPTS = {Look.kind: "As expected? ", Switch.kind: "Done? "}


KeepPhoto = Callable[[str], KeptPhoto]


def _nowhere(path: str) -> KeptPhoto:
    raise FileError([f"{path}: a photo must stand beside a run file, and none is known here"])


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
        self.name, self.draw_dots = name, dots_in_text
        self.keep_photo: KeepPhoto = _nowhere
        """Puts the photo of a path beside the run file; raises FileError."""

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

    def acknowledge(self, text: str) -> Wish | None:
        """Show a caution; return None once the builder has read it, else the wish: stage or stop.

        The end of the input means stop.
        """
        self._show(f"\nCAUTION: {_plain(text)}")
        try:
            while True:
                typed = self._lower(_CAUTION_PROMPT)
                if typed in ("yes", "y"):
                    return None
                said = None
                if typed in _BESIDE_A_CAUTION:
                    said = self._of_typed(typed)
                if isinstance(said, Wish):
                    return said
        except EOFError:
            return Wish(STOP)

    def switch_off(self, step: Step) -> bool:
        """Say that the board must be switched off; return whether the builder tries it again."""
        self._show(
            f"\nSWITCH OFF NOW. {_plain(step.title)} is not as it must be, and its rule is to "
            f"switch off if: {_plain(step.stop_if or '')}\n"
            "Nothing more is sent to the board, and nothing else is tried, before it is right."
        )
        try:
            while True:
                typed = self._lower("Type m to measure again once it is put right, or stop: ")
                if typed in ("m", "measure", *STOPS):
                    return typed not in STOPS
        except EOFError:
            return False

    def typed(self, step: TypedBack, data: bytes) -> Said | None:
        """Return what is said of a typed-back step where `data` came and not its word.

        None means that it is to be typed again.
        """
        word, came = word_shown(step), show(data) or "nothing"
        self._show(f'"{_plain(word)}" and RETURN must come from the keyboard, not {came}.')
        try:
            while True:
                typed = self._lower(
                    "Again (r), or wrong if the board sends this? r u d s e b stop: "
                )
                if typed == word.lower():
                    self._show(ON_THIS_KEYBOARD)
                if typed in ("r", REPEAT, "", word.lower()):
                    return None
                said = self._of_word(typed, came)
                if said is not None:
                    return said
        except EOFError:
            return Wish(STOP)

    def _of_word(self, typed: str, came: str) -> Said | None:
        """Return what is said of a word that did not come; a failure only where it is confirmed."""
        if typed == CANNOT_BE_TYPED:
            sure = self._lower(f"Record that the board sends {came} instead? Type yes: ")
            typed = "n" * (sure == "yes")
        elif typed not in _BESIDE_A_WORD:
            typed = ""
        return self._of_typed(typed)

    def _lower(self, prompt: str) -> str:
        return self._ask(prompt).strip().lower()

    def _present(self, step: Step) -> None:
        self._show(f"\n{_plain(step.title)}")
        screen = expected_of(step)
        if screen is not None:
            self._show(self._draw(screen))
        if enlarged_of(step):
            self._show(self.draw_dots(enlarged_of(step)))
        if isinstance(step, Switch):
            self._show(f"Set {_plain(step.option)} to {_plain(step.position)}.")
        if step.question:
            self._show(_plain(step.question))
        if step.stop_if:
            self._show(f"Switch off at once if: {_plain(step.stop_if)}")

    def _word(self, step: Step) -> Said:
        prompt = _PROMPTS.get(step.kind, "Is it so? ") + _HINT
        while True:
            typed = self._asked(step, prompt)
            said = self._of_typed(typed)
            if said is not None:
                return said
            if word_of(typed) is None:
                self._say_words(typed)

    def _asked(self, step: Step, prompt: str) -> str:
        """Return what is typed for an answer to `step`."""
        return self._lower(prompt)

    def _say_words(self, typed: str) -> None:
        """Say what may be typed, and what may not."""
        if typed not in ("?", "h", "help", ""):
            self._show(f"An answer must be one of the words below, not {visible(typed)[:40]!r}.")
        self._show(help_text())

    def _of_typed(self, typed: str) -> Said | None:
        """Return what a typed word stands for, asking for its remark.

        It is None where the word stands for nothing, or its reason is not given.
        """
        word = word_of(typed)
        if word is None:
            return None
        if word.answers:
            return self._answer(word.answers, word)
        if word.full == SKIP_STAGE:
            return self._stage_left(word)
        if word.full in _WISHES:
            return Wish(word.full)
        return self._remarked()

    def _remarked(self) -> Remark | None:
        """Return what is noted; without the photo where that cannot be taken, which is told.

        None where there are no words beside it.
        """
        photo, text = photo_in(self._ask(f"{NOTE_PROMPT}: "))
        if not photo:
            return Remark(text)
        try:
            return Remark(text, self.keep_photo(photo))
        except FileError as error:
            if not text:
                self._show(f"Not noted: {_plain(str(error))}.")
                return None
            self._show(f"Noted without the photo: {_plain(str(error))}.")
            return Remark(text)

    def _answer(self, says: str, word: Word) -> Answer | None:
        """Return the answer that a word is, None where its reason is not given."""
        note = self._remark(word)
        if note is None:
            self._show("Nothing is recorded.")
            return None
        return Answer(says, note=note)

    def _stage_left(self, word: Word) -> Wish | None:
        """Return the wish to leave out the rest of the stage, None where no reason is given."""
        reason = self._remark(word)
        if reason is None:
            self._show("Nothing is recorded.")
            return None
        return Wish(SKIP_STAGE, reason)

    def _remark(self, word: Word) -> str | None:
        """Return what is said about a word, None where a reason is needed and none given."""
        if not word.needs_reason:
            return self._ask(word.asks).strip() if word.asks else ""
        text = self._ask(f"{word.asks}(ENTER alone goes back to the question) ").strip()
        return text or None

    def _reading(self, step: Measure) -> Said | None:
        """Ask for a number until one is given; one outside its limits is to be confirmed."""
        unit = f" in {step.unit}" if step.unit else ""
        self._show(wanted_reading(step, _plain(step.source or "")))
        while True:
            typed = self._ask(f"Reading{unit} (ENTER if not measured; s e b note stop): ").strip()
            if not typed:
                return None
            said = self._of_reading(step, typed)
            if said is not None:
                return said

    def _of_reading(self, step: Measure, typed: str) -> Said | None:
        """Return what is typed for a reading, or in its place; None where it is no answer yet."""
        word = word_of(typed.lower())
        if word is not None and word.full in _BESIDE_A_READING:
            return self._of_typed(word.full)
        return self._measured(step, typed)

    def _measured(self, step: Measure, typed: str) -> Answer | None:
        try:
            value = reading_of(step, typed)
        except ValueError as error:
            text = visible(str(error))
            self._show(f"{text[0].upper()}{text[1:]}.")
            return None
        answer = answer_of_reading(step, value)
        if answer.word == AS_EXPECTED:
            self._show(what_is_right(step, value))
            return answer
        self._show(f"OUTSIDE: {reading_in_words(value, step.unit)} is not {step.limits}.")
        if step.stop_if:
            return answer
        typed = self._lower("ENTER to keep it, r to measure again: ")
        return None if typed in ("r", REPEAT) else answer


def _plain(text: str) -> str:
    return "\n".join(visible(line) for line in text.split("\n"))
