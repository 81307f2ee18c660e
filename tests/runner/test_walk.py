"""The loop without a screen: each step in order, every wish served, and an end on record."""

import pytest

from helpers.bench import Says, look
from helpers.bench_plan import step
from helpers.run_bench import RunBench
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import ToRepair
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Answered,
    CautionRead,
    Finished,
    Noted,
    OptionSet,
    Sent,
    Stopped,
    TakenBack,
)
from termprobe.observer.base import BACK, FORWARD, REPEAT, SKIP_STAGE, SLOWER, STOP, Remark, Wish
from termprobe.plan.model import Group
from termprobe.runner.course import SWITCHED_OFF
from termprobe.runner.due import StepDue
from termprobe.runner.told import GoneBack, LeftOpen, SwitchOff
from termprobe.runner.walk import carry_out

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)


def test_whole_loop_sends_asks_and_records(tmp_path):
    bench = RunBench(tmp_path, look("a"), look("b", "BYE"), observers=[Says(YES, NO)])
    assert carry_out(bench.run) is True
    assert bench.verdicts() == ["pass", "fail"]
    assert bench.sent() == b"\x1aHELLO\x1aBYE"
    of_step = ["step", "sent", "sent", "answer"]
    assert [one.kind for one in bench.records(object)] == [*of_step, *of_step, "finished"]
    assert bench.records(Sent)[1].data == b"HELLO"
    assert bench.records(Finished)[0].verdict == "fail"


def test_a_step_that_nobody_answers_stays_unanswered_and_the_run_incomplete(tmp_path):
    bench = RunBench(tmp_path, look("a"), look("b"), observers=[Says(None, YES)])
    assert carry_out(bench.run) is True
    assert bench.verdicts() == ["unanswered", "pass"]
    assert bench.run.verdicts().verdict == "incomplete"
    assert bench.records(Finished)[0].verdict == "incomplete"
    assert bench.run.course.next_step() is None  # not asked again in this sitting
    assert bench.resumed().course.next_step().id == "a"


def test_an_answer_that_cannot_be_judged_leaves_its_step_open_for_this_sitting(tmp_path):
    says = Says(Answer(value=5.0), YES)
    bench = RunBench(tmp_path, look("a"), look("b"), observers=[says])
    assert carry_out(bench.run) and says.asked == ["a", "b"]
    assert bench.verdicts() == ["unanswered", "pass"]


def test_repeat_and_slower_send_again(tmp_path):
    bench = RunBench(tmp_path, look("a"), observers=[Says(Wish(REPEAT), Wish(SLOWER), YES)])
    carry_out(bench.run)
    assert bench.sent() == b"\x1aHELLO" * 3
    assert len(bench.records(Answered)) == 1


def test_each_wish_for_slower_doubles_the_time_and_repeat_keeps_it(tmp_path):
    text = (Group(b"x" * 960, "text"),)
    says = Says(Wish(SLOWER), Wish(SLOWER), Wish(REPEAT), YES)
    bench = RunBench(tmp_path, look("a", groups=text), look("b", groups=text), observers=[says])
    carry_out(bench.run)
    began = [one.t for one in bench.records(object) if one.kind == "step"]
    ended = [one.t for one in bench.records(Sent)]
    took_s = [end - begin for begin, end in zip(began, ended, strict=True)]
    assert took_s == pytest.approx([1, 2, 4, 4, 1], rel=0.02)


def test_back_asks_the_step_before_again_and_keeps_both_answers(tmp_path):
    bench = RunBench(tmp_path, look("a"), look("b"), observers=[Says(NO, Wish(BACK), YES, YES)])
    assert carry_out(bench.run) is True
    assert bench.verdicts() == ["pass", "pass"]
    words = [record.answer.word for record in bench.records(Answered)]
    assert words == [DIFFERS, AS_EXPECTED, AS_EXPECTED]
    assert bench.run.verdicts().steps[0].answers == 2


def test_back_twice_goes_two_steps_back_and_back_at_the_first_step_stays(tmp_path):
    back = Wish(BACK)
    says = Says(YES, YES, back, back, back, YES, YES)
    carry_out(RunBench(tmp_path, look("a"), look("b"), look("c"), observers=[says]).run)
    assert says.asked == ["a", "b", "c", "b", "a", "a", "b", "c"]


