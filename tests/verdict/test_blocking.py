"""What keeps steps from saying anything of a board."""

from helpers.scripts import look, plan_of
from termprobe.verdict.blocking import blocked_steps, switched_off
from termprobe.verdict.model import BLOCKED, FAIL, PASS, UNANSWERED, StepVerdict

PLAN = plan_of(
    [
        look("one", [{"text": "A"}]),
        look("two", [{"text": "B"}], needs=["one"]),
        look("three", [{"text": "C"}], needs=["two"]),
    ]
)


def verdicts(*words):
    return [
        StepVerdict(step.id, step.stage, step.title, word)
        for step, word in zip(PLAN.steps, words, strict=True)
    ]


def test_a_step_is_blocked_by_what_it_needs_and_by_what_that_needs():
    own = {step.id: step for step in verdicts(FAIL, PASS, UNANSWERED)}
    assert set(blocked_steps(PLAN, own)) == {"two", "three"}
    own = {step.id: step for step in verdicts(PASS, UNANSWERED, UNANSWERED)}
    assert not blocked_steps(PLAN, own)


def test_what_comes_after_a_board_switched_off_is_blocked_where_nothing_is_known_of_it():
    found = switched_off(verdicts(FAIL, PASS, UNANSWERED), "one", {"two", "three"})
    assert [step.verdict for step in found] == [FAIL, PASS, BLOCKED]
