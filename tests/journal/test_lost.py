"""How many records are lost where no number behind them tells."""

import pytest

from termprobe.journal.lost import LostRecords, lost_at_end

LINE = b'0123abcd {"seq":7,"t":1.5,"at":"2001-02-03T04:05:06","kind":"note","text":"x"}'


@pytest.mark.parametrize("line", [LINE, LINE[:50], LINE[:10], b"x", LINE.replace(b"note", b"n?te")])
def test_a_line_that_was_one_record_is_one(line):
    assert lost_at_end([line]) == LostRecords(records=1)


@pytest.mark.parametrize(
    "lines", [[LINE + LINE], [LINE, LINE], [bytes(60)], [LINE.replace(b"seq", b"sxq")], [b"x" * 80]]
)
def test_what_may_have_been_several_records_is_any_number(lines):
    assert lost_at_end(lines) == LostRecords()
