"""Which runs are of one board, and which count."""

import pytest

from helpers.batches import summary
from termprobe.errata.batch import batch_of, begun_at, natural


def boards(*runs, **options):
    return [(one.board.name, len(one.runs)) for one in batch_of(runs, **options).boards]


def test_runs_of_one_serial_number_are_of_one_board_in_the_order_of_time():
    late = summary(7, begun="2026-03-01T10:00:00+02:00", verdict="pass")
    early = summary(7, begun="2026-03-01T07:59:00+00:00", verdict="fail")
    (one,) = batch_of([late, early]).boards
    assert [run.verdict for run in one.runs] == ["fail", "pass"]


def test_what_one_run_does_not_tell_another_may():
    first = summary(7, "", builder="", begun="2026-01-01")
    second = summary(7, "B", builder="Ada", batch="k", begun="2026-01-02")
    (one,) = batch_of([first, second]).boards
    assert one.board == ("7", "7", "B", "Ada", "k")


def test_two_builders_may_use_the_same_number():
    runs = [summary(7, builder="Ada"), summary(7, builder="Ben"), summary(8)]
    assert boards(*runs) == [("7 (rev. A, Ada)", 1), ("7 (rev. A, Ben)", 1), ("8", 1)]


def test_boards_are_sorted_as_people_do():
    runs = [summary(number, revision) for number in (10, 9) for revision in ("B", "A")]
    assert [name for name, _ in boards(*runs)] == [
        "9 (rev. A)",
        "10 (rev. A)",
        "9 (rev. B)",
        "10 (rev. B)",
    ]
    assert natural("Rev 10") > natural("rev 9") and natural("2²") > natural("2")


def test_the_same_file_twice_is_one_run():
    one = summary(7)
    assert boards(one, one) == [("7", 1)] and batch_of([one, one]).doubles == 1


def test_practice_counts_only_alone_or_where_it_is_wanted():
    real, practice = summary(1), summary(2, is_practice=True)
    mixed = batch_of([real, practice])
    assert boards(real, practice) == [("1", 1)] and mixed.practice_left_out == 1
    wanted = batch_of([real, practice], counts_practice=True)
    assert len(wanted.boards) == 2 and (wanted.with_practice, wanted.is_practice) == (1, False)
    alone = batch_of([practice])
    assert alone.is_practice and (alone.practice_left_out, alone.with_practice) == (0, 0)
    assert not mixed.is_practice


@pytest.mark.parametrize("begun", ["", "yesterday", "\x1b[2J"])
def test_a_date_that_is_none_is_long_ago(begun):
    assert begun_at(summary(1, begun=begun)).year == 1


def test_a_set_of_boards_has_a_bit_for_each():
    batch = batch_of([summary(number) for number in range(4)])
    assert batch.names_in(0b1010) == ("1", "3")
