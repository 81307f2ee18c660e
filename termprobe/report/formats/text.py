"""Runs as plain text, 80 columns wide, safe for any console and printer."""

from collections.abc import Hashable, Iterable, Iterator, Sequence

from termprobe import notation
from termprobe.folding import folded
from termprobe.plan.model import KeyPress, Plan, Stage
from termprobe.report import words
from termprobe.report.record import RunReport
from termprobe.report.text_words import texts_in_words
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference
from termprobe.verdict import model
from termprobe.verdict.evidence import code_of_character
from termprobe.verdict.model import StepVerdict
from termprobe.verdict.support import likeness

WIDTH = 80
CELLS_SHOWN = 4
VERDICTS_SHOWN = (
    model.PASS,
    model.FAIL,
    model.DISPUTED,
    model.UNSURE,
    model.UNANSWERED,
    model.BLOCKED,
    model.SKIPPED,
    model.NOT_FITTED,
)
_PROVEN = (model.PASS, model.FAIL, model.DISPUTED)


def render(reports: Sequence[RunReport]) -> str:
    """Return the reports one after another; the first word of each is PASS, FAIL or INCOMPLETE."""
    return "\n".join(map(page, reports))


def page(report: RunReport) -> str:
    """Return one report."""
    lines = [headline(report), "", *_identity(report)]
    failed = [step for step in report.verdict.steps if step.verdict == model.FAIL]
    if failed:
        lines += ["", "What failed"]
    for group in _alike(failed):
        lines += _evidence(group)
    lines += ["", "Stage by stage"]
    for stage in report.plan.stages:
        steps = [step for step in report.verdict.steps if step.stage == stage.id]
        lines += _stage(report.plan, stage, steps)
    lines += ["", "Totals   " + ", ".join(_totals(report.verdict.steps))]
    lines += _texts(report)
    for text in (*report.notes, *report.damages):
        lines += folded("Note     ", text, WIDTH)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _texts(report: RunReport) -> list[str]:
    """Return what is told of the texts, where they changed."""
    if report.texts is None:
        return []
    lines = ["", "Texts of profile and script"]
    for first, told in texts_in_words(report.texts, words.reason):
        lines += folded(first, told, WIDTH)
    return [*lines, ""]


def headline(report: RunReport) -> str:
    """Return the one line that says pass, fail or incomplete, of which board, and why."""
    board = f"board {notation.visible(report.header.board.serial)}"
    count = report.verdict.count
    fitted = len(report.verdict.steps) - count(model.NOT_FITTED)
    if report.verdict.verdict == model.FAIL:
        left = fitted - sum(map(count, _PROVEN))
        more = f"; {left} are not proven" if left else ""
        return f"FAIL: {board} failed {count(model.FAIL)} of {fitted} steps{more}"
    passed = f"{board} passed {count(model.PASS)} of {fitted} steps"
    if report.verdict.verdict == model.PASS:
        disputed = count(model.DISPUTED)
        more = f"; {disputed} held for a wrong expectation" if disputed else ""
        return f"PASS: {passed}{more}"
    return f"INCOMPLETE: {passed}, the rest is not proven"


def _identity(report: RunReport) -> list[str]:
    header = report.header
    options = [f"{option} {position}" for option, position in report.options]
    rows = [
        ("Board", _board(report)),
        ("Profile", report.plan.profile_id),
        ("Script", f"{report.plan.script_id}, plan {report.plan.hash[:12]}"),
        ("Link", _link(report)),
        ("Options", ", ".join(options) or "none set"),
        ("Run", f"{report.path}, {header.at} to {report.ended}"),
        ("Tool", header.tool),
    ]
    lines: list[str] = []
    for word, text in rows:
        lines += folded(f"{word:<9}", text, WIDTH)
    return lines


def _board(report: RunReport) -> str:
    board = report.header.board
    about = [f"serial {board.serial}"]
    more = (("revision", board.revision), ("built by", board.builder), ("fitted:", board.fitted))
    about += [f"{word} {text}" for word, text in more if text]
    return ", ".join(about)


def _link(report: RunReport) -> str:
    link = report.header.link
    if link is None:
        return "none"
    return " ".join(filter(None, (link.name, link.format, link.note))) or "none"


def _stage(plan: Plan, stage: Stage, steps: Sequence[StepVerdict]) -> list[str]:
    lines = [f"  {stage.title}: {', '.join(_totals(steps)) or 'no steps'}"]
    right = {step.id for step in steps if _is_right_press(plan, step)}
    if right:
        lines.append(f"    {model.PASS:<11}{len(right)} presses, each with its code")
    for step in steps:
        if step.verdict != model.NOT_FITTED and step.id not in right:
            word = "FAIL" if step.verdict == model.FAIL else step.verdict
            text = words.reason(step) or step.title
            lines += folded(f"    {word:<11}{step.id}  ", text, WIDTH, 15)
    missing = [step.id for step in steps if step.verdict == model.NOT_FITTED]
    if missing:
        lines += folded(f"    {model.NOT_FITTED:<11}", ", ".join(missing), WIDTH, 15)
    return lines


def _is_right_press(plan: Plan, step: StepVerdict) -> bool:
    asked = plan.step(step.id)
    is_single = isinstance(asked, KeyPress) and not asked.press.held
    return step.verdict == model.PASS and is_single


def _alike(failed: Iterable[StepVerdict]) -> list[list[StepVerdict]]:
    """Return the failed steps in groups that the same evidence explains, largest group first."""
    groups: dict[Hashable, list[StepVerdict]] = {}
    for step in failed:
        groups.setdefault(likeness(step), []).append(step)
    return sorted(groups.values(), key=lambda group: -len(group))


def _evidence(group: Sequence[StepVerdict]) -> list[str]:
    """Return the lines on steps that failed alike: sentence, steps, cells of the first one."""
    lines: list[str] = []
    for first, text in _told(group):
        lines += folded(first, text, WIDTH)
    return lines


def _told(group: Sequence[StepVerdict]) -> Iterator[tuple[str, str]]:
    """Yield the beginning of a line, and what stands behind it."""
    first, *others = group
    reason, evidence = words.reason(first), words.evidence(first)
    if others:
        yield "  ", f"{len(group)} steps: {evidence[0]}"
        told = [", ".join(step.id for step in group), f"in {first.id}: {reason}", *evidence[1:]]
    else:
        yield "  ", f"{first.id}: {first.title}"
        told = [reason, *evidence]
    told += [_cell(cell) for cell in first.differs[:CELLS_SHOWN]]
    if len(first.differs) > CELLS_SHOWN:
        told.append(f"and {len(first.differs) - CELLS_SHOWN} more cells")
    for text in filter(None, told):
        yield "    - ", text


def _cell(cell: Difference) -> str:
    row, column, expected, seen = cell
    wanted = f"row {row}, column {column}: expected {_character(expected)}"
    if seen == UNKNOWN_CHARACTER:
        return f"{wanted}, marked as differing"
    return f"{wanted}, seen {_character(seen)}"


def _character(character: str) -> str:
    code = code_of_character(character)
    if code is None:
        return f"{notation.visible(character)} (U+{ord(character):04X})"
    if code == 0x22:
        return "'\"' (22h)"  # the notation has no quoted form for the quote itself
    return f"{notation.show_code(code)} ({code:02X}h)"


def _totals(steps: Sequence[StepVerdict]) -> list[str]:
    verdicts = [step.verdict for step in steps]
    return [f"{verdicts.count(word)} {word}" for word in VERDICTS_SHOWN if word in verdicts]
