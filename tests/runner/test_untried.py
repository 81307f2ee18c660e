"""A step that an earlier line could not try is open again where another can."""

from helpers.run_bench import RunBench
from termprobe.journal.records import AS_EXPECTED, Answer
from termprobe.observer.scripted import ScriptedObserver
from termprobe.plan.model import Ask, LineCheck
from termprobe.runner.asking import Hands
from termprobe.runner.untried import take_back_untried
from termprobe.runner.walk import carry_out

PLUG = Ask("plug", "stage", "A plug", "Is it in?")
CHECK = LineCheck("echo", "stage", "Bytes", needs=("plug",), check="plug-bytes")


def test_what_cannot_be_tried_is_not_fitted_and_open_again_where_it_can(tmp_path):
    bench = RunBench(tmp_path, PLUG, CHECK, hands=Hands(can_plug=False))
    bench.link.abilities = ()
    carry_out(bench.run)
    assert bench.verdicts() == ["not-fitted", "not-fitted"]
    take_back_untried(bench.run)
    assert bench.verdicts() == ["not-fitted", "not-fitted"]
    bench.options, bench.link.abilities = {}, ()
    run = bench.resumed(ScriptedObserver({"plug": Answer(AS_EXPECTED)}))
    take_back_untried(run)
    assert bench.verdicts() == ["unanswered", "unanswered"]
