"""A batch as a page of text: yields, findings, steps by boards, histories. Pure."""

from collections.abc import Iterator, Sequence

from termprobe.errata.batch import Batch, BoardSet
from termprobe.errata.history import histories, mean_time
from termprobe.errata.items import failed_steps
from termprobe.errata.origin import BatchFinding, BatchFindings
from termprobe.errata.summary import UnreadRun
from termprobe.errata.words import boards_in_words, from_cards_in_words, settling, wording
from termprobe.errata.yields import Share, yield_of, yields_of
from termprobe.folding import folded
from termprobe.notation import visible

WIDTH = 80
BOARDS_DRAWN, STEPS_DRAWN = 40, 60
"""A table of more boards or steps is no help."""
HISTORIES_SHOWN = 40
NAME_WIDTH = 16
FAILED_MARK, PASSED_MARK, UNKNOWN_MARK = "#", ".", " "
PRACTICE = (
    "PRACTICE: every run is of a simulated board. This says nothing of real ones; publish no "
    "errata by it."
)


def errata_page(batch: Batch, findings: BatchFindings, unread: Sequence[UnreadRun]) -> str:
    """Return the page, with a line feed at its end."""
    parts = [
        _head(batch),
        _yields(batch),
        _findings(batch, findings),
        _table(batch),
        _histories(batch),
        _left_out(batch, unread),
    ]
    sections = ["\n".join(lines) for part in parts if (lines := list(part))]
    return "\n\n".join(sections) + "\n"


def _head(batch: Batch) -> Iterator[str]:
    if batch.is_practice:
        yield from folded("", PRACTICE, WIDTH)
    revisions = {one.board.revision for one in batch.boards}
    yield f"{_counted(len(batch.boards), 'board')}, {_counted(len(revisions), 'revision')}, " + (
        f"{_counted(batch.count_of_runs, 'run')}"
    )


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def _yields(batch: Batch) -> Iterator[str]:
    yield "Yield, each share with its 95 % interval"
    yield "                  boards  right at the first run      right by now"
    rows = [(_revision(one.revision), one) for one in yields_of(batch)]
    for name, one in [*rows, ("all", yield_of("", batch.boards))]:
        shares = f"{_share(one.first_pass):<28}{_share(one.passing)}"
        yield f"  {visible(name)[:NAME_WIDTH]:<{NAME_WIDTH}}{one.boards:>6}  {shares}"
        if one.undecided:
            told = f"{one.undecided} of these not decided, and left out of both"
            yield f"  {'':<{NAME_WIDTH}}        {told}"


def _revision(revision: str) -> str:
    return f"revision {revision}" if revision else "not told"


def _share(share: Share) -> str:
    if not share.of:
        return "-"
    low, high = share.interval
    return f"{share.count} of {share.of} ({low * 100:.0f} to {high * 100:.0f} %)"


def _findings(batch: Batch, findings: BatchFindings) -> Iterator[str]:
    if not findings.found:
        yield "Findings: none. No step failed on any board."
        return
    yield from folded("", f"Findings: {_how(findings)}", WIDTH)
    for number, finding in enumerate(findings.found, 1):
        yield from _finding(number, finding, batch, findings)


def _how(findings: BatchFindings) -> str:
    """Return by what it was decided what each finding goes with."""
    if not findings.tests:
        return "too few boards to compare groups of them"
    tests = _counted(findings.tests, "test")
    return f"Fisher's exact test, p corrected for {tests} by Holm's method"


def _finding(
    number: int, finding: BatchFinding, batch: Batch, findings: BatchFindings
) -> Iterator[str]:
    item = finding.item
    yield from folded(f"{number:>3} {finding.origin.upper():<8}", item.title, WIDTH)
    indent = " " * 12
    if item.is_cause:
        yield from folded(indent, ", ".join((item.what, *item.alike[:3])), WIDTH)
    yield from folded(f"{indent}boards: ", boards_in_words(batch.names_in(item.affected)), WIDTH)
    yield from folded(indent, f"{wording(finding, batch)}.", WIDTH)
    settle = settling(finding, findings, batch)
    if settle:
        yield from folded(indent, f"What would settle it: {settle}.", WIDTH)


def _table(batch: Batch) -> Iterator[str]:
    """Yield which step failed on which board, where that can be drawn."""
    failed = failed_steps(batch)
    if not failed or len(batch.boards) > BOARDS_DRAWN:
        return
    yield f"Steps by boards ({FAILED_MARK} failed, {PASSED_MARK} passed, blank not tried)"
    width = max(len(step) for step in failed)
    yield from _column_heads(batch, width)
    for step, boards in list(failed.items())[:STEPS_DRAWN]:
        yield f"  {visible(step):<{width}}  {_row(batch, step, boards)}"
    left_out = len(failed) - STEPS_DRAWN
    if left_out > 0:
        yield f"  and {_counted(left_out, 'step')} more"


def _column_heads(batch: Batch, width: int) -> Iterator[str]:
    """Yield the names of the boards, from top to bottom."""
    names = [visible(one.board.name) for one in batch.boards]
    tallest = max(map(len, names))
    for row in range(tallest):
        letters = [name.rjust(tallest)[row] for name in names]
        yield f"  {'':<{width}}  {' '.join(letters)}".rstrip()


def _row(batch: Batch, step: str, failed: BoardSet) -> str:
    marks: list[str] = []
    for index, one in enumerate(batch.boards):
        mark = UNKNOWN_MARK
        if failed >> index & 1:
            mark = FAILED_MARK
        elif any(step in run.passed for run in one.runs):
            mark = PASSED_MARK
        marks.append(mark)
    return " ".join(marks).rstrip()


def _histories(batch: Batch) -> Iterator[str]:
    found = histories(batch)
    if not found:
        return
    yield "What became of each board that did not pass at once"
    for one in found[:HISTORIES_SHOWN]:
        missing = "".join(f"; comes after {name}, not among these files" for name in one.missing)
        yield from folded(f"  {one.name}: ", f"{', '.join(one.events)}{missing}", WIDTH, 4)
    if len(found) > HISTORIES_SHOWN:
        yield f"  and {_counted(len(found) - HISTORIES_SHOWN, 'board')} more"
    time = mean_time(batch)
    if time is not None:
        yield from folded("  ", _time(time.runs, time.looks, time.minutes, time.unnamed), WIDTH, 4)


def _time(runs: int, looks: float, minutes: float, unnamed: int) -> str:
    told = "From the first look that differed to the cause: "
    if runs:
        told += f"{looks:.1f} looks and {minutes:.1f} minutes on average of {_counted(runs, 'run')}"
    else:
        told += "no run named one while it went on"
    if runs and unnamed:
        told += f"; {_counted(unnamed, 'run')} named none"
    return told


def _left_out(batch: Batch, unread: Sequence[UnreadRun]) -> Iterator[str]:
    if batch.practice_left_out:
        told = _counted(batch.practice_left_out, "run")
        yield f"Left out: {told} of simulated boards; --practice counts them."
    if batch.with_practice:
        told = _counted(batch.with_practice, "run")
        yield f"Counted with the others: {told} of simulated boards. Publish no errata by this."
    if batch.from_cards:
        yield from folded("", from_cards_in_words(batch), WIDTH)
    if batch.doubles:
        told = _counted(batch.doubles, "file")
        yield f"Left out: {told} with just what another one holds."
    for one in unread:
        yield from folded("Not read: ", f"{one.path}: {one.why}", WIDTH)
