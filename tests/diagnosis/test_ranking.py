"""Classes and their probabilities: one engine for what looks and what keys say."""

import math

import pytest

from termprobe.diagnosis.accounts import Account, score
from termprobe.diagnosis.causes import NO_CAUSE, Cause
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.ranking import (
    BlockShare,
    block_shares,
    departures,
    mixed,
    ranked_classes,
    suspect_of,
)


def fit(chance, told, is_as_predicted=True):
    return Fit(math.log(chance), told, is_as_predicted)


def account(name, weight=1.0, **fits):
    return Account(Cause(name, f"{name} is wrong", name.split("/")[0], weight), fits)


HEALTHY = Account(
    NO_CAUSE._replace(weight=1.0), {"a": fit(0.02, "good", False), "b": fit(0.98, "good")}
)
WRONG = [
    account("ram/1", a=fit(0.9, "x"), b=fit(0.9, "good")),
    account("ram/2", 2.0, a=fit(0.9, "x"), b=fit(0.9, "good")),
    account("line/1", a=fit(0.9, "y"), b=fit(0.1, "z", False)),
]


def test_what_predicts_the_same_is_one_class_its_most_common_member_first():
    first, second, third = ranked_classes(HEALTHY, WRONG)
    assert [one.cause.name for one in first.members] == ["ram/2", "ram/1"]
    assert first.shares[0] == pytest.approx(2 * first.shares[1])
    assert second.first.cause.name == "line/1" and third.first is HEALTHY
    assert first.probability + second.probability + third.probability == pytest.approx(1)


def test_probabilities_are_weight_times_likelihood():
    shares = {"ram": 3 * 0.9 * 0.9, "line": 0.9 * 0.1, "": 0.02 * 0.98}
    total = sum(shares.values())
    found = {one.first.cause.block: one.probability for one in ranked_classes(HEALTHY, WRONG)}
    for block, share in shares.items():
        assert found[block] == pytest.approx(share / total)
    assert score(HEALTHY, HEALTHY) == 0.0


def test_blocks_are_sums_and_nothing_wrong_is_none():
    shares = block_shares(ranked_classes(HEALTHY, WRONG))
    assert [one.block for one in shares] == ["ram", "line"]


def test_ranks_count_for_half():
    found = mixed([BlockShare("ram", 1.0)], {"ram": 0.5, "decoder": 0.5})
    assert found == [BlockShare("ram", 0.75), BlockShare("decoder", 0.25)]


def test_a_suspect_tells_what_speaks_for_and_against_it():
    first, second, _ = ranked_classes(HEALTHY, WRONG)
    suspect = suspect_of(first, HEALTHY)
    assert suspect.faults == ("ram/2", "ram/1") and suspect.supports == ("a",)
    assert suspect.title == "ram/2 is wrong; or ram/1 is wrong"
    assert suspect_of(second, HEALTHY).contradicts == ("b",)
    assert departures(WRONG[0], HEALTHY) == {("a", "x")}
