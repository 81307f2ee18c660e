"""States of the session on the plan of bench_plan.py, and what the console shows of them."""

import dataclasses

from helpers.bench_plan import PROFILE, full_plan
from helpers.predicted import predictions_of
from termprobe.journal.records import Answer, Answered
from termprobe.link.base import LineFormat
from termprobe.runner.course import Course, course_of
from termprobe.session.draw.console_rows import draw_console
from termprobe.session.messages import Judged
from termprobe.session.react import dispatch, hearing
from termprobe.session.state import State

LINE = LineFormat(9600, 7, "even", 1)
OF_COURSE = {field.name for field in dataclasses.fields(Course)}


def course(records=(), plan=None, **changes):
    """Return the course of a run; `changes` are fields of it that the records do not tell."""
    made = course_of(full_plan() if plan is None else plan, records)
    return dataclasses.replace(made, **changes)


def state(step_id="hello", mode="look", **changes):
    """Return a state whose screen has long been there.

    `changes` are fields of it, or of its course.
    """
    of_course = {name: value for name, value in changes.items() if name in OF_COURSE}
    of_state = {name: value for name, value in changes.items() if name not in OF_COURSE}
    made = State(
        course(**of_course),
        PROFILE,
        LINE,
        "board 0007",
        "/dev/ttyUSB0",
        mode=mode,
        step_id=step_id,
        ready_at_s=-9.0,
    )
    if mode == "choosing":
        of_state.setdefault("predictions", predictions_of(made.step))
    return dataclasses.replace(made, **of_state)


def after(made, *keys, now_s=0.0):
    """Return the state after some keys."""
    for key in keys:
        made = dispatch.press(made, key, now_s)[0]
    return made


def asked_by(made, key, now_s=0.0):
    """Return what a key asks of the worker."""
    return dispatch.press(made, key, now_s)[1]


def after_event(made, event, now_s=0.0):
    """Return the state after an event."""
    return hearing.hear(made, event, now_s)[0]


def rows_of(drawn):
    """Return the texts of rows."""
    return ["".join(text for _, text in row) for row in drawn]


def console(made, columns=100, rows=32):
    """Return what the console shows."""
    return "\n".join(row.rstrip() for row in rows_of(draw_console(made, columns, rows)))


def answers(*pairs):
    """Return the records of (step, word) pairs of answers."""
    return [Answered(name, Answer(word), f"hash of {name}") for name, word in pairs]


def judged(records, next_id, step_id=None, is_held=False, **of_course):
    """Return the event that the run has got to `records`, and that `next_id` comes next.

    The steps before that one are passed over; None passes over all.
    """
    made = course(records, **of_course)
    ids = [step.id for step in made.plan.steps]
    count = len(ids) if next_id is None else ids.index(next_id)
    passed = dataclasses.replace(made, left_open=frozenset(ids[:count]))
    event = Judged(passed, step_id, is_held)
    assert event.next_id == next_id
    return event
