"""Runs as plain text, 80 columns wide, safe for any console and printer."""

from collections.abc import Collection, Hashable, Iterable, Iterator, Sequence

from termprobe import notation
from termprobe.folding import folded
from termprobe.plan.model import KeyPress, Plan, Stage
from termprobe.report import headline as headlines
from termprobe.report import link_words, scope_words, words
from termprobe.report.after_words import lines_on_changes, new_faults_in_words
from termprobe.report.attention_words import lines_on_checks
from termprobe.report.causes import lines_on_causes
from termprobe.report.dot_lines import lines_on_dots
from termprobe.report.earlier_words import re_answered
from termprobe.report.key_findings import (
    explained_presses,
    key_lines,
    lines_on_explained,
)
from termprobe.report.known_fault_words import of_fault
from termprobe.report.record import RunReport
from termprobe.report.run_notes import at_its_step, lines_on_notes, of_step
from termprobe.report.step_groups import NOT_TRIED, step_groups
from termprobe.report.suspects import suspect_lines
from termprobe.report.text_words import texts_in_words
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Difference, ascii_of
from termprobe.verdict import model
from termprobe.verdict.counts import counts
from termprobe.verdict.evidence import code_of_character
from termprobe.verdict.model import StepVerdict
from termprobe.verdict.support import likeness

WIDTH = 80
CELLS_SHOWN = 4
ONE_CAUSE = "presses with one cause, told above"
STEPS_WITH_ONE_CAUSE = "with one cause, told above"
_BESIDE = " " * 15
"""Where stands what is told beside the verdict of a step."""


def render(reports: Sequence[RunReport]) -> str:
    """Return the reports one after another; the first word of each says the verdict."""
    return "\n".join(map(page, reports))


