"""What the steps of a plan prove, against the dictionary and worked-out numbers."""

import functools

import pytest

from helpers.scripts import SINGLE, look, plan_of
from termprobe.board.faults.catalogue import catalogue
from termprobe.diagnosis.coverage import PartCoverage, coverage_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.passed_coverage import excluded_by_block
from termprobe.plan.choose import choose
from termprobe.plan.effort import step_ms

PLAN = plan_of(
    [
        look("parity", [{"pattern": "address-parity", "with": "_?"}]),
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("u", [{"pattern": "solid", "with": "U"}]),
        look("word", [{"text": "HELLO"}]),
        '{id: keys, kind: keys, title: Keys, question: "Press it."}',
    ]
)


@functools.cache
def known():
    return fault_dictionary(SINGLE, PLAN)


@functools.cache
def whole():
    return coverage_of(known(), PLAN, SINGLE)


CHARACTER_S = 10 / 9600


def test_each_fault_of_the_catalogue_is_shown_missed_or_makes_no_difference():
    parts = [set(whole().detected), set(whole().missed), set(whole().undetectable)]
    assert set.union(*parts) == set(catalogue(SINGLE))
    assert sum(map(len, parts)) == whole().faults == len(catalogue(SINGLE))
    assert {"bank-0-data/stuck/0/1", "baud/ratio/2", "key-matrix/row-open/3"} <= parts[0]
    assert {"decoder/dead/bell", "key-matrix/key-dead/break", "echo-gate/stuck-open"} <= parts[1]
    assert {"ram-address/swapped/0-1", "decoder/also-written/clear"} <= parts[2]


def test_two_complementary_fields_show_every_stuck_data_line():
    """2Ah and 55h hold each of the seven bits at both levels."""
    stuck = [f"bank-1-data/stuck/{line}/{level}" for line in range(7) for level in (0, 1)]
    assert set(stuck) <= set(whole().detected)
    assert not whole().shows_all_bits  # the last cell stays blank


def test_blocks_are_counted_by_themselves_the_worst_first():
    shares = [block.share for block in whole().by_block.values()]
    assert shares == sorted(shares) and 0 == shares[0] < shares[-1] == 1
    # 11 lines: 22 stuck, 110 bridged and 55 swapped ones, of which those swapped are never seen.
    assert whole().by_block["ram-address"] == PartCoverage(187, 132, 55)
    for count in ("faults", "detected", "undetectable", "missed"):
        total = sum(getattr(block, count) for block in whole().by_block.values())
        parts = whole().display, whole().dots, whole().beside
        assert total == sum(getattr(part, count) for part in parts)
    assert sum(block.missed for block in whole().by_block.values()) == len(whole().missed)


def test_a_part_of_which_nothing_can_be_shown_lacks_nothing():
    assert PartCoverage(3, 0, 3).share == 1 and PartCoverage(4, 1, 2).share == 0.5
    assert PartCoverage(4, 1, 2).missed == 1


def test_looks_cover_the_display_and_presses_the_rest():
    where = {name.split("/")[0] for name in whole().detected}
    assert {"key-matrix", "keyboard-code", "transmitter-data", "parity", "bank-1-data"} <= where
    without = plan_of([look("word", [{"text": "HELLO"}])])
    found = coverage_of(fault_dictionary(SINGLE, without), without, SINGLE)
    assert found.beside.detected == 0 and found.display.detected > 100
    assert found.beside.faults == whole().beside.faults and not found.smallest.steps[1:]


def test_the_smallest_set_shows_all_that_is_shown_by_itself():
    assert whole().smallest.is_smallest
    smallest = [step for step in PLAN.steps if step.id in whole().smallest.steps]
    assert len(smallest) == whole().smallest.cost
    part = played_alone(whole().smallest.steps)
    assert set(part.detected) == set(whole().detected)


def played_alone(step_ids):
    """Return the Coverage by these steps of the plan, played anew."""
    part = choose(PLAN, step_ids)
    return coverage_of(fault_dictionary(SINGLE, part), part, SINGLE)


def test_weighed_by_seconds_a_set_may_have_more_steps_and_takes_no_more_time():
    def cost_of(step):
        return step_ms(step, CHARACTER_S)

    found = coverage_of(known(), PLAN, SINGLE, cost_of=cost_of).smallest
    assert found.is_smallest and len(found.steps) >= whole().smallest.cost
    assert found.cost == sum(cost_of(PLAN.step(step)) for step in found.steps)
    assert found.cost <= sum(cost_of(PLAN.step(step)) for step in whole().smallest.steps)


def test_classes_are_what_can_be_told_apart():
    assert 1 < whole().classes <= len(whole().detected)
    # Stuck at either level, a line that all cells share lets the same ones be seen.
    first, second = (known().faults[f"ram-address/stuck/10/{level}"] for level in (0, 1))
    assert first == second
    less = coverage_of(known(), plan_without_keys(), SINGLE)
    assert less.classes < whole().classes


def plan_without_keys():
    return choose(PLAN, known().looks)


def test_the_builder_of_whom_nothing_escapes_sees_all_that_is_shown():
    sharp = dict.fromkeys(whole().human.by_visibility, 0.0)
    blind = dict.fromkeys(whole().human.by_visibility, 1.0)
    all_seen = coverage_of(known(), PLAN, SINGLE, sharp).human.share
    parts = whole().display, whole().dots
    can_be = sum(part.faults - part.undetectable for part in parts)
    assert all_seen == pytest.approx(sum(part.detected for part in parts) / can_be)
    # The clock of the line is heard at the first press, whoever looks.
    none_seen = coverage_of(known(), PLAN, SINGLE, blind).human.share
    assert none_seen == pytest.approx(2 / can_be)
    assert none_seen < whole().human.share < all_seen


# -- what the steps that passed exclude ------------------------------------------------------------


def excluded(passed):
    return excluded_by_block(known(), PLAN, SINGLE, passed)


def test_where_all_steps_passed_all_that_the_plan_shows_is_excluded():
    found = excluded({step.id for step in PLAN.steps})
    assert sum(shown for shown, _ in found.values()) == len(whole().detected)
    for block, (shown, possible) in found.items():
        part = whole().by_block[block]
        assert (shown, possible) == (part.detected, part.faults - part.undetectable)


def test_what_did_not_pass_excludes_nothing():
    assert {shown for shown, _ in excluded(()).values()} == {0}
    looks_only = excluded({"parity", "stars", "u"})
    assert looks_only["receiver-data"][0] > 0 and looks_only["keyboard-code"][0] == 0
