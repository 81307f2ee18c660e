"""The page of text: first how many boards are right, then one line a cause; nothing acts."""

from helpers.batches import STEPS, cause, grouped, summary
from helpers.reports import harmful
from termprobe.errata.batch import batch_of
from termprobe.errata.origin import findings_of
from termprobe.errata.page import errata_page
from termprobe.errata.summary import UnreadRun
from termprobe.errata.time_to_cause import TimeToCause

FAULT = "bank-1-data/swapped/2-3"


def page(batch, *unread):
    return errata_page(batch, findings_of(batch), unread)


def test_it_begins_with_the_boards_and_how_many_are_right():
    lines = page(grouped(FAULT, ("A", 5, 5), ("B", 4, 0))).splitlines()
    assert lines[:9] == [
        "9 boards, 2 revisions, 9 runs",
        "",
        "Yield, each share with its 95 % interval",
        "                  boards  right at the first run      right by now",
        "  revision A           5  0 of 5 (0 to 43 %)          0 of 5 (0 to 43 %)",
        "  revision B           4  4 of 4 (51 to 100 %)        4 of 4 (51 to 100 %)",
        "  all                  9  4 of 9 (19 to 73 %)         4 of 9 (19 to 73 %)",
        "",
        "Findings: Fisher's exact test, p corrected for 1 test by Holm's method",
    ]
    assert lines[9] == f"  1 LAYOUT  {FAULT} is wrong"


def test_steps_stand_by_boards_with_the_names_from_top_to_bottom():
    lines = page(grouped(FAULT, ("A", 1, 1), ("B", 2, 0))).splitlines()
    first = lines.index("Steps by boards (# failed, . passed, blank not tried)")
    assert lines[first + 1 : first + 5] == [
        "          A B B",
        "          0 0 1",
        "  field   # . .",
        "  slopes  # . .",
    ]


def test_a_table_of_many_boards_is_not_drawn_and_of_many_steps_the_first():
    assert "Steps by boards" not in page(grouped(FAULT, ("A", 41, 1)))
    steps = [f"step-{number}" for number in range(70)]
    assert "  and 10 steps more" in page(batch_of([summary(1, failed=steps)]))


def test_practice_is_the_first_line():
    batch = batch_of([summary(1, is_practice=True)])
    assert page(batch).startswith("PRACTICE: every run is of a simulated board.")
    mixed = batch_of([summary(1), summary(2, is_practice=True)])
    assert "Left out: 1 run of simulated boards; --practice counts them." in page(mixed)
    wanted = batch_of([summary(1), summary(2, is_practice=True)], counts_practice=True)
    assert "Counted with the others: 1 run of simulated boards." in page(wanted)


def test_runs_that_were_filled_in_from_cards_count_and_it_says_how_many_they_are():
    told = "1 of 3 runs was filled in from a card, whole or in part."
    batch = batch_of([summary(1), summary(2, is_from_card=True), summary(3)])
    assert batch.from_cards == 1 and told in page(batch)
    every = batch_of([summary(1, is_from_card=True), summary(2, is_from_card=True)])
    assert "2 of 2 runs were filled in from cards, whole or in part." in page(every)
    left_out = batch_of([summary(1), summary(2, is_practice=True, is_from_card=True)])
    assert left_out.from_cards == 0 and "from a card" not in page(left_out)


def test_what_decides_nothing_and_what_cannot_be_read_is_told():
    one = summary(1, verdict="incomplete")
    text = page(batch_of([one, one]), UnreadRun("x.run.jsonl", "no such file"))
    assert "1 of these not decided, and left out of both" in text
    assert "Findings: none. No step failed on any board." in text
    assert "Left out: 1 file with just what another one holds." in text
    assert "Not read: x.run.jsonl: no such file" in text


def test_the_history_of_boards_and_the_time_to_a_cause_stand_at_the_end():
    named = summary(1, "A", cause(FAULT), time=TimeToCause(5, 2.5, True))
    other = summary(2, "A", cause(FAULT), time=TimeToCause(9, 9.5, False))
    text = page(batch_of([named, other]))
    assert f"  1: fail ({FAULT})" in text
    told = " ".join(text.split())
    assert "cause: 5.0 looks and 2.5 minutes on average of 1 run; 1 run named none" in told
    assert "no run named one" in page(batch_of([other]))
    many = page(batch_of([summary(n, "A", cause(FAULT)) for n in range(45)]))
    assert "  and 5 boards more" in many


def test_no_name_or_remark_can_act_on_a_console_and_lines_fit():
    evil = "\x1b[2J\u202e<b>"
    run = summary(evil, evil, cause(evil, title=evil), failed=(evil,), builder=evil, after=evil)
    text = page(batch_of([run, summary(2, evil)]), UnreadRun(evil, evil))
    assert harmful(text) == []


def test_a_step_that_was_not_tried_is_blank():
    runs = [summary(1, failed=("field",)), summary(2, passed=STEPS[1:]), summary(3)]
    assert "  field  #   ." in page(batch_of(runs))
