"""Steps and verdicts as lists."""

from helpers.bench_state import after_event, answers, judged, rows_of, state
from termprobe.session.draw import step_list
from termprobe.session.mode import View
from termprobe.session.mode_table import MODES
from termprobe.verdict import model


def test_every_verdict_has_a_mark_of_its_own():
    words = {model.PASS, model.FAIL, model.UNSURE, model.DISPUTED, model.SKIPPED, model.BLOCKED}
    assert set(step_list.VERDICT_MARKS) == words | {model.NOT_FITTED, model.UNANSWERED}
    assert len(set(step_list.VERDICT_MARKS.values())) == len(step_list.VERDICT_MARKS)


def test_steps_stand_under_the_titles_of_their_stages_around_the_one_in_hand():
    made = after_event(state("more"), judged(answers(("hello", "as-expected")), "more"))
    view = View(made, 20, 4, MODES["look"])
    assert rows_of(step_list.steps_around(view)) == [
        "Screen",
        " + Look at hello",
        ">. Look at more",
        " . Look at corners",
    ]


def test_a_stage_says_how_far_it_is():
    made = after_event(state(), judged(answers(("hello", "differs")), "more"))
    assert step_list.stage_title(made, "screen") == "stage 2 of 4: Screen"
    assert step_list.stage_title(made, "made-up") == ""
    assert step_list.stage_counts(made, "screen") == "1 fail, 3 left"


def test_the_row_of_a_step_ends_in_its_id_where_there_is_room():
    made = state("more")
    (row,) = rows_of([step_list.step_row(made, made.step, 60)])
    assert "Look at more" in row and row.endswith("  more ") and len(row) == 60
    (narrow,) = rows_of([step_list.step_row(made, made.step, 30)])
    assert not narrow.rstrip().endswith("  more")
