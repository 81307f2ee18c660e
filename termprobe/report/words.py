"""Verdicts in words: why a step has its verdict, and what speaks for it.

One sentence each, without its full stop.
"""

from termprobe import notation
from termprobe.plan.readings import reading_in_words
from termprobe.report import evidence_words, press_words
from termprobe.verdict.evidence import Evidence
from termprobe.verdict.model import (
    Because,
    Blocked,
    Covered,
    Differing,
    Measured,
    Pressed,
    Returned,
    StepVerdict,
    Unfitted,
)
from termprobe.verdict.noticed import Noticed, Rate
from termprobe.verdict.support import (
    LimitsFrom,
    Outdated,
    Support,
    Unheeded,
    WithNote,
    is_note_the_reason,
    supports,
)

_FLAT = {0: "never", 1: "once"}


def reason(step: StepVerdict) -> str:
    """Return why the step has its verdict; empty where an observer gave no reason."""
    if step.because is not None:
        return because_in_words(step.because)
    return step.note if is_note_the_reason(step) else ""


def evidence(step: StepVerdict) -> tuple[str, ...]:
    """Return what speaks for the verdict: bits computed, sources, remarks."""
    return tuple(sentence for support in supports(step) for sentence in _support(support))


def _support(support: Support) -> tuple[str, ...]:
    match support:
        case Evidence():
            return evidence_words.sentences(support)
        case LimitsFrom(source):
            return (f"limits from {source}",)
        case Rate():
            return (press_words.rate_in_words(support),)
        case Unheeded(verdict):
            return (f"an answer was given ({verdict}); it means nothing before that works",)
        case WithNote(text):
            return (f"note: {text}",)
        case Outdated():
            return ("answered before the step was changed; answer it again",)
        case Noticed():
            return (press_words.in_words(support),)


def because_in_words(because: Because) -> str:
    """Return what decides a verdict, in one sentence."""
    match because:
        case Unfitted(why):
            return why
        case Blocked(needs):
            *through, failed = needs
            return "".join(f"needs {need}, which is blocked: " for need in through) + (
                f"needs {failed}, which failed"
            )
        case Covered(by):
            return f"covered by {' and '.join(by)}, which passed"
        case Measured():
            return _measured(because)
        case Returned(wanted, came, form):
            if wanted == came:
                return f"{notation.show(came)} came back"
            what = notation.show(came) or "nothing"
            return f"{form or notation.show(wanted)} must come back, not {what}"
        case Differing():
            return "; ".join(_differing(because)) or "seen to differ"
        case Pressed(noticed):
            return press_words.in_words(noticed[0])


def _measured(measured: Measured) -> str:
    if measured.value is None:
        return "not measured"
    reading = reading_in_words(measured.value, measured.unit)
    if not measured.limits:
        return f"{reading}, noted; no limits are given"
    relation = "within" if measured.is_inside else "outside"
    warning = f"; WARNING: {measured.unusual} is usual" if measured.unusual else ""
    return f"{reading}, {relation} the limits, {measured.limits}{warning}"


def _differing(differing: Differing) -> list[str]:
    told: list[str] = []
    if differing.cells:
        verb = "cell differs" if differing.cells == 1 else "cells differ"
        told.append(f"{differing.cells} {verb}")
    if differing.cursor:
        wanted, seen = map(_cell, differing.cursor)
        told.append(f"the cursor must be at {wanted}, not at {seen}")
    if differing.bells:
        wanted, rung = map(_times, differing.bells)
        told.append(f"the bell must ring {wanted}, not {rung}")
    return told


def _cell(cell: tuple[int, int]) -> str:
    return f"row {cell[0]}, column {cell[1]}"


def _times(count: int) -> str:
    return _FLAT.get(count, f"{count} times")
