"""What of a run's answers is evidence, and as what."""

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Eyes, Reader, records_of
from termprobe.diagnosis.answers import LookAnswer, TypedAnswer, evidence_of
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DISPUTED,
    SKIPPED,
    UNSURE,
    Answer,
    Answered,
    Sent,
    StepBegun,
)
from termprobe.terminal.screen import UNKNOWN_CHARACTER
from termprobe.verdict.judge import judge

TYPED = '{id: typed, kind: typed-back, title: T, question: Q, word: "#.4FY"}'
PLAN = plan_of([look("one", [{"text": "HELLO"}]), look("two", [{"text": "WORLD"}]), TYPED])


def evidence(*answers):
    records = [Answered(step, answer) for step, answer in answers]
    return evidence_of(PLAN, records, judge(PLAN, records))


def test_a_word_of_eyes_is_a_yes_or_a_no():
    one, two = evidence(("one", Answer(AS_EXPECTED)), ("two", Answer(DIFFERS)))
    assert (one.has_passed, two.has_passed) == (True, False)
    assert one.codes is one.marks is two.codes is two.marks is None
    assert one.wanted.codes.startswith(b"HELLO ") and len(one.wanted.codes) == 24 * 80


def test_what_says_nothing_is_no_evidence():
    for word in (UNSURE, DISPUTED, SKIPPED):
        assert evidence(("one", Answer(word))) == ()
    assert evidence() == ()


def test_an_answer_to_a_step_that_has_changed_since_is_none():
    records = [Answered("one", Answer(DIFFERS), hash="of another step")]
    assert evidence_of(PLAN, records, judge(PLAN, records)) == ()


def test_marks_are_cells_with_what_is_seen_there_where_it_was_told():
    expected = PLAN.step("one").expected.rows
    seen = (f"{UNKNOWN_CHARACTER}GLLO" + expected[0][5:], *expected[1:])
    (one,) = evidence(("one", Answer(DIFFERS, seen=seen)))
    assert one.marks == {0: None, 1: ord("G")} and one.codes is None and one.cells == 2


def test_a_screen_that_was_read_is_whole_and_blanks_may_be_left_out_of_it():
    (one,) = evidence(("one", Answer(DIFFERS, seen=("JELLO",), strength=2)))
    assert one.codes == b"JELLO".ljust(24 * 80) and one.cells == 1 and one.sight is None


def test_a_word_typed_back_stands_where_the_screen_has_it():
    (one,) = evidence(("typed", Answer(DIFFERS, data=b"#.4FQ\r")))
    expected = "".join(PLAN.step("typed").expected.rows)
    assert isinstance(one, TypedAnswer) and not one.has_passed
    assert expected[one.first_cell :].startswith("#.4FY") and one.wanted == b"#.4FY\r"


def test_the_last_answer_counts():
    (one,) = evidence(("one", Answer(DIFFERS)), ("one", Answer(AS_EXPECTED)))
    assert isinstance(one, LookAnswer) and one.has_passed


def test_a_played_run_is_evidence_of_every_look():
    for observer in (Eyes(1), Reader()):
        records = records_of(SINGLE, PLAN, [], observer)
        assert [type(record) for record in records[:2]] == [StepBegun, Sent]
        found = evidence_of(PLAN, records, judge(PLAN, records))
        assert [one.step_id for one in found] == ["one", "two"]
        assert all(one.has_passed for one in found)
