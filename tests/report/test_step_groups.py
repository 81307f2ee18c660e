"""Steps that were not tried are a line for each cause, however many they are."""

import dataclasses

from helpers.reports import report, step
from termprobe.report.step_groups import step_groups
from termprobe.verdict.model import Blocked, Returned, Silent, Unfitted


def test_each_cause_is_one_group_with_its_stages_by_title():
    steps = [
        step("fail"),
        step("unanswered", "b"),
        step("unanswered", "c", stage="looks"),
        step("blocked", "d", because=Blocked(("a",))),
        step("blocked", "e", because=Blocked(("d", "a"))),
        step("blocked", "f", because=Silent(Returned(b"a", b""))),
        step("not-fitted", "g", because=Unfitted("no bell")),
        step("not-fitted", "h", because=Unfitted("no tab")),
    ]
    made = report(*steps)
    told = [(group.verdict, group.in_words()) for group in step_groups(made.plan, made.verdict)]
    assert told == [
        ("unanswered", "2 steps: The serial line 1, Looks 1"),
        ("blocked", '2 steps, since "A step" failed: The serial line 2'),
        ("blocked", "1 step, nothing has ever come back over the line: The serial line 1"),
        ("not-fitted", "2 steps, not part of this terminal: The serial line 2"),
    ]


def test_where_all_was_tried_there_is_none():
    made = report(step("pass"))
    assert step_groups(made.plan, dataclasses.replace(made.verdict)) == ()
