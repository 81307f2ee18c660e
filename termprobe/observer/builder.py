"""The builder at plain prompts: shows what must be seen, asks what is seen."""

from termprobe.notation import show, visible
from termprobe.plan.model import ASK, LOOK, MEASURE, SWITCH
from termprobe.observer.base import (
    AS_EXPECTED,
    BACK,
    DIFFERS,
    DISPUTED,
    EYES,
    REPEAT,
    SKIPPED,
    SLOWER,
    STOP,
    UNSURE,
    Answer,
)
from termprobe.observer.reading import parse_reading

WORDS = {
    "y": ("yes", "as expected"),
    "n": ("no", "it differs; you may say how"),
    "u": ("unsure", "you cannot tell"),
    "d": ("disputed", "the board is right, the expectation is wrong; you will be asked why"),
    "r": ("repeat", "send it again"),
    "slower": ("slower", "send it again at half the pace"),
    "note": ("note", "write something down, then answer"),
    "s": ("skip", "leave this step out; you will be asked why"),
    "b": ("back", "to the step before"),
    "stop": ("stop", "end here; go on later with --resume"),
}
"""What may be typed, in full or as the first letters given here."""
_HINT = "y n u d r s b, or ? for all: "
_ABOUT = {
    AS_EXPECTED: "",
    DIFFERS: "What do you see? (ENTER for no remark) ",
    UNSURE: "",
    DISPUTED: "Why is the expectation wrong? ",
    SKIPPED: "Why is it left out? ",
}


class BuilderObserver:
    """Asks by `ask(text) -> str` and tells by `show(text)`; `draw(screen) -> str` draws a screen."""

    strength = EYES

    def __init__(self, ask, show, draw, name="builder"):
        self._ask, self._show, self._draw = ask, show, draw
        self.name = name

    def can_answer(self, step):
        """Return whether eyes, hands or a meter can tell."""
        return step.kind in (LOOK, ASK, MEASURE, SWITCH)

    def answer(self, step):
        """Return the builder's Answer; None where a reading is left blank. The end of the input means stop."""
        try:
            self._present(step)
            return self._reading(step) if step.kind == MEASURE else self._word(step)
        except EOFError:
            return Answer(wish=STOP)

    def acknowledge(self, text):
        """Show a caution; return whether the builder has read it and goes on."""
        self._show(f"\nCAUTION: {_plain(text)}")
        typed = ""
        while typed not in ("yes", "y", STOP):
            try:
                typed = (
                    self._ask("Type yes when you have read this and it is safe, or stop: ")
                    .strip()
                    .lower()
                )
            except EOFError:
                typed = STOP
        return typed != STOP

    def typed(self, step, data):
        """Return the Answer to a typed-back step where `data` came and not its word; None to type it again."""
        self._show(
            f'"{_plain(step.word.rstrip())}" and RETURN must come from the keyboard, not {show(data) or "nothing"}.'
        )
        try:
            while True:
                typed = (
                    self._ask(
                        "Type it again (r), or does the board send this (n)? r n u s b stop: "
                    )
                    .strip()
                    .lower()
                )
                if typed in ("r", "repeat", "y", "yes", ""):
                    return None
                answer = self._of_typed(typed)
                if answer is not None:
                    return answer
        except EOFError:
            return Answer(wish=STOP)

    def _present(self, step):
        self._show(f"\n[{step.id}] {_plain(step.title)}")
        if step.expected is not None:
            self._show(self._draw(step.expected))
        if step.kind == SWITCH:
            self._show(f"Set {_plain(step.option or '')} to {_plain(step.position or '')}.")
        if step.question:
            self._show(_plain(step.question))
        if step.stop_if:
            self._show(f"Switch off at once if: {_plain(step.stop_if)}")

    def _word(self, step):
        prompt = {LOOK: "As expected? ", SWITCH: "Done? "}.get(step.kind, "Is it so? ") + _HINT
        while True:
            typed = self._ask(prompt).strip().lower()
            answer = self._of_typed(typed)
            if answer is not None:
                return answer
            if typed not in ("?", "h", "help", ""):
                self._show(
                    f"An answer must be one of the words below, not {visible(typed)[:40]!r}."
                )
            self._show(help_text())

    def _of_typed(self, typed):
        """Return the Answer that a typed word stands for, asking for its remark; None where it stands for none."""
        word = next((full for short, (full, _) in WORDS.items() if typed in (short, full)), None)
        said = {
            "yes": AS_EXPECTED,
            "no": DIFFERS,
            "unsure": UNSURE,
            "disputed": DISPUTED,
            "skip": SKIPPED,
        }.get(word)
        if said:
            return Answer(said, note=self._remark(said))
        if word == "note":
            return Answer(note=self._ask("Note: ").strip())
        return Answer(wish=word) if word in (REPEAT, SLOWER, BACK, STOP) else None

    def _remark(self, said):
        question = _ABOUT[said]
        text = self._ask(question).strip() if question else ""
        while not text and said in (DISPUTED, SKIPPED):
            text = self._ask(f"A reason is needed. {question}").strip()
        return text

    def _reading(self, step):
        """Ask for a number until one is given; one outside its limits is to be confirmed."""
        unit = f" in {step.unit}" if step.unit else ""
        source = f" ({_plain(step.source)})" if step.source else ""
        self._show(
            f"It must read {step.limits}{source}."
            if step.limits
            else "It is noted; there are no limits."
        )
        while True:
            typed = self._ask(f"Reading{unit} (ENTER if not measured; s b note stop): ").strip()
            if not typed:
                return None
            answer = (
                self._of_typed(typed.lower())
                if typed.lower() in ("s", "skip", "b", "back", "note", STOP)
                else None
            )
            answer = answer or self._measured(step, typed)
            if answer is not None:
                return answer

    def _measured(self, step, typed):
        try:
            value = parse_reading(typed, step.unit)
        except ValueError as error:
            self._show(f"{visible(str(error))[0].upper()}{visible(str(error))[1:]}.")
            return None
        said = AS_EXPECTED if step.allows(value) else DIFFERS
        if said == AS_EXPECTED:
            self._show("Within limits." if step.limits else "Noted.")
            return Answer(said, value=value)
        danger = f" Switch off at once if: {_plain(step.stop_if)}" if step.stop_if else ""
        self._show(f"OUTSIDE: {value:g} is not {step.limits}.{danger}")
        typed = self._ask("ENTER to keep it, r to measure again: ").strip().lower()
        return None if typed in ("r", REPEAT) else Answer(said, value=value)


def help_text():
    """Return what may be typed and what it means, one line each."""
    lines = []
    for short, (full, meaning) in WORDS.items():
        typed = short if short == full else f"{short}, {full}"
        lines.append(f"  {typed:<12} {meaning}")
    return "\n".join(lines)


def _plain(text):
    return "\n".join(visible(line) for line in text.split("\n"))
