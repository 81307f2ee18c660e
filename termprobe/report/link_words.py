"""The links over which a run went, a line each."""

import datetime
from collections.abc import Sequence

from termprobe.journal.spans import LinkSpan
from termprobe.plan.model import Plan
from termprobe.report.facts.numbers import counted
from termprobe.report.facts.times import clock_time
from termprobe.report.headline import IN_PRACTICE

STEPS_NAMED = 8
"""Of more steps than these the stages are named."""


def lines(
    spans: Sequence[LinkSpan], plan: Plan, zone: datetime.tzinfo | None = None
) -> tuple[str, ...]:
    """Return what is told of each link: its times, in `zone`, and what was answered over it.

    Where some are practice, the steps are named that were answered over these. Without any link
    that is the word none.
    """
    if not spans:
        return ("none",)
    is_mixed = len({span.is_practice for span in spans}) > 1
    return tuple(_line(span, plan, is_mixed, zone) for span in spans)


def _line(span: LinkSpan, plan: Plan, is_mixed: bool, zone: datetime.tzinfo | None) -> str:
    times = f"{clock_time(span.start, zone)} to {clock_time(span.end or span.start, zone)}"
    told = f"{_called(span)}, {times}, {counted(len(span.steps), 'step')} answered"
    if is_mixed and span.is_practice and span.steps:
        told += f": {', '.join(_named(span, plan))}"
    return told


def _called(span: LinkSpan) -> str:
    link = span.link
    called = " ".join(filter(None, (link.name, link.format, link.note)))
    return f"{called}, {IN_PRACTICE.lower()}" if span.is_practice else called


def _named(span: LinkSpan, plan: Plan) -> Sequence[str]:
    """Return the steps answered over a link by their titles, of many the stages with how many."""
    if len(span.steps) <= STEPS_NAMED:
        return tuple(map(plan.title_of, span.steps))
    stages = [plan.step(step_id).stage for step_id in span.steps if step_id in plan.index]
    counted_ = [(stage.title, stages.count(stage.id)) for stage in plan.stages]
    return [f"{title} {count}" for title, count in counted_ if count]