def test_forward_keeps_the_earlier_answer_and_asks_each_step_gone_back_over(tmp_path):
    back, on = Wish(BACK), Wish(FORWARD)
    says = Says(YES, NO, on, back, back, on, on, YES)
    bench = RunBench(tmp_path, look("a"), look("b"), look("c"), observers=[says])
    carry_out(bench.run)
    assert says.asked == ["a", "b", "c", "c", "b", "a", "b", "c"]
    assert bench.verdicts() == ["pass", "fail", "pass"] and len(bench.records(Answered)) == 3
    told = [(event.verdict.id, event.verdict.verdict) for event in bench.told(GoneBack)]
    assert told == [("b", "fail"), ("a", "pass"), ("b", "fail")]


def test_an_answer_that_stands_is_gone_back_to_again(tmp_path):
    back, on = Wish(BACK), Wish(FORWARD)
    says = Says(YES, YES, back, back, on, back, YES, YES, YES)
    carry_out(RunBench(tmp_path, look("a"), look("b"), look("c"), observers=[says]).run)
    assert says.asked == ["a", "b", "c", "b", "a", "b", "a", "b", "c"]


def test_back_goes_along_the_answers_and_not_to_what_was_left_open(tmp_path):
    says = Says(YES, None, Wish(BACK), YES, YES)
    carry_out(RunBench(tmp_path, look("a"), look("b"), look("c"), observers=[says]).run)
    assert says.asked == ["a", "b", "c", "a", "c"]


def test_back_goes_to_an_answer_of_an_earlier_sitting(tmp_path):
    bench = RunBench(tmp_path, look("a"), look("b"), observers=[Says(YES, Wish(STOP))])
    carry_out(bench.run)
    says = Says(Wish(BACK), NO, YES)
    carry_out(bench.resumed(says))
    assert says.asked == ["b", "a", "b"] and bench.verdicts() == ["fail", "pass"]


def test_stop_ends_with_a_record_and_resume_goes_on_at_the_first_unanswered_step(tmp_path):
    bench = RunBench(tmp_path, look("a"), look("b"), observers=[Says(YES, Wish(STOP))])
    assert carry_out(bench.run) is False
    assert bench.records(Stopped)[-1].reason == "stopped by the builder"
    says = Says(YES)
    assert carry_out(bench.resumed(says)) is True
    assert says.asked == ["b"] and bench.verdicts() == ["pass", "pass"]


def test_ctrl_c_leaves_a_stopped_record(tmp_path):
    def interrupt(step):
        raise KeyboardInterrupt

    bench = RunBench(tmp_path, look("a"), look("b"), observers=[Says(YES, interrupt)])
    with pytest.raises(KeyboardInterrupt):
        carry_out(bench.run)
    assert bench.records(Stopped)[-1].reason == "interrupted"
    assert len(bench.records(Answered)) == 1


def test_a_note_alone_is_kept_and_the_question_stands(tmp_path):
    bench = RunBench(tmp_path, look("a"), observers=[Says(Remark("dim screen"), YES)])
    carry_out(bench.run)
    assert bench.records(Noted)[0].text == "dim screen" and bench.verdicts() == ["pass"]
    assert bench.records(Noted)[0].step == "a" and len(bench.records(Answered)) == 1


def test_blocked_steps_are_not_tried(tmp_path):
    says = Says(NO)
    steps = (look("a"), look("b", needs=("a",)), look("c", needs=("b",)))
    bench = RunBench(tmp_path, *steps, observers=[says])
    assert carry_out(bench.run) is True
    assert says.asked == ["a"] and bench.verdicts() == ["fail", "blocked", "blocked"]


# -- after a repair --------------------------------------------------------------------------------


def repaired(folder, *failed):
    """Return the bench of a run of a to e that stopped to repair what made `failed` fail.

    What is not in `failed`, and stands before the last of it, has passed.
    """
    bench = RunBench(folder, *map(look, "abcde"))
    for name in failed:
        bench.run.record(bench.plan.step(name), NO)
    bench.journal.append(ToRepair("made-up", explains=failed))
    for name in failed:
        bench.journal.append(TakenBack(name))
    return bench


def test_what_failed_before_a_repair_is_asked_first_and_then_the_rest_in_order(tmp_path):
    says = Says()
    assert carry_out(repaired(tmp_path, "b", "d").resumed(says))
    assert says.asked == ["b", "d", "a", "c", "e"]


