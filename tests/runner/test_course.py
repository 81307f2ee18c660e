"""The course of a run: plan and records in, next thing to do out."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look, plan
from helpers.bench_plan import step
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    SKIPPED,
    Answer,
    Answered,
    Finished,
    Stopped,
    TakenBack,
)
from termprobe.link.base import Received
from termprobe.runner.course import BY_BUILDER, INTERRUPTED, course_of, failed_by, press_for
from termprobe.runner.due import CautionDue, OptionDue, StepDue, SwitchOffDue

MAINS, TUBE = "Mains are in reach.", "The tube is hot."


def said(step_id, word=AS_EXPECTED):
    return Answered(step_id, Answer(word))


def course(*steps, records=(), **fields):
    """Return the course of a run over `steps` with these records."""
    return course_of(plan(*steps), list(records), **fields)


def ids(steps):
    return [step.id for step in steps]


# -- what is due before a step ---------------------------------------------------------------------

WANTING = look("a", caution=MAINS, settings=(("echo", "on"), ("speed", "fast")))


def test_a_caution_is_due_first_then_each_setting_then_the_step_itself():
    begun = course(WANTING)
    assert begun.due(WANTING) == CautionDue(MAINS)
    read = begun.read(WANTING)
    assert read.due(WANTING) == OptionDue("echo", "on", then=(("speed", "fast"),))
    echo_on = read.set("echo", "on")
    assert echo_on.due(WANTING) == OptionDue("speed", "fast")
    assert echo_on.set("speed", "slow").due(WANTING) == OptionDue("speed", "fast")
    assert echo_on.set("speed", "fast").due(WANTING) == StepDue()


def test_where_nobody_attends_there_is_nobody_to_read_a_caution():
    due = course(WANTING).due(WANTING, is_attended=False)
    assert due == OptionDue("echo", "on", then=(("speed", "fast"),))


def test_a_step_that_sets_an_option_waits_for_no_other():
    switch = step(
        "s", "looks", "switch", option="echo", position="on", settings=(("speed", "fast"),)
    )
    assert course(switch).due(switch) == StepDue()


def test_a_caution_that_was_read_holds_for_all_steps_while_its_text_stays_the_same():
    first, same = look("a", caution=MAINS), look("b", caution=MAINS)
    other_text, other_stage = look("c", caution=TUBE), look("d", caution=MAINS, stage="more")
    read = course(first, same, other_text, other_stage).read(first)
    assert read.due(first) == read.due(same) == read.due(other_stage) == StepDue()
    assert read.due(other_text) == CautionDue(TUBE)


def test_a_course_once_made_stays_as_it_is():
    begun = course(WANTING, positions={"speed": "fast"})
    begun.read(WANTING)
    begun.set("echo", "on")
    assert begun.acknowledged == frozenset() and begun.positions == {"speed": "fast"}


def test_while_the_board_must_be_off_only_the_step_that_says_so_is_due():
    limits = {"unit": "V", "low": 4.75, "high": 5.25}
    rail = step("rail", "looks", "measure", stop_if="the reading is outside", **limits)
    after = look("a", caution=MAINS)
    too_high = Answered("rail", Answer(DIFFERS, value=5.5))
    found = course(rail, after, records=[too_high])
    assert found.due(after) == SwitchOffDue(rail) and found.due(rail) == StepDue()


def test_what_broke_a_sitting_is_told_by_its_kind_and_its_words_where_it_has_any():
    assert failed_by(ValueError("no such key")).endswith(": ValueError: no such key")
    assert failed_by(KeyError()).endswith(": KeyError")


# -- what comes next -------------------------------------------------------------------------------

THREE = (look("a"), look("b", needs=("a",)), look("c"))


def test_the_first_step_that_waits_for_an_answer_comes_next():
    assert course(*THREE).next_step().id == "a"
    assert course(*THREE, records=[said("a")]).next_step().id == "b"
    assert course(*THREE, records=[said("a", DIFFERS)]).next_step().id == "c"
    assert course(*THREE, records=[said("a", DIFFERS), said("c", SKIPPED)]).next_step() is None


def test_what_failed_before_a_repair_comes_next():
    steps = (look("a"), look("b"), look("c"))
    failed = [said("b", DIFFERS), said("c", DIFFERS), ToRepair("f", explains=("gone", "c", "b"))]
    again = [*failed, TakenBack("b"), TakenBack("c")]
    assert course(*steps, records=again).next_step().id == "c"
    assert course(*steps, records=[*again, said("c")]).next_step().id == "b"
    assert course(*steps, records=[*again, said("c"), said("b")]).next_step().id == "a"


def test_a_step_left_open_is_not_asked_again_though_it_has_no_answer():
    passed_over = course(*THREE, left_open=["a"])
    assert [passed_over.can_be_asked(one) for one in THREE] == [False, True, True]
    assert passed_over.next_step().id == "b" and passed_over.word("a") == "unanswered"


def test_a_verdict_is_found_by_the_id_of_its_step():
    found = course(*THREE, records=[said("b", SKIPPED)])
    assert found.verdict("b").verdict == found.word("b") == "skipped"
    assert found.word("unheard-of") == "unanswered"


COVERED = (look("a"), look("b"), look("c", covered_by=("a",)))


def test_what_a_look_will_cover_if_all_goes_well_is_not_counted_as_left():
    assert ids(course(*COVERED).steps_left()) == ["a", "b"]
    assert ids(course(*COVERED, records=[said("a")]).steps_left()) == ["b"]
    assert ids(course(*COVERED, records=[said("a", DIFFERS)]).steps_left()) == ["b", "c"]


def test_what_is_covered_itself_covers_nothing_and_nor_does_what_was_passed_over():
    chained = (look("a"), look("b", covered_by=("a",)), look("c", covered_by=("b",)))
    assert ids(course(*chained).steps_left()) == ["a", "c"]
    assert ids(course(*chained, records=[said("a")]).steps_left()) == ["c"]
    assert ids(course(*COVERED, left_open=["a"]).steps_left()) == ["a", "b", "c"]


def test_what_is_left_of_some_steps_is_of_these_alone():
    begun = course(*COVERED)
    assert ids(begun.steps_left(COVERED[1:])) == ["b"]
    assert begun.steps_left([]) == [] and ids(begun.steps_left(iter(COVERED))) == ["a", "b"]


def test_progress_counts_what_is_done_what_failed_and_what_is_left():
    steps = (*COVERED, look("d", not_fitted="no bell"), look("e", needs=("b",)))
    assert course(*steps).progress() == (0, 0, 4)
    # The look that a covers passes with it, and e is blocked by b.
    assert course(*steps, records=[said("a"), said("b", DIFFERS)]).progress() == (4, 1, 0)
    assert course(*steps, records=[said("a", SKIPPED)]).progress() == (1, 0, 3)


@given(st.data())
def test_if_all_goes_well_as_many_answers_are_asked_for_as_were_left(data):
    steps = []
    for number in range(data.draw(st.integers(1, 6))):
        earlier = [one.id for one in steps]
        need = data.draw(st.sampled_from(["", *earlier]))
        covers = st.lists(st.sampled_from(earlier), max_size=2, unique=True)
        covered_by = data.draw(covers if earlier else st.just([]))
        named = {"needs": (need,) * bool(need), "covered_by": tuple(covered_by)}
        steps.append(look(str(number), **named))
    left, records = len(course(*steps).steps_left()), []
    while (following := course(*steps, records=records).next_step()) is not None:
        records.append(said(following.id))
    done = course(*steps, records=records)
    assert len(records) == left
    assert done.ending(BY_BUILDER) == Finished("pass") and done.progress()[1:] == (0, 0)


# -- back along the trail --------------------------------------------------------------------------


def test_back_goes_along_the_answers_the_last_one_first():
    found = course(*THREE, records=[said("c"), said("a")])
    before, found = found.back("b")
    assert before.id == "a" and found.trail == ("c",)
    before, found = found.back("a")
    assert before.id == "c" and found.trail == ()
    assert found.back("c") == (None, found)


def test_back_passes_over_the_step_in_hand_however_often_it_was_answered():
    found = course(*THREE, records=[said("a"), said("b"), said("b")])
    assert found.back("b")[0].id == "a" and found.back("c")[0].id == "b"
    assert found.back(None)[0].id == "b"
    only = course(*THREE, records=[said("a")])
    assert only.back("a") == (None, only)


@given(st.lists(st.sampled_from("abc"), max_size=8), st.sampled_from([None, *"abc"]))
def test_back_never_gives_the_step_in_hand_and_ends(answered, in_hand):
    found = course(*THREE, records=[said(step_id) for step_id in answered])
    while True:
        length = len(found.trail)
        before, found = found.back(in_hand)
        if before is None:
            break
        assert before.id != in_hand and len(found.trail) < length
        in_hand = before.id
    assert set(found.trail) <= {in_hand}


# -- presses ---------------------------------------------------------------------------------------

Q, W = step("press/q", "keyboard", "press"), step("press/w", "keyboard", "press")
UP = step("press/up", "keyboard", "press", code=b"\x1b[A")
BREAK_KEY = step("press/break", "keyboard", "press", code=b"", is_break=True)


def test_the_last_press_is_the_one_answered_last():
    records = [said("press/q"), said("press/w"), said("a")]
    assert course(Q, W, look("a"), records=records).last_press() is W
    records.append(TakenBack("press/w"))
    assert course(Q, W, look("a"), records=records).last_press() is Q
    assert course(Q, look("a"), records=[said("a")]).last_press() is None


def test_the_presses_left_are_those_that_can_be_asked_for():
    steps = (look("a"), Q, W, UP, replace(BREAK_KEY, not_fitted="no break"))
    begun = course(*steps, records=[said("press/q", DIFFERS)], left_open=["press/up"])
    assert begun.presses_left() == [W]


def test_a_press_counts_for_the_key_that_sends_just_that_else_for_one_whose_code_begins_it():
    escape = step("press/escape", "keyboard", "press", code=b"\x1b")
    presses = [escape, UP, Q]
    assert press_for(presses, b"q") is Q and press_for(presses, b"\x1b[A") is UP
    assert press_for(presses, b"qq") is Q and press_for(presses, b"\x1b[B") is escape
    assert press_for(iter(presses), b"x") is None and press_for([], b"q") is None


def test_bytes_are_no_beginning_of_a_break():
    assert press_for([BREAK_KEY, Q], b"q") is Q and press_for([BREAK_KEY], b"q") is None


@given(st.lists(st.sampled_from([Q, W, UP, BREAK_KEY])), st.binary(max_size=4))
def test_what_a_press_counts_for_begins_what_came(presses, data):
    found = press_for(presses, data)
    if found is None:
        codes = [step.press.code for step in presses if step.press.code]
        assert not [code for code in codes if data.startswith(code)]
    else:
        assert found in presses and data.startswith(found.press.code)


def heard(*data):
    return tuple(Received(0.1, one) for one in data)


def test_a_press_counts_in_listed_order_for_the_one_asked_for_whatever_came():
    begun = course(Q, W)
    for events in ((), heard(b"w"), heard(b"x")):
        assert begun.press_meant(Q, events, is_free=False) is Q
    assert not begun.is_any_press(Q, is_free=False)


def test_a_press_counts_in_free_order_for_the_one_left_that_it_fits():
    begun = course(Q, W, UP)
    assert begun.is_any_press(Q, is_free=True)
    assert begun.press_meant(Q, heard(b"w"), is_free=True) is W
    assert begun.press_meant(Q, heard(b"\x1b", b"[A"), is_free=True) is UP
    assert begun.press_meant(Q, heard(b"x"), is_free=True) is None
    w_done = course(Q, W, records=[said("press/w")])
    assert w_done.press_meant(Q, heard(b"w"), is_free=True) is None


def test_nothing_heard_is_a_miss_only_of_a_key_that_was_asked_for():
    begun, done = course(Q, W), course(Q, W, records=[said("press/q")])
    assert begun.press_meant(Q, (), is_free=True) is None
    assert not done.is_any_press(Q, is_free=True), "it is to be pressed again"
    assert done.press_meant(Q, (), is_free=True) is Q
    assert done.press_meant(Q, heard(b"q"), is_free=True) is Q


def test_any_press_may_come_only_where_one_is_in_hand():
    assert not course(look("a"), Q).is_any_press(look("a"), is_free=True)


# -- the end ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("reason", [BY_BUILDER, "the line is gone"])
def test_a_run_is_finished_where_nothing_waits_and_else_stopped_for_its_reason(reason):
    assert course(*THREE).ending(reason) == Stopped(reason)
    failed = course(*THREE, records=[said("a", DIFFERS), said("c")])
    assert failed.ending(reason) == Finished("fail")
    assert course(*THREE, left_open="abc").ending(reason) == Finished("incomplete")


def test_an_interrupted_run_is_never_finished():
    assert course(look("a"), records=[said("a")]).ending(INTERRUPTED) == Stopped(INTERRUPTED)


FOUR = (look("a"), look("b"), look("c", needs=("b",)), look("d"))


def back_to_a():
    """Return the course of a run of four answered steps, gone back over down to the first."""
    made = course(*FOUR, records=[said(step.id) for step in FOUR])
    in_hand = None
    for _ in FOUR:
        step, made = made.back(in_hand)
        in_hand = step.id
    return made


def test_forward_goes_through_what_was_gone_back_over_and_passes_nothing_by():
    made, found, in_hand = back_to_a(), [], "a"
    assert made.ahead == ("d", "c", "b") and made.trail == ()
    while (there := made.forward(in_hand))[0] is not None:
        (step, made), in_hand = there, there[0].id
        found.append(step.id)
    assert found == ["b", "c", "d"] and made.trail == ("a", "b", "c")


def test_a_new_answer_goes_forward_too_and_only_what_it_blocks_is_passed_by():
    made = back_to_a()
    _, at_b = made.forward("a")
    failed = course(*FOUR, records=[*map(said, "abcd"), Answered("b", Answer("differs"))])
    answered = at_b.answered("b", failed.verdicts)
    step, further = answered.forward()
    assert step.id == "d" and further.trail == ("a", "b", "c") and further.ahead == ()


def test_a_failed_step_is_not_passed_by():
    records = [said("a"), Answered("b", Answer("differs")), said("d")]
    made = course(*FOUR, records=records)
    for in_hand in (None, "d", "b"):
        step, made = made.back(in_hand)
    assert step.id == "a" and made.forward("a")[0].id == "b"


def test_who_goes_elsewhere_finds_all_of_it_on_the_trail_again():
    assert back_to_a().gone_on().trail == ("b", "c", "d")
    assert back_to_a().gone_on().ahead == ()


def test_presses_are_asked_in_the_order_of_a_run_after_another():
    presses = [step(f"press/{key}", "keys", "press") for key in "abc"]
    after = ComesAfter("x.run.jsonl", first=("press/c",))
    assert ids(course(*presses, records=[after]).presses_left()) == [
        "press/c",
        "press/a",
        "press/b",
    ]
    assert course(*presses, records=[after]).next_step().id == "press/c"
