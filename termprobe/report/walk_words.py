"""What is told while steps are answered one by one, in lines and on the full screen alike."""

from termprobe.journal.attention import AttentionChecked
from termprobe.notation import show
from termprobe.report import words
from termprobe.verdict.model import StepVerdict

PRESS_RIGHT, PRESS_WRONG = "right", "WRONG"
LOOK_ONCE_MORE = "the cause hangs on this one answer: look once more"
SEARCHING = "working out what would explain it ..."
NONE_BEFORE = "no key was pressed before this one"


def of_no_press_left(data: bytes) -> str:
    """Return what is told of bytes that no press left sends; without any there was an error."""
    came = show(data) or "an error of the line"
    return f"{came} came, which no press left sends"


def all_noticed(verdict: StepVerdict) -> str:
    """Return all that was noticed of a press, in one line."""
    return "; ".join((words.reason(verdict), *words.evidence(verdict)))


def of_answer_before(verdict: StepVerdict) -> str:
    """Return what is told of a step that was answered before, where the builder goes back to it."""
    reason = words.reason(verdict) or verdict.note
    told = verdict.verdict
    if reason:
        told += f" ({reason})"
    return f"answered before: {told}; f keeps it, a new answer counts instead"


def of_check(checked: AttentionChecked) -> str:
    """Return what is told of an attention check once it is answered."""
    told = "That was a check: the screen was wrong on purpose"
    if checked.is_caught:
        told += ", and you saw it"
    elif checked.is_missed:
        told += ", and it passed for right: take your time"
    return f"{told}. It counts neither for nor against the board; now the right screen"
