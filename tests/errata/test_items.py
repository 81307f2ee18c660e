"""One cause is one item, however many steps fail by it; the boards that were not tried are none."""

from helpers.batches import cause, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.items import failed_steps, items_of

STUCK = "bank-1-data/stuck/3/0"


def items(*runs):
    return items_of(batch_of(runs))


def test_one_cause_is_one_item_with_the_steps_that_show_it_on_every_board():
    runs = [
        summary(1, "A", cause(STUCK, steps=("field", "slopes"))),
        summary(2, "A", cause(STUCK, steps=("slopes", "commands"))),
        summary(3),
    ]
    (item,) = items(*runs)
    assert (item.what, item.steps, item.is_cause) == (STUCK, ("slopes",), True)
    assert (item.affected, item.clean) == (0b011, 0b100)
    assert item.symptom == "The slopes: bit 3 is 0"


def test_a_board_on_which_it_was_not_tried_is_in_neither_set():
    (item,) = items(summary(1, "A", cause(STUCK)), summary(2, passed=("commands",)))
    assert (item.affected, item.clean) == (0b01, 0)


def test_another_fault_that_fails_the_same_steps_hides_whether_it_is_there():
    other = cause("scroll/dead")
    found = items(summary(1, "A", cause(STUCK)), summary(2, "A", other), summary(3))
    assert {item.what: item.clean for item in found} == {STUCK: 0b100, "scroll/dead": 0b100}


def test_faults_that_one_board_cannot_tell_apart_are_told_apart_by_another():
    runs = [summary(1, "A", cause("a/1", STUCK)), summary(2, "A", cause(STUCK, "b/2"))]
    (item,) = items(*runs)
    assert (item.what, item.alike, item.affected) == (STUCK, (), 0b11)


def test_classes_that_share_no_fault_are_no_chain():
    runs = [summary(n, "A", cause(*pair)) for n, pair in enumerate(["ab", "bc", "cd"])]
    assert sorted(item.affected for item in items(*runs)) == [0b011, 0b100]


def test_steps_that_nothing_explains_are_one_item_where_the_same_boards_failed_them():
    runs = [
        summary(1, failed=("field", "slopes")),
        summary(2, failed=("field", "slopes", "commands")),
        summary(3),
    ]
    both, one = items(*runs)
    assert (both.what, both.steps, both.affected) == ("field", ("field", "slopes"), 0b011)
    assert both.title == "The field, and 1 more that failed with it" and not both.is_cause
    assert (one.what, one.affected, one.clean) == ("commands", 0b010, 0b101)


def test_a_step_that_a_later_run_explains_is_not_left_open():
    runs = [summary(1, failed=("field",)), summary(1, "A", cause(STUCK, steps=("field",)))]
    assert [item.what for item in items(*runs)] == [STUCK]


def test_a_repaired_board_had_it_all_the_same():
    (item,) = items(summary(1, "A", cause(STUCK)), summary(1), summary(2))
    assert (item.affected, item.clean) == (0b01, 0b10)


def test_each_step_knows_the_boards_on_which_it_failed():
    batch = batch_of([summary(1, failed=("field",)), summary(2, failed=("field", "slopes"))])
    assert failed_steps(batch) == {"field": 0b11, "slopes": 0b10}
