"""The steps of the plan with their verdicts, as lists.

Pure.
"""

import itertools

from termprobe.plan.model import Plan, Step
from termprobe.report import words
from termprobe.session.draw.fit import cut, pad
from termprobe.session.draw.rows import Row, Rows, part_around, plain
from termprobe.session.mode import View
from termprobe.session.state import State
from termprobe.verdict.counts import counts
from termprobe.verdict.model import (
    BLOCKED,
    DISPUTED,
    FAIL,
    NOT_FITTED,
    PASS,
    SKIPPED,
    UNANSWERED,
    UNSURE,
)

VERDICT_MARKS = {
    PASS: "+",
    FAIL: "x",
    UNSURE: "?",
    DISPUTED: "!",
    SKIPPED: "-",
    BLOCKED: "#",
    NOT_FITTED: "o",
    UNANSWERED: ".",
}
"""A mark for each verdict, beside its word and colour."""
VERDICT_STYLES = {PASS: "class:pass", FAIL: "class:fail"}


def entries(plan: Plan) -> list[str | Step]:
    """Return the ids of the stages, each followed by its steps."""
    found: list[str | Step] = []
    for stage_id, steps in itertools.groupby(plan.steps, key=lambda step: step.stage):
        found += [stage_id, *steps]
    return found


def index_of(listed: list[str | Step], step: Step) -> int:
    """Return where a step stands in such a list, 0 where it does not."""
    return next((index for index, entry in enumerate(listed) if entry is step), 0)


def steps_around(view: View) -> Rows:
    """Return the steps around the one in hand under the titles of their stages, each in a row."""
    state = view.state
    listed = entries(state.plan)
    part = part_around(index_of(listed, state.step), len(listed), view.rows)
    return [_short_row(state, entry, view.columns) for entry in listed[part]]


def _short_row(state: State, entry: str | Step, columns: int) -> Row:
    """Return the row of a step, or of a stage's title."""
    if isinstance(entry, str):
        titles = {stage.id: stage.title for stage in state.plan.stages}
        return plain(cut(titles.get(entry, entry), columns), "class:strong")
    word = state.course.word(entry.id)
    here = ">" if entry.id == state.step_id else " "
    text = cut(f"{here}{VERDICT_MARKS[word]} {entry.title}", columns)
    return plain(text, VERDICT_STYLES.get(word, ""))


def step_row(state: State, step: Step, columns: int, is_chosen: bool = False) -> Row:
    """Return the row of a step with its verdict, the reason for it, and its id if there is room."""
    word = state.course.word(step.id)
    text = f" {_pointer(state, step, is_chosen)} {VERDICT_MARKS[word]} {word:<10} {step.title}"
    reason = words.reason(state.course.verdict(step.id), state.plan.title_of)
    if reason:
        text += f"  ({reason})"
    style = VERDICT_STYLES.get(word, "")
    if is_chosen:
        style += " class:chosen"
    return plain(_with_id(pad(text, columns), step.id), style)


def _with_id(row: str, step_id: str) -> str:
    """Return a row with the id of its step at the end: reports go by ids."""
    told = f"  {step_id} "
    if row.endswith(" " * len(told)):
        return row.removesuffix(" " * len(told)) + told
    return row


def _pointer(state: State, step: Step, is_chosen: bool) -> str:
    if is_chosen:
        return ">"
    return "*" if step.id == state.step_id else " "


def stage_title(state: State, stage_id: str) -> str:
    """Return a stage's number of how many, and its title; empty where there is no such stage."""
    titles = [stage.title for stage in state.plan.stages if stage.id == stage_id]
    return f"{stage_number(state, stage_id)}: {titles[0]}" if titles else ""


def stage_number(state: State, stage_id: str) -> str:
    """Return a stage's number of how many; empty where there is no such stage."""
    ids = [stage.id for stage in state.plan.stages]
    return f"stage {ids.index(stage_id) + 1} of {len(ids)}" if stage_id in ids else ""


def stage_counts(state: State, stage_id: str) -> str:
    """Return how far a stage is, in marks and numbers."""
    found = counts(state.course.verdict(step.id) for step in state.plan.of_stage(stage_id))
    told = [text for text in found.in_words() if not text.endswith(f" {UNANSWERED}")]
    if found.left:
        told.append(f"{found.left} left")
    return ", ".join(told)
