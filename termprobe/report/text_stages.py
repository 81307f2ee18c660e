"""The stages of a run as lines of plain text. Pure."""

from collections.abc import Iterator

from termprobe.folding import folded
from termprobe.report.facts.numbers import counted
from termprobe.report.facts.stages import StageFacts
from termprobe.report.facts.steps import StepFacts
from termprobe.report.facts.tones import BAD
from termprobe.report.text_screens import screen_lines

WIDTH = 80
SENT_SHOWN = 4
_BESIDE = " " * 15
"""Where stands what is told of a step."""


def stage_lines(stage: StageFacts) -> list[str]:
    """Return the lines on a stage: its totals, then its steps with what speaks for each."""
    lines = folded("  ", f"{stage.title}: {stage.totals}", WIDTH)
    if stage.right_presses:
        lines.append(f"    {'pass':<11}{stage.right_presses} presses, each with its code")
    covered = [step.title for step in stage.steps if step.is_covered]
    if covered:
        told = f"{len(covered)} by others that passed: {'; '.join(covered)}"
        lines += folded(f"    {'pass':<11}", told, WIDTH, 15)
    told_above = stage.explained_presses + len(stage.explained)
    if told_above:
        lines.append(f"    {'FAIL':<11}{told_above} more by a cause that is told above")
    for step in stage.steps:
        if step.id not in stage.explained and not step.is_covered:
            lines += _step(step)
        elif step.notes:
            lines += _noted(step, f"{step.title}: ")
    return lines


def _step(step: StepFacts) -> list[str]:
    word = "FAIL" if step.tone == BAD else step.verdict
    told = step.title
    if step.reason:
        told += f": {step.reason}"
    lines = folded(f"    {word:<11}", told, WIDTH, 15)
    if step.re_answered:
        lines += folded(_BESIDE, step.re_answered, WIDTH)
    if step.tone == BAD:
        for text in _evidence(step):
            lines += folded(f"{_BESIDE}- ", text, WIDTH)
        if step.screen is not None:
            lines += screen_lines(step.screen, "    ")
    lines += _noted(step, "")
    return lines + [f"{_BESIDE}{row}" for row in step.drawn]


def _evidence(step: StepFacts) -> Iterator[str]:
    """Yield what speaks for a failure, and what was sent."""
    yield from step.evidence
    yield from step.cells
    sent = [f"{group.what} {group.bytes}".strip() for group in step.sent[:SENT_SHOWN]]
    left_out = len(step.sent) + step.groups_left_out - len(sent)
    if left_out:
        sent.append(f"and {counted(left_out, 'more piece')}")
    if sent:
        yield f"sent, {counted(step.sent_bytes, 'byte')}: {'; '.join(sent)}"


def _noted(step: StepFacts, name: str) -> list[str]:
    told = (f"{name}noted {note.time}: {note.told}" for note in step.notes)
    return [line for text in told for line in folded(_BESIDE, text, WIDTH)]
