"""Which answers of a run were given under which texts of profile and script. Pure."""

from collections.abc import Sequence
from dataclasses import dataclass

from termprobe.journal.records import Answered, Record
from termprobe.plan.model import Plan
from termprobe.verdict.judge import judge
from termprobe.verdict.model import UNANSWERED, RunVerdict, StepVerdict


@dataclass(frozen=True)
class TextInForce:
    """Profile and script as they were for a part of a run."""

    plan: Plan
    """What they make, with what it knows of the texts before."""
    since: str = ""
    """Date from which on they held."""
    first: int = 0
    """How many records stand before those made under them."""
    changed: tuple[str, ...] = ()
    """`profile`, `script`: what was not so before."""


@dataclass(frozen=True)
class EarlierAnswer:
    """An answer that does not count any more, since its step is not the same."""

    text: int
    """Number of the text under which it was given, from 1."""
    then: StepVerdict
    """What the step had shown by it, and by that text."""
    now: str | None
    """The verdict of the step as it is now; None where it is gone."""


@dataclass(frozen=True)
class TextsUsed:
    """All texts of a run, and what was judged by which."""

    texts: tuple[TextInForce, ...]
    judged: tuple[tuple[str, ...], ...]
    """For each text the ids of the steps whose verdict is by an answer given under it."""
    earlier: tuple[EarlierAnswer, ...]


def texts_used(
    texts: Sequence[TextInForce], records: Sequence[Record], verdict: RunVerdict
) -> TextsUsed | None:
    """Return the TextsUsed of a run whose `verdict` is by the last of `texts`.

    None is returned where its texts were the same all along.
    """
    if not any(text.changed for text in texts):
        return None
    earlier: list[EarlierAnswer] = []
    for number in range(1, len(texts)):
        earlier += _earlier(texts, number, records, verdict)
    judged = [_judged_by(texts, number, records, verdict) for number in range(1, len(texts) + 1)]
    return TextsUsed(tuple(texts), tuple(judged), tuple(earlier))


def _given(texts: Sequence[TextInForce], number: int, records: Sequence[Record]) -> dict[str, str]:
    """Return step id -> hash of the last answer to it that was given under a text."""
    ends = [text.first for text in texts[1:]] + [len(records)]
    of_text = records[texts[number - 1].first : ends[number - 1]]
    return {record.step: record.hash for record in of_text if isinstance(record, Answered)}


def _earlier(
    texts: Sequence[TextInForce], number: int, records: Sequence[Record], verdict: RunVerdict
) -> list[EarlierAnswer]:
    plan, now = texts[number - 1].plan, texts[-1].plan
    then = judge(plan, records[: texts[number].first])
    words = {step.id: step.verdict for step in verdict.steps}
    found: list[EarlierAnswer] = []
    for step_id, answered_hash in _given(texts, number, records).items():
        if step_id not in plan.index:
            continue
        is_gone = step_id not in now.index
        if is_gone or not now.earlier.counts(step_id, now.step(step_id).hash, answered_hash):
            was = then.steps[plan.index[step_id]]
            found.append(EarlierAnswer(number, was, words.get(step_id)))
    return found


def _judged_by(
    texts: Sequence[TextInForce], number: int, records: Sequence[Record], verdict: RunVerdict
) -> tuple[str, ...]:
    given = _given(texts, number, records)
    later: set[str] = set()
    for after in range(number + 1, len(texts) + 1):
        later |= _given(texts, after, records).keys()
    judged = [step.id for step in verdict.steps if step.answers and step.verdict != UNANSWERED]
    return tuple(step_id for step_id in judged if step_id in given and step_id not in later)
