"""Which answers count for a step of a plan that had earlier texts."""

from termprobe.plan.earlier import NONE_EARLIER, EarlierForms


def test_an_answer_counts_for_the_step_as_it_is_and_as_it_was_while_it_was_the_same():
    earlier = EarlierForms(same={"a": frozenset({"old"})})
    assert earlier.counts("a", "now", "now") and earlier.counts("a", "now", "old")
    assert not earlier.counts("a", "now", "older") and not earlier.counts("b", "now", "old")


def test_where_no_hash_is_known_an_answer_counts():
    assert NONE_EARLIER.counts("a", "now", "") and NONE_EARLIER.counts("a", "", "then")
    assert not NONE_EARLIER.counts("a", "now", "then")
