"""The rows above and below the screen."""

import dataclasses

from helpers.bench_state import after_event, answers, console, judged, state
from termprobe.session.draw import bars


def test_progress_and_time_left_come_from_the_measured_pace():
    records = answers(("hello", "as-expected"), ("lamp", "as-expected"))
    made = after_event(state(looks_s=(10.0, 30.0, 20.0)), judged(records, "word"))
    assert "2 done, 0 failed, 7 left, about 2 min" in console(made, 120, 32)
    assert "about" not in console(dataclasses.replace(made, looks_s=()), 120, 32).split("\n")[0], (
        "nothing is told before it is measured"
    )


def test_a_stage_is_cut_only_as_far_as_the_title_of_its_step_needs():
    plan = state().plan
    stages = tuple(
        dataclasses.replace(stage, title=f"{stage.title} that is described at length here")
        for stage in plan.stages
    )
    made = state("solid", plan=dataclasses.replace(plan, stages=stages))
    whole = " stage 2 of 4: Screen that is described at length here - Look at solid"
    assert whole in console(made, 80, 24)
    assert "… - Look at solid" in console(made, 40, 24)


def test_bytes_that_do_not_fit_are_counted():
    assert bars.shown_bytes(b"HELLO", 20) == '"HELLO"'
    assert bars.shown_bytes(b"*" * 1919, 20) == '"*****… (1919 bytes)'


def test_help_stays_in_the_footer_of_a_narrow_console():
    made = state()
    wide = "".join(text for _, text in bars.footer_row(made, 200))
    narrow = "".join(text for _, text in bars.footer_row(made, 36))
    assert "q stop" in wide and wide.rstrip().endswith("? help")
    assert narrow == " y as expected  q stop  ? help".ljust(36)


def test_a_caution_stands_below_the_question_of_its_step():
    rows = bars.top(state("supply-5v", "measure"), 80, 24)
    assert rows[-1][0] == (
        "class:fail",
        " ! Mains and the tube's anode voltage are in reach. One hand behind your back.",
    )
