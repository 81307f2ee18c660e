"""Which boards would settle what a cause goes with: just enough of them."""

import pytest

from termprobe.errata.groups import BoardGroup, Label
from termprobe.errata.settle import apart, group_in_words, more_boards
from termprobe.errata.statistics import ALPHA, Fourfold, fisher


@pytest.mark.parametrize(
    "table, tests, more",
    [
        (Fourfold(3, 0, 0, 3), 1, (1, 0)),
        (Fourfold(1, 0, 0, 18), 1, (0, 1)),
        (Fourfold(1, 0, 0, 4), 1, (2, 0)),
        (Fourfold(4, 0, 0, 4), 50, (4, 2)),
    ],
)
def test_so_many_more_are_enough_and_one_less_is_not(table, tests, more):
    found = more_boards(table, tests)
    inside, outside = found
    grown = table._replace(
        inside_with=table.inside_with + inside, outside_without=table.outside_without + outside
    )
    assert fisher(grown) <= ALPHA / tests and sum(found) <= sum(more)
    for less in range(sum(found)):
        for own in range(less + 1):
            fewer = table._replace(
                inside_with=table.inside_with + own,
                outside_without=table.outside_without + less - own,
            )
            assert fisher(fewer) > ALPHA / tests


def test_where_it_is_half_and_half_no_few_boards_settle_anything():
    assert more_boards(Fourfold(50, 50, 50, 50), 1000) is None


def test_what_boards_have_in_common_is_told_apart_by_a_board_that_has_one_of_it():
    labels = (Label("revision", ("A", "B"), ("C",)), Label("builder", ("Ada",), ("Ben",)))
    group = BoardGroup(0b1, 0b10, labels, Fourfold(1, 0, 0, 1))
    assert group_in_words(group) == "revisions A and B, which is also builder Ada"
    assert apart(group) == (
        "a board of revisions A and B that is not of builder Ada; or "
        "a board of builder Ada that is not of revisions A and B"
    )
