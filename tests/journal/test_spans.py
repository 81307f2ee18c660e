"""Over which link a run went when, by its records."""

from termprobe.journal.lost import LostRecords
from termprobe.journal.records import (
    Answer,
    Answered,
    BoardUnderTest,
    Header,
    LineGone,
    Linked,
    LinkUsed,
    Resumed,
    TakenBack,
)
from termprobe.journal.spans import NOT_RECORDED, link_spans

PORT, SIM = LinkUsed("/dev/ttyUSB0", "9600 baud 7E1"), LinkUsed("sim:", "9600 baud 7E1")
HEADER = Header(BoardUnderTest("0007"), link=PORT, at="10:00")


def said(step_id, at):
    return Answered(step_id, Answer("as-expected"), at=at)


def test_a_run_that_goes_on_over_another_link_names_both_with_times_and_steps():
    first, second = link_spans(
        HEADER,
        [
            said("a", "10:01"),
            said("b", "10:02"),
            Resumed(at="11:00"),
            Linked(SIM, at="11:00"),
            said("b", "11:01"),
        ],
    )
    assert (first.link, first.start, first.end, first.steps) == (PORT, "10:00", "10:02", ("a",))
    assert (second.link, second.start, second.end, second.steps) == (SIM, "11:00", "11:01", ("b",))
    assert (first.is_practice, second.is_practice) == (False, True)


def test_a_record_that_is_lost_ends_no_link_at_no_time():
    (span,) = link_spans(HEADER, [said("a", "10:01"), LostRecords()])
    assert (span.start, span.end) == ("10:00", "10:01")


def test_a_link_that_comes_back_in_a_sitting_is_one():
    records = [said("a", "10:01"), LineGone("gone", at="10:02"), Linked(PORT, at="10:03")]
    (span,) = link_spans(HEADER, records)
    assert (span.end, span.steps) == ("10:03", ("a",))
    assert len(link_spans(HEADER, [Linked(SIM, at="10:03")])) == 2


def test_what_is_taken_back_was_answered_over_none():
    (span,) = link_spans(HEADER, [said("a", "10:01"), TakenBack("a", at="10:02")])
    assert span.steps == ()


def test_a_sitting_of_which_no_link_was_written_down_says_so():
    _, second = link_spans(HEADER, [Resumed(at="11:00"), said("a", "11:01")])
    assert second.link == NOT_RECORDED and second.steps == ("a",)


def test_without_a_link_there_is_none():
    assert link_spans(Header(BoardUnderTest("0007")), []) == ()
