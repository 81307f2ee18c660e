"""Which region is asked about: what parts the causes, and what puts the leading one to the test."""

import pytest

from helpers.dictionaries import of_acceptance
from helpers.scripts import SINGLE, acceptance
from termprobe.diagnosis.narrowing import MOST_QUESTIONS, looked_at, region_to_ask
from termprobe.diagnosis.pictures import pictures
from termprobe.diagnosis.regions import numbers_of
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import DIFFERS, Answer, Answered, Sent, StepBegun
from termprobe.verdict.judge import judge

PLAN = acceptance()
STARS, TAGS = PLAN.step("solid-2a"), PLAN.step("row-tags")


def sent(step):
    return [StepBegun(step.id, step.hash), *(Sent(step.id, one.data) for one in step.groups)]


def asked(step, *before):
    records = [*before, *sent(step)]
    seen = looked_at(SINGLE, PLAN, records, judge(PLAN, records), of_acceptance(), step)
    return region_to_ask(seen, step.id, of_acceptance()), seen


def depth(region):
    if region is None:
        return 0
    return 1 + max(depth(region.if_wrong), depth(region.if_right))


def test_a_few_questions_are_asked_and_each_tells_more_than_the_last_did():
    first, _ = asked(STARS)
    assert 0 < depth(first) <= MOST_QUESTIONS
    assert first.words in numbers_of(24, 80)
    for following in (first.if_wrong, first.if_right):
        assert following is None or following.words != first.words


def share_of(name, seen):
    return sum(share for share, account in seen.ranked if account.cause.name == name)


@pytest.mark.parametrize("name", ["bank-1-data/stuck/1/0", "column-counter/stuck/5/0"])
def test_what_is_said_of_regions_brings_the_true_fault_forward(name):
    region, before = asked(STARS)
    number = of_acceptance().looks.index("solid-2a")
    sight = of_acceptance().faults[name].alone[number]
    said = []
    while region is not None:
        is_wrong = bool(sight.where >> numbers_of(24, 80)[region.words] & 1)
        said.append((region.words, is_wrong))
        region = region.after(is_wrong)
    told = Answered("solid-2a", Answer(DIFFERS, regions=tuple(said)), STARS.hash)
    plain = Answered("solid-2a", Answer(DIFFERS), STARS.hash)
    _, with_regions = asked(TAGS, *sent(STARS), told)
    _, without = asked(TAGS, *sent(STARS), plain)
    assert share_of(name, with_regions) > share_of(name, without)


def test_pictures_come_with_the_question_for_who_sees_none_of_them():
    records = sent(STARS)
    found = pictures(SINGLE, PLAN, records, judge(PLAN, records), of_acceptance(), "solid-2a")
    assert found.region == asked(STARS)[0]


def test_pictures_that_were_none_are_not_offered_once_more():
    """Who looks once more has said of these already that what is seen is none of them."""
    first = pictures_of(STARS)
    none = Answered(STARS.id, Answer(DIFFERS, offered=first.offered), STARS.hash)
    again = pictures_of(STARS, *sent(STARS), none, AskedAgain(STARS.id))
    assert len(again.offered) > 4 and not set(again.offered) & set(first.offered)


def pictures_of(step, *before):
    records = [*before, *sent(step)]
    return pictures(SINGLE, PLAN, records, judge(PLAN, records), of_acceptance(), step.id)
