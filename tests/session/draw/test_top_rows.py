"""The rows above the screen."""

import dataclasses

from helpers.bench_state import after_event, answers, console, judged, rows_of, state
from termprobe.session.draw.top_rows import top


def test_progress_and_time_left_come_from_the_measured_pace():
    records = answers(("hello", "as-expected"), ("lamp", "as-expected"))
    made = after_event(state(looks_s=(10.0, 30.0, 20.0)), judged(records, "word"))
    assert "2 done, 0 failed, 7 left, about 2 min" in console(made, 120, 32)
    assert "about" not in console(dataclasses.replace(made, looks_s=()), 120, 32).split("\n")[0], (
        "nothing is told before it is measured"
    )


def test_the_name_of_a_stage_gives_way_to_the_title_of_its_step():
    plan = state().plan
    stages = tuple(
        dataclasses.replace(stage, title=f"{stage.title} that is described at length here")
        for stage in plan.stages
    )
    made = state("solid", plan=dataclasses.replace(plan, stages=stages))
    whole = " stage 2 of 4: Screen that is described at length here - Look at solid"
    assert whole in console(made, 80, 24)
    assert " stage 2 of 4 - Look at solid\n" in console(made, 60, 24)
    assert "\n Look at solid\n" in console(made, 25, 24)


def test_a_caution_stands_whole_below_the_question_of_its_step():
    rows = top(state("supply-5v", "measure"), 80, 24)
    assert [style for (style, _) in [rows[-2][0], rows[-1][0]]] == ["class:question", "class:fail"]
    assert rows_of(rows)[-1] == (
        " ! Mains and the tube's anode voltage are in reach. One hand behind your back."
    )
    narrow = " ".join(rows_of(top(state("supply-5v", "measure"), 40, 24)))
    assert "One hand behind your back." in " ".join(narrow.split())


def test_a_question_without_room_says_which_key_shows_all_of_it():
    plan = state().plan
    steps = tuple(dataclasses.replace(step, question="Is it so? " * 199) for step in plan.steps)
    made = state(plan=dataclasses.replace(plan, steps=steps))
    assert "(? all)" in console(made, 80, 24)
