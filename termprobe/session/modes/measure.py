"""A reading is taken and typed."""

from termprobe.journal.records import AS_EXPECTED, Answer
from termprobe.observer.typed_reading import answer_of_reading, reading_of, wanted_reading
from termprobe.plan.model import Measure
from termprobe.plan.quantities import reading_in_words
from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.typed_lines import answered_by_line, asked, open_line
from termprobe.session.shared_keys import AROUND, AT_ANY_TIME, DISPUTED_KEY
from termprobe.session.state import Purpose, Reaction, State

STARTS = "0123456789.-+oO"
"""A reading may start so; the key opens the line."""


def judgement(step: Measure, value: float) -> tuple[Answer, str]:
    """Return the answer that reading `value` is, in the step's unit, and a sentence on it."""
    answer, shown = answer_of_reading(step, value), reading_in_words(value, step.unit)
    if not step.limits:
        return answer, f"{shown}, noted"
    word = "within" if answer.word == AS_EXPECTED else "OUTSIDE"
    sentence = f"{shown} is {word} the limits, {step.limits}"
    if answer.word == AS_EXPECTED and not step.usual.holds(value):
        sentence += f"; {step.usual.in_words(step.unit)} is usual"
    return answer, sentence


def _step(state: State) -> Measure:
    """Return the step in hand; without a reading to be taken nobody gets here."""
    if not isinstance(state.step, Measure):
        raise RuntimeError(f"{state.step.id} must be a reading")
    return state.step


def _accept(state: State, text: str) -> Reaction:
    step = _step(state)
    answer, sentence = judgement(step, reading_of(step, text))
    return answered_by_line(state, answer, f"{step.title}: {sentence}")


def _limits(state: State) -> str:
    return f": {_step(state).limits or 'no limits, it is noted'}"


READING = Purpose("Reading", _accept, _limits)


def _start_reading(state: State, key: str) -> Reaction:
    """Open the line with the key as its first character."""
    return (open_line(state, READING, key) if key in STARTS else state), ()


def _task(view: View) -> Rows:
    rows = paragraph(wanted_reading(_step(view.state)), view.columns, "class:strong")
    judged = _judged_rows(view)
    return [*rows, blank(), *judged] if judged else rows


def _judged_rows(view: View) -> Rows:
    """Return what the reading that is being typed would be worth; nothing where it is none."""
    state, step = view.state, _step(view.state)
    if state.mode != "typing" or state.purpose is not READING:
        return []
    try:
        value = reading_of(step, state.text)
    except ValueError:
        return []
    answer, sentence = judgement(step, value)
    if answer.word == AS_EXPECTED:
        return paragraph(f"+ {sentence}", view.columns, "class:pass")
    return paragraph(f"x {sentence}", view.columns, "class:fail")


MODE = Mode(
    name="measure",
    title="measure",
    keys=(
        ModeKey(
            "enter",
            asked(READING),
            "type reading",
            "type the reading; a digit starts it as well",
        ),
        DISPUTED_KEY,
        *AROUND,
        *AT_ANY_TIME,
    ),
    other=_start_reading,
    kind=Measure.kind,
    is_of_step=True,
    task=_task,
    shows_question=True,
)
