"""A wrong screen is shown now and then: it is answered, and says nothing of the board."""

import dataclasses

import pytest

from helpers.bench import Says, look
from helpers.run_bench import RunBench
from termprobe.journal.attention import AttentionChecked
from termprobe.journal.known_fault import KnownFault
from termprobe.journal.records import AS_EXPECTED, DIFFERS, DUMP, UNSURE, Answer, Answered, Noted
from termprobe.observer.base import BACK, REPEAT, SLOWER, STOP, Remark, Wish
from termprobe.plan.model import Group
from termprobe.runner.attention import Attention
from termprobe.runner.walk import carry_out

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)
A, B = look("a"), look("b", groups=(Group(b"BYE", "text"),), continues=True)
WRONG = {
    "b": dataclasses.replace(B, id="attention/b", groups=(Group(b"XXX", "text"),)),
}


def bench_of(folder, *said, wrong_looks=WRONG, **options):
    says = Says(*said, **options)
    return RunBench(folder, A, B, observers=[says], wrong_looks=wrong_looks), says


@pytest.mark.parametrize("answer, caught, missed", [(NO, True, False), (YES, False, True)])
def test_the_check_is_answered_first_and_the_right_screen_is_sent_whole_again(
    tmp_path, answer, caught, missed
):
    bench, says = bench_of(tmp_path, YES, answer, YES)
    assert carry_out(bench.run)
    assert says.asked == ["a", "b", "b"] and bench.verdicts() == ["pass", "pass"]
    assert bench.sent() == b"\x1aHELLOXXX\x1aHELLOBYE"
    (checked,) = bench.records(AttentionChecked)
    assert (checked.step, checked.is_caught, checked.is_missed) == ("b", caught, missed)
    assert [one.step for one in bench.records(Answered)] == ["a", "b"]
    assert checked in bench.told(AttentionChecked)


def test_a_check_that_was_answered_is_not_made_again_and_one_that_was_not_is(tmp_path):
    bench, _ = bench_of(tmp_path, YES, Wish(STOP))
    assert not carry_out(bench.run) and not bench.records(AttentionChecked)
    assert not carry_out(bench.resumed(Says(NO, Wish(STOP))))
    assert len(bench.records(AttentionChecked)) == 1
    last = Says(YES)
    assert carry_out(bench.resumed(last)) and last.asked == ["b"]


def test_wishes_in_a_check_are_met_and_a_remark_is_told_apart(tmp_path):
    said = (YES, Wish(REPEAT), Wish(SLOWER), Remark("odd"), Answer(UNSURE), YES)
    bench, says = bench_of(tmp_path, *said)
    assert carry_out(bench.run)
    assert bench.sent().count(b"XXX") == 3 and bench.sent().count(b"BYE") == 1
    assert bench.records(Noted)[0].text == "of a wrong screen shown on purpose: odd"
    (checked,) = bench.records(AttentionChecked)
    assert not checked.is_caught and not checked.is_missed


def test_back_in_a_check_goes_back_and_the_step_gone_back_from_is_asked_as_it_is(tmp_path):
    bench, says = bench_of(tmp_path, YES, Wish(BACK), NO, NO, YES)
    assert carry_out(bench.run)
    assert says.asked[:3] == ["a", "b", "a"] and bench.verdicts()[0] == "fail"


def test_a_dump_is_never_checked_nor_a_look_with_an_answer_nor_with_a_known_fault(tmp_path):
    bench, says = bench_of(tmp_path, strength=DUMP)
    carry_out(bench.run)
    assert says.asked == ["a", "b"] and not bench.records(AttentionChecked)
    other = tmp_path / "other"
    other.mkdir()
    bench, _ = bench_of(other)
    attention, step = Attention(bench.run), bench.plan.step("b")
    assert attention.is_due(step) and not attention.is_due(bench.plan.step("a"))
    bench.journal.append(KnownFault("x"))
    assert not attention.is_due(step)


def test_a_wrong_screen_that_something_else_was_sent_over_is_no_check_any_more(tmp_path):
    bench, _ = bench_of(tmp_path)
    attention, step = Attention(bench.run), bench.plan.step("b")
    assert attention.show(step)
    attention.drop()
    assert attention.take(step, YES) is None
