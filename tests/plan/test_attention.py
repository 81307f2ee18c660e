"""Looks that are wrong on purpose: which, how they are wrong, and that a seed tells both."""

import pytest

from helpers.scripts import SINGLE, look, plan_of
from termprobe.plan.attention import wrong_looks
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import differences

PLAN = plan_of(
    [
        look("word", [{"text": "HELLO WORLD"}]),
        look("more", [{"command": "return"}, {"text": "ABC"}], start="keep"),
        look("solid", [{"pattern": "solid", "with": "#"}]),
        look("blank", [{"command": "clear"}]),
    ]
)


def wrong(rate=1.0, seed=1):
    return wrong_looks(PLAN, SINGLE, rate, seed, "attention/")


def shown(*steps):
    reference = Reference(SINGLE)
    reference.feed(b"".join(step.data for step in steps))
    return reference.screen()


@pytest.mark.parametrize("seed", range(8))
def test_each_shows_other_characters_in_a_few_cells_with_the_cursor_where_it_must_be(seed):
    found = wrong(seed=seed)
    assert list(found) == ["word", "more", "solid"], "what sends no text cannot be altered"
    for step_id, step in found.items():
        right = PLAN.step(step_id)
        before = [PLAN.step("word")] * (step_id == "more")
        seen = shown(*before, step)
        cells = differences(right.expected.rows, seen.rows)
        assert 1 <= len(cells) <= 8 and seen.cursor == right.expected.cursor
        assert all((ord(one.expected) ^ ord(one.seen)).bit_count() >= 3 for one in cells)
        assert step.expected.rows == seen.rows and step.id == f"attention/{step_id}"
        assert step.continues == right.continues


def test_the_seed_alone_tells_which_and_how():
    assert wrong() == wrong() and wrong(seed=2) != wrong()
    assert wrong(rate=0.0) == {}
    some = [len(wrong(rate=0.5, seed=seed)) for seed in range(20)]
    assert 0 < sum(some) < 60 and set(wrong(rate=0.3)) <= set(wrong())
