"""The links over which a run went, a line each."""

from collections.abc import Sequence

from termprobe.journal.spans import LinkSpan
from termprobe.plan.model import Plan
from termprobe.report.headline import IN_PRACTICE

STEPS_NAMED = 8
"""Of more steps than these the stages are named."""


def lines(spans: Sequence[LinkSpan], plan: Plan) -> tuple[str, ...]:
    """Return what is told of each link; of several also the times, and what was answered over it.

    Where some are practice, the steps are named that were answered over these. Without any link
    that is the word none.
    """
    if not spans:
        return ("none",)
    if len(spans) == 1:
        return (_called(spans[0]),)
    is_mixed = len({span.is_practice for span in spans}) > 1
    return tuple(_of_several(span, plan, is_mixed) for span in spans)


def _called(span: LinkSpan) -> str:
    link = span.link
    called = " ".join(filter(None, (link.name, link.format, link.note)))
    return f"{called}, {IN_PRACTICE.lower()}" if span.is_practice else called


def _of_several(span: LinkSpan, plan: Plan, is_mixed: bool) -> str:
    count = len(span.steps)
    steps = "1 step" if count == 1 else f"{count} steps"
    told = f"{_called(span)}, {span.start} to {span.end}, {steps} answered"
    if is_mixed and span.is_practice and span.steps:
        told += f": {', '.join(_named(span, plan))}"
    return told


def _named(span: LinkSpan, plan: Plan) -> Sequence[str]:
    """Return the steps answered over a link by their ids, of many the stages with how many."""
    if len(span.steps) <= STEPS_NAMED:
        return span.steps
    stages = [plan.step(step_id).stage for step_id in span.steps if step_id in plan.index]
    counted = [(stage.title, stages.count(stage.id)) for stage in plan.stages]
    return [f"{title} {count}" for title, count in counted if count]
