"""A run knows where options stand, and asks the strongest observer that can answer."""

from helpers.bench import Says, look
from helpers.run_bench import RunBench
from termprobe.errors import ObserverError
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DUMP,
    EYES,
    Answer,
    Noted,
    OptionSet,
)
from termprobe.observer.base import STOP, Wish
from termprobe.plan.model import Switch
from termprobe.runner.course import StepDue, OptionDue
from termprobe.runner.told import ObserverTrouble
from termprobe.runner.walk import carry_out

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)


def broken(step):
    raise ObserverError("the dump command d must print 24 rows, not 3")


# -- options ---------------------------------------------------------------------------------------

ON = (("echo", "on"),)


def test_positions_that_are_known_overrule_what_the_journal_holds(tmp_path):
    bench = RunBench(
        tmp_path,
        look("a", settings=ON),
        observers=[Says(YES, Wish(STOP))],
        positions={"echo": "off"},
    )
    carry_out(bench.run)
    step = bench.plan.steps[0]
    assert bench.run.course.due(step) == StepDue()
    # A simulated board starts anew.
    assert bench.resumed().course.due(step) == OptionDue("echo", "on")
    bench.options = {}
    bench.run.set_option("echo", "on")
    # A real one is as it was left.
    assert bench.resumed().course.due(step) == StepDue()


def test_positions_that_the_journal_agrees_with_are_not_noted_again(tmp_path):
    bench = RunBench(tmp_path, look("a", settings=ON), positions={"echo": "off"})
    assert not bench.records(OptionSet)
    bench.run.set_option("echo", "on")
    bench.options = {"positions": {"echo": "on"}}
    bench.resumed()
    assert len(bench.records(OptionSet)) == 1


def test_the_plan_s_own_switch_step_sets_an_option(tmp_path):
    switch = Switch("set-echo", "looks", "Echo", option="echo", position="on")
    bench = RunBench(
        tmp_path,
        switch,
        look("b", settings=ON),
        observers=[Says()],
        positions={"echo": "off"},
    )
    carry_out(bench.run)
    assert bench.verdicts() == ["pass", "pass"] and len(bench.records(OptionSet)) == 1


def test_a_switch_that_was_not_moved_is_not_noted(tmp_path):
    switch = Switch("set-echo", "looks", "Echo", option="echo", position="on")
    bench = RunBench(tmp_path, switch)
    bench.run.record(switch, NO)
    assert not bench.records(OptionSet)


# -- who answers -----------------------------------------------------------------------------------


def test_strongest_observer_is_asked_first_and_the_next_where_it_cannot(tmp_path):
    strong, weak = Says(broken, YES, strength=DUMP), Says(YES)
    bench = RunBench(tmp_path, look("a"), look("b"), observers=[weak, strong])
    carry_out(bench.run)
    assert (strong.asked, weak.asked) == (["a", "b"], ["a"])
    assert [bench.run.verdict(step).observer for step in bench.plan.steps] == ["somebody"] * 2
    assert [event.text for event in bench.told(ObserverTrouble)] == [
        "the dump command d must print 24 rows, not 3"
    ]
    assert "24 rows" in bench.records(Noted)[0].text


def test_an_answer_is_kept_with_who_gave_it(tmp_path):
    bench = RunBench(tmp_path, look("a"), observers=[Says(YES, Answer(AS_EXPECTED, observer="x"))])
    step = bench.plan.steps[0]
    assert bench.run.ask(step) == Answer(AS_EXPECTED, observer="somebody", strength=EYES)
    assert bench.run.ask(step) == Answer(AS_EXPECTED, observer="x", strength=EYES)


def test_an_observer_in_trouble_three_times_in_a_row_is_given_up(tmp_path):
    strong = Says(*[broken] * 9, strength=DUMP)
    bench = RunBench(tmp_path, *(look(name) for name in "abcde"), observers=[strong])
    carry_out(bench.run)
    assert strong.asked == ["a", "b", "c"] and bench.verdicts() == ["unanswered"] * 5
    assert [event.is_given_up for event in bench.told(ObserverTrouble)] == [False, False, True]


def test_an_observer_that_answers_in_between_is_not_given_up(tmp_path):
    strong = Says(broken, broken, YES, broken, broken, YES, strength=DUMP)
    bench = RunBench(tmp_path, *(look(name) for name in "abcdef"), observers=[strong])
    carry_out(bench.run)
    assert strong.asked == ["a", "b", "c", "d", "e", "f"]
