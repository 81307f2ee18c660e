"""A line that changes: each text covers the one before, and nothing of it stays."""

import io

from termprobe.cli.changing_line import ChangingLine


def written(*acts):
    stream = io.StringIO()
    line = ChangingLine(stream)
    for name, *words in acts:
        getattr(line, name)(*words)
    return stream.getvalue()


def test_a_shorter_text_covers_a_longer_one():
    assert written(("show", "long text"), ("show", "short")) == "\rlong text\rshort    "


def test_what_is_kept_stays_above_and_is_not_covered():
    assert written(("show", "abc"), ("keep", "ab"), ("show", "x")) == "\rabc\rab \r\n\rx"


def test_clearing_leaves_nothing_and_where_nothing_is_shown_writes_nothing():
    assert written(("show", "abc"), ("clear",)) == "\rabc\r   \r"
    assert written(("clear",)) == ""
