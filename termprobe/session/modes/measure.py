"""A reading is taken and typed."""

from termprobe.observer.base import AS_EXPECTED, DIFFERS, Answer
from termprobe.observer.reading import parse_reading
from termprobe.plan.model import MEASURE, Step
from termprobe.session.draw.fit import cut
from termprobe.session.draw.rows import Row, Rows, blank, paragraph, plain
from termprobe.session.mode import Key, Mode, View
from termprobe.session.react.typed_lines import answered_by_line, asked, open_line
from termprobe.session.shared_keys import AROUND, AT_ANY_TIME, DISPUTED
from termprobe.session.state import Purpose, Reaction, State

STARTS = "0123456789.-+"
"""A reading may start so; the key opens the line."""


def judgement(step: Step, value: float) -> tuple[str, str]:
    """Return (answer word, sentence) for reading `value` of a measure step, in its unit."""
    shown = f"{value:g} {step.unit or ''}".rstrip()
    if not step.limits:
        return AS_EXPECTED, f"{shown}, noted"
    if step.allows(value):
        return AS_EXPECTED, f"{shown} is within the limits, {step.limits}"
    return DIFFERS, f"{shown} is OUTSIDE the limits, {step.limits}"


def _accept(state: State, text: str) -> Reaction:
    step = state.step
    value = parse_reading(text, step.unit)
    word, sentence = judgement(step, value)
    return answered_by_line(state, Answer(word, value=value), f"{step.title}: {sentence}")


def _limits(state: State) -> str:
    return f": {state.step.limits or 'no limits, it is noted'}"


READING = Purpose("Reading", _accept, _limits)


def _start_reading(state: State, key: str) -> Reaction:
    """Open the line with the key as its first character."""
    return (open_line(state, READING, key) if key in STARTS else state), ()


def _task(view: View) -> Rows:
    limits = view.state.step.limits
    words = f"It must read {limits}." if limits else "It is noted; there are no limits."
    rows = paragraph(words, view.columns, "class:strong")
    judged = _judged_row(view)
    return rows if judged is None else [*rows, blank(), judged]


def _judged_row(view: View) -> Row | None:
    """Return what the reading that is being typed would be worth, or None."""
    state = view.state
    if state.mode != "typing" or state.purpose is not READING:
        return None
    try:
        value = parse_reading(state.text, state.step.unit)
    except ValueError:
        return None
    word, sentence = judgement(state.step, value)
    sentence = cut(sentence, view.columns - 5)
    if word == AS_EXPECTED:
        return plain(f"  + {sentence}", "class:pass")
    return plain(f"  X {sentence}", "class:fail")


MODE = Mode(
    name="measure",
    title="measure",
    keys=(
        Key(
            "enter",
            asked(READING),
            "enter reading",
            "type the reading; a digit starts it as well",
        ),
        DISPUTED,
        *AROUND,
        *AT_ANY_TIME,
    ),
    other=_start_reading,
    kind=MEASURE,
    is_of_step=True,
    task=_task,
    shows_question=True,
)
