"""A step whose rule is to switch off blocks what comes after it."""

import dataclasses

from helpers.bench_plan import full_plan, plan, step
from termprobe.journal.records import DIFFERS, DISPUTED, SKIPPED, Answer, Answered
from termprobe.report import words
from termprobe.verdict.judge import judge
from termprobe.verdict.model import BLOCKED, PASS, UNANSWERED
from termprobe.verdict.model import SKIPPED as LEFT_OUT
from termprobe.verdict.switch_off import steps_after, switch_off_steps

PLAN = full_plan()


def reading(value, step_id="supply-5v"):
    return Answered(step_id, Answer(value=value))


def words_of(verdict):
    return {one.id: one.verdict for one in verdict.steps}


def test_a_reading_out_of_limits_blocks_all_that_comes_after_it():
    verdict = judge(PLAN, [reading(5.5)])
    assert verdict.switch_off == ("supply-5v",)
    assert set(list(words_of(verdict).values())[1:]) == {BLOCKED}
    assert "its rule is to switch off" in words.reason(verdict.steps[-1])


def test_a_later_reading_within_limits_lifts_it_and_nothing_else_does():
    left_out = Answered("supply-5v", Answer(SKIPPED, note="later"))
    disputed = Answered("supply-5v", Answer(DISPUTED, note="it is a 5.5 V board"))
    assert judge(PLAN, [reading(5.5), left_out]).switch_off == ("supply-5v",)
    assert words_of(judge(PLAN, [reading(5.5), left_out]))["supply-5v"] == LEFT_OUT
    assert judge(PLAN, [reading(5.5), disputed]).switch_off == ("supply-5v",)
    lifted = judge(PLAN, [reading(5.5), left_out, reading(5.0)])
    assert lifted.switch_off == () and words_of(lifted)["hello"] == UNANSWERED


def test_what_was_answered_before_keeps_its_verdict():
    shown = Answered("hello", Answer("as-expected"))
    verdicts = words_of(judge(PLAN, [reading(5.0), shown, reading(5.5)]))
    assert (verdicts["hello"], verdicts["more"]) == (PASS, BLOCKED)


def test_without_a_rule_only_what_needs_the_step_is_blocked():
    free = dataclasses.replace(PLAN.step("supply-5v"), stop_if=None)
    made = plan(free, *PLAN.steps[1:])
    verdict = judge(made, [reading(5.5)])
    assert verdict.switch_off == () and words_of(verdict)["hello"] == UNANSWERED


def test_any_kind_of_step_may_have_the_rule():
    raster = step("raster", "sync", "ask", stop_if="the picture is one bright line")
    made = plan(raster, step("lamp", "sync", "ask"))
    verdict = judge(made, [Answered("raster", Answer(DIFFERS))])
    assert verdict.switch_off == ("raster",) and words_of(verdict)["lamp"] == BLOCKED


def test_the_last_answer_that_tells_decides():
    told = {"supply-5v": ["skipped", "unsure", "fail", "pass"]}
    assert switch_off_steps(PLAN, lambda step: told[step.id]) == ("supply-5v",)
    assert switch_off_steps(PLAN, lambda step: told[step.id][3:]) == ()
    assert switch_off_steps(PLAN, lambda step: []) == ()


def test_all_behind_the_first_one_is_after_it():
    ids = [step.id for step in PLAN.steps]
    assert steps_after(PLAN, ["more", "hello"]) == set(ids[2:])
    assert steps_after(PLAN, []) == set()
