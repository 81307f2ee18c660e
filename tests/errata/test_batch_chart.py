"""What the drawing of a batch shows: bars within their frame, a mark for each board."""

from helpers.batches import cause, grouped, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.batch_chart import chart_of
from termprobe.errata.origin import findings_of

FAULT = "bank-1-data/swapped/2-3"


def drawn(batch):
    return chart_of(batch, findings_of(batch))


def test_each_board_has_a_mark_by_whether_it_was_tried():
    batch = batch_of([summary(1, "A", cause(FAULT)), summary(2), summary(3, passed=())])
    found = drawn(batch)
    assert found.is_by_board and [column.name for column in found.columns] == ["1", "2", "3"]
    assert found.rows[0].marks == ("X", "·", "") and found.longest_name == 3


def test_bars_and_intervals_stay_within_a_hundred_percent():
    bars = drawn(grouped(FAULT, ("A", 3, 1), ("B", 2, 0))).bars
    assert [(bar.revision, bar.what, bar.percent) for bar in bars] == [
        ("A", "first run", 66.7),
        ("A", "by now", 66.7),
        ("B", "first run", 100.0),
        ("B", "by now", 100.0),
    ]
    assert all(0 <= bar.low <= bar.percent <= bar.high <= 100 for bar in bars)
    assert bars[0].told == "2 of 3, 21 to 94 %"


def test_many_boards_are_told_by_revision_and_many_findings_cut_off():
    found = drawn(grouped(FAULT, ("A", 40, 2), ("", 30, 0)))
    assert not found.is_by_board
    assert [column.name for column in found.columns] == ["not told", "A"]
    assert found.rows[0].marks == ("0 of 30", "2 of 40")
    many = batch_of([summary(n, "A", cause(f"x/{n}", title="t" * 99)) for n in range(45)])
    assert len(drawn(many).rows) == 40 and drawn(many).left_out == 5
    assert len(drawn(many).rows[0].title) == 56
