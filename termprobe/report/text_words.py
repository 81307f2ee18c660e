"""What is told of a run whose texts changed, or whose file is not whole, in words.

One sentence each, without its full stop.
"""

from collections.abc import Callable, Iterator

from termprobe.verdict.model import UNANSWERED, Changed, MayBeLost, StepVerdict
from termprobe.verdict.texts import EarlierAnswer, TextsUsed

NO_END = (
    "the run file ends without its last record, so what was answered last may be missing; "
    "go on with --resume"
)


def why_open(because: Changed | MayBeLost) -> str:
    """Return why the answer to a step does not stand."""
    match because:
        case Changed():
            return "answered before the step was changed; it is to be asked again"
        case MayBeLost():
            return "its answer may be among the lost records; it is to be asked again"


def texts_in_words(
    used: TextsUsed,
    reason: Callable[[StepVerdict], str],
    named: Callable[[str], str] = str,
    dated: Callable[[str], str] = str,
) -> Iterator[tuple[str, str]]:
    """Yield the beginning of each paragraph on the texts, and what stands behind it.

    `reason` says why a step has its verdict, `named(id)` is what a step is called, and `dated(at)`
    a moment: its id, and as it is kept, by default.
    """
    for number, (text, judged) in enumerate(zip(used.texts, used.judged, strict=True), 1):
        what = "begun with" if number == 1 else _changed(text.changed)
        yield f"  {number}  ", f"from {dated(text.since)}, {what}, plan {text.plan.hash[:12]}"
        yield (
            "     ",
            f"{_steps(len(judged))} judged by it: {', '.join(map(named, judged)) or 'none'}",
        )
    for answer in used.earlier:
        yield "  -  ", _earlier(answer, reason(answer.then), named)


def _changed(changed: tuple[str, ...]) -> str:
    if not changed:
        return "compiled by another version of termprobe"
    return f"{' and '.join(changed)} changed"


def _steps(count: int) -> str:
    return "1 step" if count == 1 else f"{count} steps"


def _earlier(answer: EarlierAnswer, reason: str, named: Callable[[str], str]) -> str:
    """Return what a step had shown under an earlier text, and what has become of it."""
    shown = " ".join(filter(None, (answer.then.verdict, reason and f"({reason})")))
    told = f"{named(answer.then.id)} under text {answer.text}: {shown}; "
    if answer.now is None:
        return told + "the step is no more"
    if answer.now == UNANSWERED:
        return told + "the step was changed and is to be asked again"
    return told + f"the step was changed and asked again: {answer.now}"
