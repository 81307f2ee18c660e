"""What must be as before where a run is gone on with, and what is told where it is not."""

import pytest

from termprobe.cli.going_on import last_link, other_link_in_words, refuse_other_board
from termprobe.errors import UsageError
from termprobe.journal.records import BoardUnderTest, Header, Linked, LinkUsed

BOARD = BoardUnderTest("0007", "B", batch="two")
FIRST, SECOND = LinkUsed("/dev/a", "9600 baud 7E1"), LinkUsed("/dev/b", "9600 baud 7E1", "rounded")


def test_what_is_not_told_or_as_before_is_taken():
    refuse_other_board(BOARD, BoardUnderTest(""))
    refuse_other_board(BOARD, BOARD)


@pytest.mark.parametrize(
    "given, must",
    [
        (BoardUnderTest("\x1b"), r"--board must be 0007 on --resume, .*not \\x1b; leave it out"),
        (BoardUnderTest("", batch="one"), "--batch must be two on --resume"),
        (BoardUnderTest("", builder="me"), "--builder must not be given on --resume"),
    ],
)
def test_another_board_is_refused(given, must):
    with pytest.raises(UsageError, match=must):
        refuse_other_board(BOARD, given)


def test_the_last_link_is_compared_with_the_one_that_is_there_now():
    header = Header(BOARD, link=FIRST)
    assert last_link(header, ()) == FIRST and last_link(header, [Linked(SECOND)]) == SECOND
    assert other_link_in_words(None, FIRST) == other_link_in_words(FIRST, FIRST) == ""
    told = "The run goes on over /dev/b 9600 baud 7E1; so far it was over /dev/a 9600 baud 7E1."
    assert other_link_in_words(FIRST, SECOND) == told