def test_back_among_the_first_steps_after_a_repair_leaves_none_of_the_others_out(tmp_path):
    says = Says(YES, Wish(BACK), NO, YES)
    bench = repaired(tmp_path, "b", "d")
    assert carry_out(bench.resumed(says))
    assert says.asked == ["b", "d", "b", "d", "a", "c", "e"]
    assert bench.verdicts() == ["pass", "fail", "pass", "pass", "pass"]


def test_back_at_the_very_first_step_after_a_repair_asks_it_again(tmp_path):
    says = Says(Wish(BACK), YES)
    assert carry_out(repaired(tmp_path, "b", "d").resumed(says))
    assert says.asked == ["b", "b", "d", "a", "c", "e"]


def test_back_from_the_rest_goes_to_the_first_steps_after_a_repair(tmp_path):
    says = Says(YES, YES, Wish(BACK), Wish(BACK), Wish(FORWARD), YES, YES)
    assert carry_out(repaired(tmp_path, "b", "d").resumed(says))
    assert says.asked == ["b", "d", "a", "d", "b", "d", "a", "c", "e"]


def test_stop_among_the_first_steps_after_a_repair_ends_the_run(tmp_path):
    says = Says(YES, Wish(STOP))
    bench = repaired(tmp_path, "b", "d")
    assert not carry_out(bench.resumed(says))
    assert says.asked == ["b", "d"] and bench.records(Stopped)
    again = Says()
    assert carry_out(bench.resumed(again)) and again.asked == ["d", "a", "c", "e"]


# -- after another run -----------------------------------------------------------------------------


def test_a_run_after_another_sends_chains_whole_and_minds_options_cautions_and_blocks(tmp_path):
    says = Careful(True, YES, YES, NO)
    steps = (
        look("a"),
        look("b", groups=(Group(b"B", "text"),), continues=True, settings=ON),
        look("c", caution="mains"),
        look("d", needs=("c",)),
    )
    bench = RunBench(tmp_path, *steps, positions={"echo": "off"})
    bench.journal.append(ComesAfter("x.run.jsonl", first=("b", "c"), sharing=("gone",)))
    bench.run = bench.new_run(says)
    assert carry_out(bench.run)
    assert says.asked == ["echo-on", "b", "c", "a"] and says.cautions == ["mains"]
    assert bench.sent().startswith(b"\x1aHELLOB\x1aHELLO")
    assert bench.verdicts() == ["pass", "pass", "fail", "blocked"]


# -- options ---------------------------------------------------------------------------------------

ON, OFF = (("echo", "on"),), (("echo", "off"),)


def test_options_are_asked_for_once_and_noted(tmp_path):
    says = Says()
    bench = RunBench(
        tmp_path,
        look("a", settings=OFF),
        look("b", settings=ON),
        look("c", settings=ON),
        observers=[says],
        positions={"echo": "off"},
    )
    carry_out(bench.run)
    assert says.asked == ["a", "echo-on", "b", "c"]
    assert [(one.option, one.position) for one in bench.records(OptionSet)] == [("echo", "on")]
    bench.options = {}
    assert bench.resumed().course.due(bench.plan.steps[1]) == StepDue()


def test_a_step_whose_option_nobody_sets_stays_open(tmp_path):
    bench = RunBench(
        tmp_path,
        look("a", settings=ON),
        observers=[Says(kinds=("look",))],
        positions={"echo": "off"},
    )
    carry_out(bench.run)
    assert bench.verdicts() == ["unanswered"] and bench.sent() == b""
    assert LeftOpen(bench.plan.steps[0]) in bench.events


def test_while_an_option_is_set_one_can_stop_or_go_back(tmp_path):
    steps = (look("a"), look("b", settings=ON))
    says = Says(YES, Wish(BACK), YES, Wish(STOP))
    bench = RunBench(tmp_path, *steps, observers=[says], positions={"echo": "off"})
    assert carry_out(bench.run) is False
    assert says.asked == ["a", "echo-on", "a", "echo-on"]
    assert bench.verdicts() == ["pass", "unanswered"]


# -- cautions --------------------------------------------------------------------------------------


