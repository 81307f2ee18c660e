"""Options stand where the records say, and what was to be repaired is asked again."""

from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import Answer, Answered, Noted, OptionSet, TakenBack
from termprobe.journal.standing import positions_by, repaired_steps, to_be_asked_again


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
    assert repaired_steps([first, last, TakenBack("b"), Noted("x")]) == ("b", "a")
    assert repaired_steps([last, Answered("b", Answer("yes"))]) == ("a",)
    assert repaired_steps([Answered("a", Answer("yes")), Noted("x")]) == ()
