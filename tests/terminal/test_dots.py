"""What of wrong dots an eye notices, and how it is told."""

import pytest

from termprobe.terminal.dots import BEAM, CURSOR, MISSING, cells_of, dots_in_words, noticed

COUNTS = {" ": 60, "A": 24, "B": 16}
A, B, BLANK = ("A", "#.#"), ("B", "##."), (" ", "#..")
NO_CURSOR, BARS = (CURSOR, MISSING), (BEAM, "seen")


@pytest.mark.parametrize(
    "misdrawn, is_asked, seen",
    [
        ((A,), True, (A,)),
        ((A,), False, ()),
        ((A, B), False, (A, B)),
        ((BLANK,), False, (BLANK,)),
        ((B, NO_CURSOR), False, (NO_CURSOR,)),
        ((B, BARS), False, (BARS,)),
        ((), True, ()),
    ],
    ids=["asked", "few", "a-quarter", "blanks", "cursor", "beam", "nothing"],
)
def test_who_is_not_asked_for_dots_notices_them_in_a_quarter_of_all_cells(misdrawn, is_asked, seen):
    assert noticed(misdrawn, COUNTS, is_asked, shows_cursor=True) == seen


def test_a_cursor_is_missed_only_where_one_must_be_seen():
    everywhere = (CURSOR, "everywhere")
    found = noticed((NO_CURSOR, everywhere), COUNTS, is_asked=True, shows_cursor=False)
    assert found == (everywhere,)


def test_cells_are_counted():
    assert cells_of((A, B), COUNTS) == 40
    assert cells_of((A, NO_CURSOR), COUNTS) == 25
    assert cells_of((BARS,), COUNTS) == 100


def test_it_is_told_in_words_letters_first():
    assert dots_in_words([A]) == ["A is drawn with wrong dots"]
    assert dots_in_words([BLANK]) == ["the blank is drawn with wrong dots"]
    some = [BLANK, ("#", "."), A, B]
    told = "4 characters are drawn with wrong dots, such as A, B, the blank"
    assert dots_in_words([*some, NO_CURSOR]) == [told, "the cursor is not to be seen"]
