"""How many boards were right at first, and are by now; what decides nothing is left out."""

import pytest

from helpers.batches import cause, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.yields import by_now, first_decided, yield_of, yields_of

BAD = cause("scroll/dead")


def run(verdict, **fields):
    causes = (BAD,) if verdict == "fail" else ()
    return summary(1, "A", *causes, verdict=verdict, **fields)


@pytest.mark.parametrize(
    "runs, first, now",
    [
        ([run("pass")], "pass", "pass"),
        ([run("fail"), run("pass")], "fail", "pass"),
        ([run("incomplete"), run("pass")], "pass", "pass"),
        ([run("incomplete")], "", ""),
        ([run("pass", is_part=True)], "", ""),
        ([run("fail", is_part=True)], "fail", "fail"),
        ([run("fail"), run("pass", is_part=True)], "fail", "fail"),
        ([run("pass", was_repaired=True)], "fail", "pass"),
        ([run("incomplete", was_repaired=True)], "fail", "fail"),
        ([run("pass"), run("fail")], "pass", "fail"),
    ],
)
def test_the_first_run_that_decides_counts_and_the_last(runs, first, now):
    runs = [
        summary(1, "A", *one.causes, **_own(one), begun=f"2026-01-0{day}")
        for day, one in enumerate(runs, 1)
    ]
    (board,) = batch_of(runs).boards
    assert (first_decided(board), by_now(board)) == (first, now)


def _own(one):
    names = ("verdict", "is_part", "was_repaired")
    return {name: getattr(one, name) for name in names}


def test_each_revision_has_its_share_and_interval():
    runs = [summary(n, "A", *[BAD] * (n < 2)) for n in range(9)]
    runs += [summary(9, "B"), summary(10, "B", verdict="incomplete")]
    batch = batch_of(runs)
    first, second = yields_of(batch)
    assert (first.revision, first.boards, first.first_pass.count, first.first_pass.of) == (
        "A",
        9,
        7,
        9,
    )
    assert first.first_pass.interval == pytest.approx((0.453, 0.937), abs=6e-4)
    assert (second.first_pass.of, second.undecided) == (1, 1)
    assert yield_of("", batch.boards).boards == 11
