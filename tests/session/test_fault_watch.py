"""The cause is looked for beside the line and the console."""

import threading

from helpers.bench import look
from helpers.foresights import STUCK, Foretold
from helpers.run_bench import RunBench
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.session.fault_watch import FaultWatch
from termprobe.session.messages import Prospected, Trouble

LOOKS = [look(name) for name in "abc"]


def answered(bench, name, word):
    step = bench.plan.step(name)
    bench.run.perform(step)
    bench.run.record(step, Answer(word))
    return step


def test_once_two_looks_have_failed_the_fault_is_told(tmp_path):
    bench = RunBench(tmp_path, *LOOKS, foresight=Foretold())
    told = []
    watch = FaultWatch(bench.run, told.append)
    watch.after(answered(bench, "a", DIFFERS))
    watch.join()
    watch.after(answered(bench, "b", DIFFERS))
    watch.join()
    assert [one.prospect.named and one.prospect.named.fault for one in told] == [None, STUCK]


def test_a_look_that_passes_tells_of_it_only_where_it_was_asked_for_that(tmp_path):
    for name, helping, asked in (("plain", None, 0), ("helping", "c", 2)):
        (tmp_path / name).mkdir()
        foretold = Foretold(next_look=helping)
        bench = RunBench(tmp_path / name, *LOOKS, foresight=foretold)
        watch = FaultWatch(bench.run, lambda event: None)
        if helping:
            watch.after(answered(bench, "a", DIFFERS))
            watch.join()
        watch.after(answered(bench, "b", AS_EXPECTED))
        watch.join()
        assert foretold.asked == asked


def test_whoever_answers_does_not_wait_for_it(tmp_path):
    may_end = threading.Event()

    class Slow(Foretold):
        def prospect(self, records, verdict):
            assert may_end.wait(20)
            return super().prospect(records, verdict)

    bench = RunBench(tmp_path, *LOOKS, foresight=Slow())
    told = []
    watch = FaultWatch(bench.run, told.append)
    watch.after(answered(bench, "a", DIFFERS))
    watch.after(answered(bench, "b", DIFFERS))
    assert not told
    may_end.set()
    watch.join()
    assert [type(one) for one in told] == [Prospected, Prospected]
    assert told[-1].prospect.named is not None


def test_a_mistake_in_it_is_told_and_without_foresight_nothing_is_looked_for(tmp_path):
    class Wrong(Foretold):
        def prospect(self, records, verdict):
            raise RuntimeError("wrong")

    told = []
    bench = RunBench(tmp_path, *LOOKS, foresight=Wrong())
    watch = FaultWatch(bench.run, told.append)
    watch.after(answered(bench, "a", DIFFERS))
    watch.join()
    assert isinstance(told[0], Trouble)
    (tmp_path / "other").mkdir()
    bench = RunBench(tmp_path / "other", *LOOKS)
    FaultWatch(bench.run, told.append).after(answered(bench, "a", DIFFERS))
    assert len(told) == 1
