"""What became of a board, and how long it took to find out what is wrong with it."""

from helpers.batches import cause, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.history import MeanTime, histories, mean_time
from termprobe.errata.time_to_cause import TimeToCause

BAD = cause("scroll/dead")


def test_a_run_that_comes_after_one_that_failed_tells_of_a_repair():
    runs = [
        summary(7, "A", BAD, path="x/first.run.jsonl", begun="2026-01-01"),
        summary(7, after="first.run.jsonl", begun="2026-01-02"),
        summary(8),
    ]
    (board,) = histories(batch_of(runs))
    assert board.events == ("fail (scroll/dead)", "repair", "pass") and board.missing == ()


def test_a_run_may_stop_for_a_repair_and_go_on():
    (board,) = histories(batch_of([summary(7, "A", BAD, was_repaired=True, verdict="pass")]))
    assert board.events == ("fail (scroll/dead)", "repair", "pass")


def test_a_run_that_stopped_for_a_repair_and_went_not_on_has_failed():
    (board,) = histories(batch_of([summary(7, "A", BAD, was_repaired=True)]))
    assert board.events == ("fail (scroll/dead)",)


def test_a_run_that_is_not_among_the_files_is_named():
    (board,) = histories(batch_of([summary(7, after="gone.run.jsonl", verdict="incomplete")]))
    assert (board.events, board.missing) == (("incomplete",), ("gone.run.jsonl",))


def test_a_part_says_that_it_is_one():
    (board,) = histories(batch_of([summary(7, is_part=True)]))
    assert board.events == ("pass of a part",)


def test_the_mean_is_of_runs_in_which_a_fault_was_named():
    times = (TimeToCause(4, 2.0, True), TimeToCause(8, 4.0, True), TimeToCause(30, 9.0, False))
    batch = batch_of([summary(n, "A", BAD, time=time) for n, time in enumerate(times)])
    assert mean_time(batch) == MeanTime(2, 6.0, 3.0, unnamed=1)
    assert mean_time(batch_of([summary(1)])) is None
