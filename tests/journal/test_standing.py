"""Options stand where the records say."""

from termprobe.journal.records import Noted, OptionSet
from termprobe.journal.standing import positions_by


def test_an_option_stands_where_it_was_set_last():
    records = [OptionSet("echo", "off"), Noted("moved"), OptionSet("duplex", "half")]
    assert positions_by(records) == {"echo": "off", "duplex": "half"}
    assert positions_by([*records, OptionSet("echo", "on")]) == {"echo": "on", "duplex": "half"}


def test_an_option_that_was_never_set_is_not_known():
    assert positions_by(iter([Noted("echo on")])) == {}