def page(report: RunReport) -> str:
    """Return one report."""
    lines = [*folded("", headline(report), WIDTH), *_below_headline(report), "", *_identity(report)]
    lines += lines_on_changes(report.changes)
    failed = [step for step in report.verdict.steps if step.verdict == model.FAIL]
    of_causes = [step for cause in report.causes for step in cause.steps]
    presses = explained_presses(report.keys, report.plan, report.verdict)
    explained = (*presses, *of_causes)
    if report.diagnosis is not None:
        lines += ["", *suspect_lines(report.diagnosis, report.plan)]
    lines += _known_faults(report)
    if failed:
        lines += ["", "What failed", *lines_on_causes(report.causes, failed)]
    if report.keys is not None:
        lines += lines_on_explained(report.keys, report.plan, presses)
    for group in _alike(step for step in failed if step.id not in explained):
        lines += _evidence(group)
    lines += lines_on_dots(report.plan, failed, WIDTH)
    lines += ["", "Stage by stage"]
    for stage in report.plan.stages:
        steps = [step for step in report.verdict.steps if step.stage == stage.id]
        if any(step.verdict not in NOT_TRIED or _beside(report, step, False) for step in steps):
            lines += _stage(report, stage, steps, explained)
    for untried in step_groups(report.plan, report.verdict):
        lines += folded(f"  {untried.verdict:<13}", untried.in_words(), WIDTH)
    lines += ["", *folded("Totals   ", _totals(report), WIDTH)]
    lines += [*lines_on_checks(report.checks), *_texts(report)]
    for text in (*report.notes, *report.damages):
        lines += folded("Note     ", text, WIDTH)
    lines += lines_on_notes(report.noted)
    if report.keys is not None:
        lines += ["", *key_lines(report.keys, report.plan, report.verdict, report.scope.left_out)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _known_faults(report: RunReport) -> list[str]:
    """Return what is told of the faults that the run went on with."""
    if not report.verdict.known_faults:
        return []
    lines = ["", "Known fault, with which the run went on"]
    for fault in report.verdict.known_faults:
        lines += folded("  ", of_fault(fault), WIDTH)
    return lines


def _texts(report: RunReport) -> list[str]:
    """Return what is told of the texts, where they changed."""
    if report.texts is None:
        return []
    lines = ["", "Texts of profile and script"]
    for first, told in texts_in_words(report.texts, words.reason):
        lines += folded(first, told, WIDTH)
    return [*lines, ""]


def headline(report: RunReport) -> str:
    """Return the one line that says pass, partial, fail or incomplete, of which board, and why."""
    board = notation.visible(report.board_name)
    return headlines.headline(board, report.plan, report.verdict, report.scope)


def _below_headline(report: RunReport) -> list[str]:
    """Return the paragraphs that say how far the headline goes."""
    lines = folded("", new_faults_in_words(report.changes), WIDTH)
    lines = [line for line in lines if line]
    for text in scope_words.limits(report.verdict, report.scope, report.not_covered):
        lines += folded("", text, WIDTH)
    return lines


def _identity(report: RunReport) -> list[str]:
    header = report.header
    options = [f"{option} {position}" for option, position in report.options]
    rows = [
        ("Board", _board(report)),
        ("Profile", report.plan.profile_id),
        ("Script", f"{report.plan.script_id}, plan {report.plan.hash[:12]}"),
        *(("Link", text) for text in link_words.lines(report.links, report.plan)),
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


def _stage(
    report: RunReport, stage: Stage, steps: Sequence[StepVerdict], explained: Collection[str]
) -> list[str]:
    """Return the lines on a stage; `explained` holds the steps that one fault explains."""
    lines = [f"  {stage.title}: {', '.join(counts(steps).in_words())}"]
    right = {step.id for step in steps if _is_right_press(report.plan, step)}
    if right:
        lines.append(f"    {model.PASS:<11}{len(right)} presses, each with its code")
    alike = [step for step in steps if step.id in explained]
    if alike:
        presses = all(isinstance(report.plan.step(step.id), KeyPress) for step in alike)
        what = ONE_CAUSE if presses else STEPS_WITH_ONE_CAUSE
        lines.append(f"    {'FAIL':<11}{len(alike)} {what}")
    together = {*right, *explained}
    for step in steps:
        is_told = step.verdict not in NOT_TRIED and step.id not in together
        if is_told:
            word = "FAIL" if step.verdict == model.FAIL else step.verdict
            text = words.reason(step) or step.title
            lines += folded(f"    {word:<11}{step.id}  ", text, WIDTH, 15)
        lines += _beside(report, step, is_told)
        lines += [f"{_BESIDE}{row}" for row in words.drawing(step)]
    return lines


def _beside(report: RunReport, step: StepVerdict, is_told: bool) -> list[str]:
    """Return the lines below a step; they name it where it is not told by itself."""
    name = "" if is_told else f"{step.id}: "
    told = [re_answered(step), *map(at_its_step, of_step(report.noted, step.id))]
    return [line for text in filter(None, told) for line in folded(_BESIDE, name + text, WIDTH)]


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
        told = [reason, re_answered(first), *evidence]
    variant = first.evidence.variant if first.evidence else ""
    told += [_cell(cell, variant) for cell in first.differs[:CELLS_SHOWN]]
    if len(first.differs) > CELLS_SHOWN:
        told.append(f"and {len(first.differs) - CELLS_SHOWN} more cells")
    for text in filter(None, told):
        yield "    - ", text


def _cell(cell: Difference, variant: str) -> str:
    row, column, expected, seen = cell
    wanted = f"row {row}, column {column}: expected {_character(expected, variant)}"
    if seen == UNKNOWN_CHARACTER:
        return f"{wanted}, marked as differing"
    return f"{wanted}, seen {_character(seen, variant)}"


def _character(character: str, variant: str) -> str:
    """Return a character with its code; one of a national variant as that shows it."""
    code = code_of_character(character, variant)
    if code is not None and not character.isascii() and ascii_of(character, variant) != character:
        return f'"{character}" ({code:02X}h)'
    if code is None:
        return f"{notation.visible(character)} (U+{ord(character):04X})"
    if code == 0x22:
        return "'\"' (22h)"  # the notation has no quoted form for the quote itself
    return f"{notation.show_code(code)} ({code:02X}h)"


def _totals(report: RunReport) -> str:
    found = counts(report.verdict.steps)
    return f"{found.all} steps: {', '.join(found.in_words())}"
