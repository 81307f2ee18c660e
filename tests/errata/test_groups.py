"""How boards are parted in two: by each revision, builder and batch, and by runs of revisions."""

from helpers.batches import cause, grouped, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.groups import Partings
from termprobe.errata.items import items_of

FAULT = "bank-1-data/swapped/2-3"


def groups(batch):
    (item,) = items_of(batch)
    return [group for group in Partings(batch).groups(item) if group.is_telling]


def labels(batch):
    return [(label.factor, label.values) for one in groups(batch) for label in one.labels]


def test_two_revisions_part_the_boards_in_one_way():
    batch = grouped(FAULT, ("A", 3, 0), ("B", 4, 4))
    (group,) = groups(batch)
    assert [tuple(label) for label in group.labels] == [("revision", ("B",), ("A",))]
    assert tuple(group.table) == (4, 0, 0, 3)


def test_of_several_revisions_those_before_one_and_those_from_one_on_are_groups():
    batch = grouped(FAULT, ("A", 2, 2), ("B", 2, 2), ("C", 2, 0), ("D", 2, 0))
    assert ("revision", ("A", "B")) in labels(batch)
    late = grouped(FAULT, ("A", 2, 0), ("B", 2, 0), ("C", 2, 2), ("D", 2, 2))
    assert ("revision", ("C", "D")) in labels(late)


def test_what_all_but_one_builder_have_is_no_finding_about_that_builder():
    runs = [summary(n, "A", cause(FAULT), builder=who) for n, who in enumerate("xxyy")]
    batch = batch_of([*runs, summary(8, builder="z"), summary(9, builder="z")])
    assert labels(batch) == [("builder", ("x",)), ("builder", ("y",))]


def test_a_revision_that_all_builders_but_one_have_built_goes_before_these_builders():
    runs = [summary(n, "A", cause(FAULT), builder=who) for n, who in enumerate("xxyy")]
    batch = batch_of([*runs, *(summary(n, "B", builder="z") for n in range(4, 8))])
    assert ("revision", ("A",)) in labels(batch) and ("builder", ("x", "y")) not in labels(batch)


def test_a_group_of_one_board_and_a_label_that_nobody_told_are_none():
    batch = batch_of([summary(1, "A", cause(FAULT)), summary(2, "B"), summary(3, "")])
    assert groups(batch) == []


def test_two_labels_on_the_same_boards_are_one_group():
    runs = [summary(n, "A", cause(FAULT), builder="Ada") for n in range(3)]
    runs += [summary(n, "B", builder="Ben") for n in range(3, 6)]
    (group,) = groups(batch_of(runs))
    assert group.factors == {"revision", "builder"}


def test_partings_that_speak_for_nothing_are_tests_all_the_same():
    batch = grouped(FAULT, ("A", 4, 2), ("B", 4, 2))
    (item,) = items_of(batch)
    assert groups(batch) == [] and len(Partings(batch).groups(item)) == 1


def test_only_boards_on_which_it_was_tried_are_counted():
    runs = [summary(n, "A", cause(FAULT)) for n in range(3)]
    runs += [summary(3, "B"), summary(4, "B", passed=())]
    (group,) = groups(batch_of(runs))
    assert tuple(group.table) == (3, 0, 0, 1)
