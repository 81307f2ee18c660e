"""The stages of a run with their steps, and what was not tried or is not there. Pure."""

import datetime
from collections.abc import Collection
from dataclasses import dataclass

from termprobe.plan.model import KeyPress, Plan, Stage
from termprobe.report.facts.cause_lines import CauseLine
from termprobe.report.facts.numbers import counted, listed
from termprobe.report.facts.steps import AnswersOfSteps, StepFacts, answers_of, step_facts
from termprobe.report.record import RunReport
from termprobe.report.step_groups import NOT_OF_THIS_TERMINAL, NOT_TRIED, StepGroup, step_groups
from termprobe.verdict import model
from termprobe.verdict.counts import counts
from termprobe.verdict.model import StepVerdict


@dataclass(frozen=True)
class StageFacts:
    """A stage, and those of its steps that were tried or have something to be told."""

    id: str
    title: str
    caution: str
    totals: str
    """`3 pass, 1 fail`, what is not there left out."""
    steps: tuple[StepFacts, ...]
    right_presses: int = 0
    """So many presses of single keys came with their codes; they are not among the steps."""
    explained_presses: int = 0
    """So many failed by a cause that is told; they are not among the steps either."""
    explained: tuple[str, ...] = ()
    """Ids of those of its steps that failed by a cause that another step is told for."""


def stages(
    report: RunReport, causes: Collection[CauseLine], zone: datetime.tzinfo | None
) -> tuple[StageFacts, ...]:
    """Return the stages of which anything is to be told, in order."""
    answers = answers_of(report)
    explained = {step for cause in causes if cause.fault for step in cause.steps[1:]}
    found = (_stage(report, stage, answers, explained, zone) for stage in report.plan.stages)
    return tuple(stage for stage in found if stage.steps or stage.right_presses)


def _stage(
    report: RunReport,
    stage: Stage,
    answers: AnswersOfSteps,
    explained: Collection[str],
    zone: datetime.tzinfo | None,
) -> StageFacts:
    own = [step for step in report.verdict.steps if step.stage == stage.id]
    fitted = [step for step in own if step.verdict != model.NOT_FITTED]
    plain = {step.id for step in own if _is_plain_press(report, step)}
    right = [step for step in own if step.id in plain and step.verdict == model.PASS]
    failed = [step for step in own if step.id in plain and step.id in explained]
    bundled = {step.id for step in (*right, *failed)}
    told = [
        step
        for step in own
        if step.id not in bundled and (step.verdict not in NOT_TRIED or _has_notes(report, step))
    ]
    return StageFacts(
        stage.id,
        stage.title,
        stage.caution or "",
        ", ".join(counts(fitted).in_words()),
        tuple(step_facts(report, step, answers, zone) for step in told),
        len(right),
        len(failed),
        tuple(step.id for step in told if step.id in explained),
    )


def _is_plain_press(report: RunReport, step: StepVerdict) -> bool:
    """Return whether nothing but its verdict is to be told of a press of one key."""
    if step.id not in report.plan.index or _has_notes(report, step) or step.earlier:
        return False
    asked = report.plan.step(step.id)
    return isinstance(asked, KeyPress) and not asked.press.held


def _has_notes(report: RunReport, step: StepVerdict) -> bool:
    return any(note.step == step.id for note in report.noted) or bool(step.earlier)


def not_tried(report: RunReport) -> tuple[StepGroup, ...]:
    """Return the groups of steps that this terminal has and that were not tried."""
    groups = step_groups(report.plan, report.verdict)
    return tuple(group for group in groups if group.cause != NOT_OF_THIS_TERMINAL)


def not_there(plan: Plan, verdict: model.RunVerdict) -> str:
    """Return in one line what of the script this terminal does not have; empty for nothing.

    `34 steps try what this terminal does not have: Tabs, Replies, and single steps of 5 stages`.
    """
    lacking = [step for step in verdict.steps if _is_lacking(step)]
    if not lacking:
        return ""
    stages_ = {step.stage for step in lacking}
    had = {step.stage for step in verdict.steps if not _is_lacking(step)}
    whole = [stage.title for stage in plan.stages if stage.id in stages_ - had]
    parts = len(stages_ & had)
    if parts:
        whole.append(f"single steps of {counted(parts, 'stage')}")
    told = counted(len(lacking), "step")
    verb = "tries" if len(lacking) == 1 else "try"
    return f"{told} of the script {verb} what this terminal does not have: {listed(whole)}"


def _is_lacking(step: StepVerdict) -> bool:
    """Return whether the terminal does not have what a step tries; not where the line cannot."""
    return step.verdict == model.NOT_FITTED and not step.answers
