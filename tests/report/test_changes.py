"""What failed then, and what fails now: which is which is told by the new run alone."""

from helpers.reports import step
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.records import Noted
from termprobe.report.changes import Changes, changes_since
from termprobe.verdict.model import RunVerdict

AFTER = ComesAfter("before.run.jsonl", failed=("a", "b", "c"), passed=("d", "e", "f"))


def verdict(**words):
    return RunVerdict("fail", tuple(step(word, step_id) for step_id, word in words.items()))


def test_each_step_is_told_by_what_it_showed_then_and_shows_now():
    now = verdict(a="pass", b="fail", c="blocked", d="fail", e="pass", f="unanswered", g="fail")
    assert changes_since([Noted("x"), AFTER], now) == Changes(
        AFTER,
        mended=("a",),
        still_failing=("b",),
        new_faults=("d",),
        first_known=("g",),
        not_proven=("c",),
        waiting=1,
    )


def test_a_run_that_comes_after_none_has_no_changes():
    assert changes_since([Noted("x")], verdict(a="fail")) is None
