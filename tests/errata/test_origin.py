"""What a cause goes with, and that nothing is named where the boards cannot tell."""

import dataclasses

import pytest

from helpers.batches import cause, grouped, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.origin import findings_of

FAULT = "bank-1-data/swapped/2-3"


def only(batch):
    (finding,) = findings_of(batch).found
    return finding


@pytest.mark.parametrize(
    "first, second, origin, p",
    [
        ((5, 5), (4, 0), "layout", 1 / 126),
        ((4, 4), (4, 0), "layout", 2 / 70),
        ((3, 3), (3, 0), "open", 0.1),
        ((5, 4), (4, 0), "layout", 6 / 126),
        ((6, 4), (6, 0), "open", 30 / 495),
        ((6, 3), (6, 3), "open", None),
    ],
)
def test_it_goes_with_the_revision_where_that_is_hardly_by_chance(first, second, origin, p):
    finding = only(grouped(FAULT, ("A", *first), ("B", *second)))
    assert finding.origin == origin
    assert finding.p == (p if p is None else pytest.approx(p))


def test_a_fault_that_a_later_revision_mended_goes_with_those_before():
    finding = only(grouped(FAULT, ("A", 4, 4), ("B", 4, 4), ("C", 4, 0)))
    assert finding.origin == "layout"
    assert finding.best.group.labels[0].values == ("A", "B")


@pytest.mark.parametrize("factor", ["builder", "batch"])
def test_it_may_go_with_a_builder_or_a_batch_across_revisions(factor):
    runs = []
    for number in range(12):
        own = {factor: "xyz"[number % 3]}
        causes = [cause(FAULT)] if number % 3 == 0 else []
        runs.append(summary(number, "AB"[number // 6], *causes, **own))
    assert only(batch_of(runs)).origin == factor


def test_what_no_board_tells_apart_is_open():
    runs = [summary(n, "A", cause(FAULT), builder="Ada") for n in range(6)]
    runs += [summary(n, "B", builder="Ben") for n in range(6, 12)]
    finding = only(batch_of(runs))
    assert finding.origin == "open" and finding.best.is_significant
    again = only(batch_of([*runs, summary(12, "A", cause(FAULT), builder="Ben")]))
    assert again.origin == "layout", "one board by the other builder tells them apart"


def test_one_board_among_others_of_its_revision_is_that_board():
    finding = only(grouped(FAULT, ("A", 3, 1), ("B", 4, 0)))
    assert finding.origin == "board" and finding.peers.bit_count() == 2


def test_one_board_alone_of_its_revision_tells_nothing():
    assert only(grouped(FAULT, ("A", 1, 1), ("B", 20, 0))).origin == "open"


def test_what_is_on_every_board_of_one_revision_has_nothing_to_compare_with():
    finding = only(grouped(FAULT, ("A", 12, 12)))
    assert (finding.origin, finding.p, finding.is_everywhere) == ("open", None, True)


def test_faults_of_single_boards_do_not_weaken_what_goes_with_the_revision():
    runs = [summary(n, "A", cause(FAULT)) for n in range(4)]
    runs += [summary(n, "B", cause(f"cell/{n}", steps=("commands",))) for n in range(4, 7)]
    runs += [summary(n, "B") for n in range(7, 10)]
    found = findings_of(batch_of(runs))
    assert found.tests == 1 and found.found[0].origin == "layout"
    assert [one.origin for one in found.found[1:]] == ["board"] * 3


def test_many_things_that_could_go_with_a_revision_must_each_be_clearer():
    runs = [summary(n, "AB"[n // 4], *[cause(FAULT)] * (n < 4)) for n in range(8)]
    assert only(batch_of(runs)).origin == "layout"
    lot = [cause(f"lot/{n}", steps=("commands",)) for n in range(3)]
    runs = [summary(n, "AB"[n // 4], *[cause(FAULT)] * (n < 4), *lot * (n % 2)) for n in range(8)]
    findings = findings_of(batch_of(runs))
    found = {one.item.what: one for one in findings.found}
    assert findings.tests == 0 and found[FAULT].origin == "open" and found[FAULT].p < 0.05


def test_a_builder_whose_boards_all_have_another_fault_of_their_own_is_found():
    """Four boards each by three builders; those of one have each another joint that is bad."""
    runs = []
    for number in range(12):
        steps = (("field",), ("slopes",), ("commands",))[number % 3]
        causes = [cause(f"cell/{number}", steps=steps)] if number % 3 == 0 else []
        runs.append(summary(number, "AB"[number % 2], *causes, builder="xyz"[number % 3]))
    found = {one.item.what: one for one in findings_of(batch_of(runs)).found}
    own = found["own-faults"]
    assert own.origin == "builder" and own.best.group.labels[0].values == ("x",)
    assert own.p == pytest.approx(1 / 495)
    spread = [dataclasses.replace(run, builder="xyz"[n // 4]) for n, run in enumerate(runs)]
    found = findings_of(batch_of(spread)).found
    assert "own-faults" not in [one.item.what for one in found]