class Careful(Says):
    """A person who acknowledges cautions, or does not; `again` is said to each switch-off."""

    def __init__(self, goes_on, *answers, again=(), wish=None):
        super().__init__(*answers)
        self.goes_on, self.wish, self.cautions = goes_on, wish or Wish(STOP), []
        self.again, self.dangers = list(again), []

    def switch_off(self, step):
        self.dangers.append(step.id)
        return self.again.pop(0)

    def acknowledge(self, text):
        self.cautions.append(text)
        return None if self.goes_on else self.wish

    def typed(self, step, data):
        return None


def test_a_caution_is_acknowledged_once_while_its_text_stays_and_again_after_resume(tmp_path):
    says = Careful(True, YES, YES, Wish(STOP))
    steps = [
        look("a", caution="mains"),
        look("b", caution="mains", stage="more"),
        look("c", caution="tube", stage="more"),
        look("d", caution="mains", stage="more"),
    ]
    bench = RunBench(tmp_path, *steps, observers=[says])
    carry_out(bench.run)
    assert says.cautions == ["mains", "tube"] and len(bench.records(CautionRead)) == 2
    again = Careful(True)
    carry_out(bench.resumed(again))
    assert again.cautions == ["tube", "mains"]


def test_a_caution_not_acknowledged_stops_before_anything_is_sent(tmp_path):
    bench = RunBench(tmp_path, look("a", caution="mains"), observers=[Careful(False)])
    assert carry_out(bench.run) is False
    assert bench.sent() == b"" and bench.records(Stopped)


def test_a_stage_is_left_out_at_its_caution(tmp_path):
    says = Careful(False, YES, wish=Wish(SKIP_STAGE, "no meter"))
    steps = look("a", caution="mains"), look("b", caution="mains"), look("c", stage="more")
    bench = RunBench(tmp_path, *steps, observers=[says])
    assert carry_out(bench.run) is True
    assert bench.verdicts() == ["skipped", "skipped", "pass"] and not bench.records(CautionRead)


def test_where_no_person_observes_nobody_reads_a_caution_and_the_step_is_carried_out(tmp_path):
    bench = RunBench(tmp_path, look("a", caution="mains"), observers=[Says(YES)])
    assert carry_out(bench.run) is True
    assert bench.verdicts() == ["pass"] and not bench.records(CautionRead)


# -- switching off ---------------------------------------------------------------------------------

LOW, RIGHT = Answer(DIFFERS, value=5.5), Answer(AS_EXPECTED, value=5.0)


def rail():
    limits = {"unit": "V", "low": 4.75, "high": 5.25}
    return step("rail", "looks", "measure", stop_if="the reading is outside", **limits)


def test_where_nobody_attends_a_reading_that_says_switch_off_ends_the_run_and_nothing_is_sent(
    tmp_path,
):
    bench = RunBench(tmp_path, rail(), look("a"), observers=[Says(LOW, YES)])
    assert carry_out(bench.run) is False
    assert bench.sent() == b"" and bench.verdicts() == ["fail", "blocked"]
    assert [event.step.id for event in bench.told(SwitchOff)] == ["rail"]
    assert [record.reason for record in bench.records(Stopped)] == [SWITCHED_OFF]


def test_a_run_that_was_switched_off_begins_with_that_reading_again(tmp_path):
    bench = RunBench(tmp_path, rail(), look("a"), observers=[Says(LOW)])
    carry_out(bench.run)
    still = Says(LOW)
    assert carry_out(bench.resumed(still)) is False
    assert still.asked == ["rail"] and bench.sent() == b""
    assert carry_out(bench.resumed(Says(RIGHT, YES))) is True
    assert bench.verdicts() == ["pass", "pass"] and bench.sent() == b"\x1aHELLO"


def test_a_person_measures_again_or_stops(tmp_path):
    says = Careful(True, LOW, LOW, RIGHT, YES, again=[True, True])
    bench = RunBench(tmp_path, rail(), look("a"), observers=[says])
    assert carry_out(bench.run) is True
    assert says.dangers == ["rail", "rail"] and bench.verdicts() == ["pass", "pass"]


def test_a_person_who_stops_has_sent_nothing(tmp_path):
    bench = RunBench(tmp_path, rail(), look("a"), observers=[Careful(True, LOW, again=[False])])
    assert carry_out(bench.run) is False
    assert bench.sent() == b"" and bench.records(Stopped)[0].reason == SWITCHED_OFF
    resumed = Careful(True, again=[False])
    assert carry_out(bench.resumed(resumed)) is False and resumed.dangers == ["rail"]
