"""What a silent line says of steps whose answers count, have changed, or may be lost."""

import dataclasses

from helpers.bench import plan
from helpers.bench_plan import step
from termprobe.journal.lost import LostRecords
from termprobe.journal.records import Answer, Answered, Arrived, StepBegun
from termprobe.plan.earlier import EarlierForms
from termprobe.verdict.judge import judge
from termprobe.verdict.model import Changed, MayBeLost, Silent

REPLY = step("r", "s", "reply", reply=b"ok")
NOTHING = Answered("r", Answer(data=b""), REPLY.hash)


def of_reply(*records, earlier=None):
    made = plan(REPLY)
    if earlier is not None:
        made = dataclasses.replace(made, earlier=earlier)
    found = judge(made, records).steps[0]
    return found.verdict, type(found.because)


def test_nothing_that_came_while_nothing_ever_had_blocks_and_is_asked_again_later():
    assert of_reply(NOTHING) == ("blocked", Silent)
    assert of_reply(NOTHING, Arrived(None, b"x")) == ("unanswered", Silent)


def test_what_was_not_heard_under_another_text_says_only_that_the_step_changed():
    other = dataclasses.replace(NOTHING, hash="other")
    assert of_reply(other) == ("unanswered", Changed)
    assert of_reply(other, NOTHING) == ("blocked", Silent)
    assert of_reply(NOTHING, other) == ("unanswered", Changed)
    same = EarlierForms(same={"r": frozenset({"other"})})
    assert of_reply(other, earlier=same) == ("blocked", Silent)


def test_what_may_have_been_answered_since_is_in_doubt_and_not_silent():
    begun = StepBegun("r", REPLY.hash)
    lost = LostRecords(records=1)
    assert of_reply(begun, NOTHING, lost) == ("unanswered", MayBeLost)
