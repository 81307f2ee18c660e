"""Options stand where the records say, and what was to be repaired is asked again."""

from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import Answer, Answered, Noted, OptionSet, TakenBack
from termprobe.journal.standing import StandingByRecords, positions_by, to_be_asked_again


def asked_first(records):
    standing = StandingByRecords()
    for record in records:
        standing.take(record)
    return standing.first


def test_an_option_stands_where_it_was_set_last():
    records = [OptionSet("echo", "off"), Noted("moved"), OptionSet("duplex", "half")]
    assert positions_by(records) == {"echo": "off", "duplex": "half"}
    assert positions_by([*records, OptionSet("echo", "on")]) == {"echo": "on", "duplex": "half"}


def test_an_option_that_was_never_set_is_not_known():
    assert positions_by(iter([Noted("echo on")])) == {}


def test_what_was_to_be_repaired_is_asked_again_once():
    repair = ToRepair("f", explains=("a", "b"))
    assert to_be_asked_again([OptionSet("pace", "fast")]) == ()
    assert to_be_asked_again([repair]) == ("a", "b")
    assert to_be_asked_again([repair, TakenBack("a")]) == ("b",)
    assert to_be_asked_again([TakenBack("a"), repair, TakenBack("b"), repair]) == ("a", "b")


def test_what_failed_before_a_repair_waits_until_it_is_answered():
    first, last = ToRepair("f", explains=("x",)), ToRepair("g", explains=("b", "a"))
    assert asked_first([first, last, TakenBack("b"), Noted("x")]) == ("b", "a")
    assert asked_first([last, Answered("b", Answer("yes"))]) == ("a",)
    assert asked_first([Answered("a", Answer("yes")), Noted("x")]) == ()


def test_a_run_that_comes_after_another_begins_with_what_failed_there():
    after = ComesAfter("0007.run.jsonl", first=("c", "b"), sharing=("a",))
    assert asked_first([after, Noted("x")]) == ("c", "b", "a")
    assert asked_first([after, Answered("b", Answer("yes"))]) == ("c", "a")
    repair = ToRepair("f", explains=("a", "d"))
    assert asked_first([after, repair]) == ("a", "d", "c", "b")
