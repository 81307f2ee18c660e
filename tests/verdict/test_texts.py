"""Which text each answer of a run was given under."""

import dataclasses

from helpers.bench import plan
from helpers.bench_plan import step
from termprobe.journal.records import AS_EXPECTED, Answer, Answered, Resumed, TakenBack
from termprobe.plan.earlier import EarlierForms
from termprobe.verdict.judge import judge
from termprobe.verdict.texts import EarlierAnswer, TextInForce, texts_used


def rail(step_id, low, hash):
    return step(step_id, "s", "measure", unit="V", low=low, high=5.25, hash=hash)


SAME, GONE = rail("same", 4.75, "same"), rail("gone", 4.75, "gone")
FIRST = plan(SAME, GONE, rail("wide", 4.75, "narrow"))
LAST = dataclasses.replace(
    plan(rail("new", 4.75, "new"), SAME, rail("wide", 4.5, "wide")),
    earlier=EarlierForms(gone=frozenset({"gone"})),
)


def read(step_id, hash, volts=4.6):
    return Answered(step_id, Answer(AS_EXPECTED, value=volts), hash)


BEFORE = (read("same", "same", 5.0), read("gone", "gone"), read("wide", "narrow"))


def used(*after):
    records = [*BEFORE, Resumed(), *after]
    texts = [TextInForce(FIRST), TextInForce(LAST, "later", len(BEFORE), ("script",))]
    return texts_used(texts, records, judge(LAST, records))


def earlier(found):
    return [(one.text, one.then.id, one.then.verdict, one.now) for one in found.earlier]


def test_without_a_change_there_is_nothing_to_tell():
    texts = [TextInForce(FIRST), TextInForce(FIRST, "later", 3)]
    assert texts_used(texts, BEFORE, judge(FIRST, BEFORE)) is None


def test_an_answer_to_the_same_step_is_judged_under_the_text_of_then():
    found = used(read("new", "new", 5.0))
    assert found.judged == (("same",), ("new",))
    assert used(read("same", "same", 5.0)).judged == ((), ("same",)), "the last answer counts"
    assert used(TakenBack("same")).judged == ((), ())


def test_answers_that_count_no_more_keep_the_verdict_that_they_had():
    expected = [(1, "gone", "fail", None), (1, "wide", "fail", "unanswered")]
    assert earlier(used()) == expected
    assert earlier(used(read("wide", "wide")))[1] == (1, "wide", "fail", "pass")
    assert isinstance(used().earlier[0], EarlierAnswer)
