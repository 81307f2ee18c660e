"""The vocabulary: what every row of its tables must be."""

import pytest

from termprobe.profile.vocabulary import BUS_LINES, VOCABULARY

RULES = pytest.mark.parametrize("rule", VOCABULARY.values(), ids=VOCABULARY)


@RULES
def test_slots_are_words_that_can_be_encoded(rule):
    assert set(rule.slots) <= {"row", "column", "count"}


@RULES
def test_a_choice_at_the_edge_is_one_between_two_or_more(rule):
    assert len(set(rule.edges)) == len(rule.edges) != 1


@RULES
def test_each_action_says_what_it_does_in_one_sentence(rule):
    assert rule.does[0].islower() and not rule.does.endswith(".")


def test_a_bus_of_data_has_as_many_lines_in_both_banks():
    for kind in ("data", "address"):
        assert BUS_LINES[f"bank-0-{kind}"] == BUS_LINES[f"bank-1-{kind}"]
