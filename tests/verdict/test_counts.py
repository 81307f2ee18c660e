"""There is one way of counting steps: those that this board has."""

from helpers.reports import step
from termprobe.verdict.counts import counts
from termprobe.verdict.model import Covered

STEPS = (
    step("pass"),
    step("pass", "b", because=Covered(("a",))),
    step("fail", "c"),
    step("unanswered", "d"),
    step("not-fitted", "e"),
)


def test_what_is_not_fitted_is_left_out_and_what_is_covered_is_named_so():
    found = counts(STEPS)
    assert (found.all, found.done, found.left, found.covered, found.not_fitted) == (4, 3, 1, 1, 1)
    assert found.of("pass", "fail") == 3
    assert found.in_words() == (
        "2 pass (1 covered)",
        "1 fail",
        "1 unanswered",
        "1 not-fitted",
    )


def test_of_no_steps_there_is_nothing_to_tell():
    assert counts(()).in_words() == () and counts(()).all == 0
