"""A run knows where the options of the board stand."""

from helpers.bench import Says, look
from helpers.run_bench import RunBench
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, OptionSet
from termprobe.observer.base import STOP, Wish
from termprobe.plan.model import Switch
from termprobe.runner.due import OptionDue, StepDue
from termprobe.runner.walk import carry_out

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)
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
