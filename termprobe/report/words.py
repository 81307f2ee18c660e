"""Verdicts in words: why a step has its verdict, and what speaks for it.

One sentence each, without its full stop.
"""

from collections.abc import Callable, Sequence

from termprobe import notation
from termprobe.plan.quantities import reading_in_words
from termprobe.report import (
    evidence_words,
    known_fault_words,
    press_words,
    text_words,
    unseen_words,
)
from termprobe.report.facts.numbers import counted
from termprobe.terminal.dots import dots_in_words
from termprobe.verdict.evidence import Evidence
from termprobe.verdict.model import (
    FAIL,
    AsOfGoodBoard,
    AsWithFault,
    Because,
    Blocked,
    Changed,
    Covered,
    Differing,
    Hidden,
    LineFound,
    MayBeLost,
    Measured,
    Pressed,
    Returned,
    Silent,
    StepVerdict,
    Unfitted,
)
from termprobe.verdict.noticed import Noticed, Rate
from termprobe.verdict.support import (
    CharactersOnly,
    LimitsFrom,
    Support,
    Unheeded,
    WithNote,
    is_note_the_reason,
    supports,
)

_FLAT = {0: "never", 1: "once"}
_NOTHING_YET = "nothing had come from the board yet"
_TRY = "try cable, adapter and local mode first"
_TRY_RETURN = "try the wire that it sends on, and the switch on-line, first"


def reason(step: StepVerdict, named: Callable[[str], str] = str) -> str:
    """Return why the step has its verdict; empty where an observer gave no reason.

    `named(id)` is what another step is called in it; its id by default.
    """
    told = step.note if is_note_the_reason(step) else ""
    if step.because is not None:
        told = because_in_words(step.because, named)
    if step.verdict == FAIL and step.blames:
        return f"the {step.blames}, not the board: {told or 'not as it must be'}"
    return told


def drawing(step: StepVerdict) -> tuple[str, ...]:
    """Return the rows of what is drawn of the reason; empty where nothing is."""
    if isinstance(step.because, LineFound):
        return step.because.drawn
    return ()


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
        case CharactersOnly(not_seen):
            return (unseen_words.characters_only(not_seen),)
        case Noticed():
            return (press_words.in_words(support),)


def because_in_words(because: Because, named: Callable[[str], str] = str) -> str:
    """Return what decides a verdict, in one sentence, other steps called what `named` says."""
    match because:
        case Unfitted(why):
            return why
        case Blocked(needs, is_switched_off=True):
            return f"switched off: {needs[0]} failed, and its rule is to switch off"
        case Blocked(needs):
            *through, failed = map(named, needs)
            end = "was skipped" if because.was_skipped else "failed"
            return "".join(f"needs {need}, which is blocked: " for need in through) + (
                f"needs {failed}, which {end}"
            )
        case Covered(by):
            return f"covered by {_listed([named(one) for one in by])}, which passed"
        case LineFound(said=said):
            return said
        case Measured():
            return _measured(because)
        case Silent():
            return _silent(because)
        case Returned():
            return _returned(because)
        case Differing():
            return "; ".join(_differing(because)) or "seen to differ"
        case Changed() | MayBeLost():
            return text_words.why_open(because)
        case Pressed(noticed):
            return press_words.in_words(noticed[0])
        case AsWithFault() | AsOfGoodBoard() | Hidden():
            return known_fault_words.because_in_words(because)


def _listed(names: Sequence[str]) -> str:
    """Return `a`, `a and b`, `a, b and c`."""
    *others, last = names
    if not others:
        return last
    return f"{', '.join(others)} and {last}"


def _silent(silent: Silent) -> str:
    """Return what was noticed on a line over which nothing had ever come, and what to try."""
    noticed = because_in_words(silent.noticed)
    if silent.is_heard:
        return f"{noticed}; {_NOTHING_YET}, though it shows what is sent: {_TRY_RETURN}"
    return f"{noticed}; {_NOTHING_YET}: {_TRY}"


def _returned(returned: Returned) -> str:
    came = notation.show(returned.came) or "nothing"
    if returned.wanted != returned.came:
        told = f"{returned.form or notation.show(returned.wanted)} must come back, not {came}"
    else:
        told = f"{came} came back"
    wrong = (f"of a character {press_words.error_in_words(error)}" for error in returned.errors)
    return "; ".join((told, *wrong))


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
        told.append(_differing_cells(differing.cells, differing.is_counted))
    if differing.cursor:
        wanted, seen = map(_cell, differing.cursor)
        told.append(f"the cursor must be at {wanted}, not at {seen}")
    if differing.bells:
        wanted, rung = map(_times, differing.bells)
        told.append(f"the bell must ring {wanted}, not {rung}")
    return [*told, *dots_in_words(differing.misdrawn)]


def _differing_cells(count: int, is_counted: bool) -> str:
    cells = counted(count, "cell")
    if not is_counted:
        return f"{cells} marked, perhaps not all"
    return f"{cells} differs" if count == 1 else f"{cells} differ"


def _cell(cell: tuple[int, int]) -> str:
    return f"row {cell[0]}, column {cell[1]}"


def _times(count: int) -> str:
    return _FLAT.get(count, f"{count} times")
