"""Looks on whose answer the cause hangs: just those where one slip would bring another first."""

from helpers.dictionaries import of_acceptance
from helpers.scripts import SINGLE, acceptance
from helpers.virtual_builders import Eyes, Reader, looks_to_play, records_of
from termprobe.diagnosis.diagnose import all_accounts, case_of, diagnose
from termprobe.diagnosis.naming import MOST_ASKED_AGAIN, name_cause
from termprobe.diagnosis.pivotal import pivotal_looks
from termprobe.diagnosis.readings import MOST_READINGS
from termprobe.diagnosis.why_next import WhyNext
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered
from termprobe.verdict.judge import judge

PLAN = acceptance()
DEAD = "decoder/dead/up"


def answered(observer=None, names=(DEAD,), looks=None, more=()):
    chosen = [one for one in looks_to_play(PLAN) if looks is None or one.id in looks]
    return [*records_of(SINGLE, PLAN, names, observer or Eyes(1), chosen), *more]


def found(records):
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    healthy = case.of_nothing()
    return pivotal_looks(case, healthy, all_accounts(case, healthy, of_acceptance()))


def once_more(look, word):
    return [AskedAgain(look), Answered(look, Answer(word), PLAN.step(look).hash)]


def test_the_only_look_that_differed_is_pivotal_and_most_of_many_are_not():
    assert "up" in found(answered(looks=("solid-2a", "up")))
    stuck = answered(names=("bank-0-data/stuck/2/0",))
    assert len(found(stuck)) <= 4 < len(looks_to_play(PLAN))


def test_no_answer_of_a_program_that_reads_screens_is_asked_again():
    assert found(answered(Reader())) == ()


def test_a_look_is_asked_again_until_one_slip_does_no_harm_and_never_for_ever():
    records = answered(looks=("up",))
    assert found(records) == ("up",)
    records += once_more("up", DIFFERS) + once_more("up", DIFFERS)
    assert found(records) == ()
    disputed = answered(looks=("up",))
    for number in range(1, MOST_READINGS):
        disputed += once_more("up", (DIFFERS, AS_EXPECTED)[number % 2])
    assert found(disputed) == ()


def test_one_slip_is_made_good_by_the_readings_behind_it():
    """One says at first that a good screen differs, twice then that it does not."""
    truth = answered(names=(), looks=("solid-2a", "up"))
    slip = [*truth[:-1], Answered("up", Answer(DIFFERS), PLAN.step("up").hash)]
    assert "up" in found(slip)
    mended = [*slip, *once_more("up", AS_EXPECTED), *once_more("up", AS_EXPECTED)]
    case = case_of(SINGLE, PLAN, mended, judge(PLAN, mended))
    (up,) = (one for one in case.observations if one.step_id == "up")
    assert [one.has_passed for one in up.readings] == [False, True, True]
    assert judge(PLAN, mended).steps[PLAN.index["up"]].verdict == "pass"


def test_a_cause_is_named_only_once_it_hangs_on_no_single_answer():
    """Yes and no to all looks: named at once, were it not for the answers that it hangs on."""
    records = answered(names=("bank-0-data/stuck/2/0",))
    asked = []
    found = name_cause(SINGLE, PLAN, records, judge(PLAN, records), of_acceptance())
    while found.cause is None and found.next is not None:
        asked.append(found.next)
        records += once_more(found.next, said_before(records, found.next))
        found = name_cause(SINGLE, PLAN, records, judge(PLAN, records), of_acceptance())
    assert 0 < len(asked) <= MOST_ASKED_AGAIN
    assert found.cause.fault == "bank-0-data/stuck/2/0"


def said_before(records, look):
    """Return the word that was answered to `look` last."""
    words = [one.answer.word for one in records if isinstance(one, Answered) and one.step == look]
    return words[-1]


def test_where_no_look_tells_more_the_next_one_is_one_that_was_answered():
    records = answered()
    conclusion = diagnose(SINGLE, PLAN, records, judge(PLAN, records), of_acceptance())
    assert conclusion.why_next is WhyNext.HANGS and conclusion.next in of_acceptance().looks
    read = answered(Reader())
    of_read = diagnose(SINGLE, PLAN, read, judge(PLAN, read), of_acceptance())
    assert of_read.why_next is WhyNext.TELLS_MOST
