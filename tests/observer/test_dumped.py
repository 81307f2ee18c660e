"""The two forms of what a dump command prints."""

import pytest

from termprobe.errors import ObserverError
from termprobe.observer.dumped import Dumped, read_dump


@pytest.mark.parametrize(
    "text, found",
    [
        ("AB\n\n", Dumped(("AB", ""))),
        ("AB  \r\n\r\n", Dumped(("AB", ""))),
        ("AB\n\n\fcursor: 1,7\n", Dumped(("AB", ""), (1, 7))),
        ("AB\n\n\f\ncursor:1 , 7\r\n", Dumped(("AB", ""), (1, 7))),
        ("AB\n\fcursor: 24,0", Dumped(("AB", ""), (24, 0))),
    ],
)
def test_rows_stand_alone_or_the_cursor_behind_them(text, found):
    assert read_dump(text, 2, 8, "the dump command x") == found


@pytest.mark.parametrize(
    "text, words",
    [
        ("A\n\n\f", "must print `cursor: ROW,COLUMN` behind the form feed, not ''"),
        ("A\n\n\fcursor: 1", "behind the form feed, not 'cursor: 1'"),
        ("A\n\n\fcursor: -1,0", "behind the form feed"),
        ("A\n\n\fcursor: 1,0\nmore", "behind the form feed"),
        ("A\nB\nC\nD\n\fcursor: 1,0", "must print 2 rows, not 4"),
    ],
)
def test_what_is_neither_is_refused(text, words):
    with pytest.raises(ObserverError) as caught:
        read_dump(text, 2, 8, "the dump command x")
    assert words in str(caught.value)
