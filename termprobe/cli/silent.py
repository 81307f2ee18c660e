"""Why nothing shows or comes, asked at plain prompts."""

from termprobe.cli.console import PARAGRAPH_WIDTH, Console
from termprobe.errors import EXIT_INCOMPLETE, EXIT_PASSED, UsageError
from termprobe.folding import folded
from termprobe.line.silence_search import leader, next_question, probabilities
from termprobe.report.formats.json import dump

SILENT_HELP = "where nothing shows or comes at all: answer a few questions, and be told what it is"
INTRODUCTION = (
    "Answer with y or n; ENTER where you cannot tell. The cheap questions come first. "
    "CAUTION: the tube holds thousands of volts long after it is off, and mains can kill; do "
    "nothing inside that you are not trained for. Plug and unplug serial leads only while the "
    "board is off."
)
WORDS = {"y": True, "yes": True, "n": False, "no": False, "": None}

LEAST_TOLD = 0.05
"""Causes that are less probable are not told."""


def ask_why_silent(console: Console, is_json: bool = False) -> int:
    """Ask until a cause is named or nothing more tells; return the exit code.

    Raises UsageError where the input ends before any answer.
    """
    _tell(console, INTRODUCTION, is_json)
    answers: dict[str, bool | None] = {}
    while question := next_question(answers):
        prompt = "\n".join(folded(f"{len(answers) + 1:2}  ", question.text, PARAGRAPH_WIDTH))
        try:
            answers[question.name] = _answer(console, prompt, is_json)
        except EOFError:
            if not answers:
                raise UsageError("--silent must have a keyboard, or answers on its input") from None
            break
    if is_json:
        console.tell(dump(_document(answers)))
    else:
        console.tell("\n".join(_conclusion(answers)))
    return EXIT_PASSED if next_question(answers) is None else EXIT_INCOMPLETE


def _answer(console: Console, prompt: str, is_json: bool) -> bool | None:
    """Return what is typed, asked for until it is an answer."""
    while True:
        typed = console.ask("" if is_json else f"{prompt} [y/n] ").strip().lower()
        if typed in WORDS:
            return WORDS[typed]
        _tell(console, "It must be y, n, or ENTER where you cannot tell.", is_json)


def _tell(console: Console, text: str, is_json: bool) -> None:
    if not is_json:
        console.tell_paragraph(text)


def _ranked(answers: dict[str, bool | None]) -> list[tuple[str, float]]:
    return sorted(probabilities(answers).items(), key=lambda pair: -pair[1])


def _conclusion(answers: dict[str, bool | None]) -> list[str]:
    cause, probability = leader(answers)
    lines = ["", *folded(f"{probability:4.0%}  ", cause.title, PARAGRAPH_WIDTH)]
    lines += folded("      ", cause.remedy, PARAGRAPH_WIDTH)
    others = [f"{name} {odds:.0%}" for name, odds in _ranked(answers)[1:] if odds >= LEAST_TOLD]
    if others:
        lines += folded("      else: ", ", ".join(others), PARAGRAPH_WIDTH)
    return lines


def _document(answers: dict[str, bool | None]) -> dict[str, object]:
    cause, probability = leader(answers)
    return {
        "cause": cause.name,
        "title": cause.title,
        "remedy": cause.remedy,
        "probability": probability,
        "causes": [{"cause": name, "probability": odds} for name, odds in _ranked(answers)],
        "answers": answers,
    }
