"""A fault is named in time, and what is decided about it is done."""

from helpers.bench import Says, look, screen_of
from helpers.foresights import STUCK, Foretold
from helpers.run_bench import RunBench
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.journal.records import AS_EXPECTED, DIFFERS, DUMP, Answer, Answered, Finished
from termprobe.observer.base import BACK, STOP, Wish
from termprobe.runner.known_fault import (
    ASK_ON,
    REPAIR,
    Prospect,
    answers_to,
    carry_on,
    helping_step,
)
from termprobe.runner.told import SearchBegun
from termprobe.runner.walk import carry_out

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)
LOOKS = [look(name) for name in "abcde"]


class Decides:
    """Decides as it is told, and keeps what it was asked about."""

    def __init__(self, word):
        self.word, self.asked = word, []

    def __call__(self, named):
        self.asked.append(named)
        return self.word


def bench_of(folder, *said, strength=1, **foretold):
    says = Says(*said, strength=strength)
    return RunBench(folder, *LOOKS, observers=[says], foresight=Foretold(**foretold)), says


def test_a_run_that_carries_on_expects_the_screens_of_the_fault_from_there_on(tmp_path):
    shown = screen_of("HALLO")
    bench, says = bench_of(tmp_path, NO, NO, YES, YES, YES, c=shown)
    assert carry_out(bench.run, carry_on)
    (known,) = bench.records(KnownFault)
    assert (known.fault, known.explains) == (STUCK, ("a", "b"))
    against = [one.against for one in bench.records(Answered)]
    assert [bool(one) for one in against] == [False, False, True, False, False]
    assert against[2].rows == shown.rows
    assert bench.records(Finished)[0].verdict == "fail"
    assert bench.verdicts() == ["fail", "fail", "pass", "pass", "pass"]


def test_whoever_is_asked_is_shown_the_screen_of_the_fault(tmp_path):
    seen = []

    def keep(step):
        seen.append((step.expected.rows[0].strip(), step.question))
        return YES

    bench, _ = bench_of(tmp_path, NO, NO, keep, keep, c=screen_of("HALLO"))
    carry_out(bench.run, carry_on)
    assert [rows for rows, _ in seen] == ["HALLO", "HELLO"]
    assert "known fault" in seen[0][1] and "known fault" not in seen[1][1]


def test_looks_that_the_fault_hides_are_not_asked_of_eyes_and_of_a_dump_they_are(tmp_path):
    bench, says = bench_of(tmp_path, NO, NO, hidden=("d",))
    assert carry_out(bench.run, carry_on)
    assert says.asked == ["a", "b", "c", "e"]
    (tmp_path / "other").mkdir()
    bench, says = bench_of(tmp_path / "other", NO, NO, strength=DUMP, hidden=("d",))
    carry_out(bench.run, carry_on)
    assert says.asked == ["a", "b", "c", "d", "e"]


def test_for_a_repair_the_run_stops_and_says_what_for(tmp_path):
    bench, says = bench_of(tmp_path, NO, NO)
    decides = Decides(REPAIR)
    assert not carry_out(bench.run, decides)
    (record,) = bench.records(ToRepair)
    assert (record.fault, record.explains) == (STUCK, ("a", "b"))
    assert says.asked == ["a", "b"] and decides.asked[0].title == "line 2 stuck at 0"


def test_whoever_wants_to_be_asked_on_is_told_once(tmp_path):
    bench, says = bench_of(tmp_path, NO, NO, NO, NO, NO)
    decides = Decides(ASK_ON)
    assert carry_out(bench.run, decides)
    assert len(decides.asked) == 1 and says.asked == list("abcde")
    assert not bench.records(KnownFault)


def test_a_look_that_helps_is_asked_first_and_then_the_others_in_order(tmp_path):
    bench, says = bench_of(tmp_path, NO, NO, next_look="d")
    carry_out(bench.run, carry_on)
    assert says.asked == ["a", "d", "b", "c", "e"]


def test_from_a_look_that_helps_the_builder_goes_back_and_stops_as_from_any(tmp_path):
    bench, says = bench_of(tmp_path, NO, Wish(BACK), YES, Wish(STOP), next_look="d")
    assert not carry_out(bench.run, carry_on)
    assert says.asked == ["a", "d", "a", "d"]


def test_back_from_a_look_that_helps_leaves_none_of_those_between_out(tmp_path):
    bench, says = bench_of(tmp_path, NO, Wish(BACK), YES, YES, next_look="d")
    assert carry_out(bench.run, carry_on)
    assert says.asked == ["a", "d", "a", "d", "b", "c", "e"]


def test_whoever_waits_for_the_next_question_is_told_why_before_each_search(tmp_path):
    bench, _ = bench_of(tmp_path, NO, YES, NO)
    seen = []
    prospect = bench.run.foresight.prospect

    def searched(records, verdict):
        seen.append(bench.events[-1])
        return prospect(records, verdict)

    bench.run.foresight.prospect = searched
    carry_out(bench.run)
    assert seen == [SearchBegun()] * len(seen) and len(seen) >= 2
    assert len(bench.told(SearchBegun)) == len(seen)


def test_without_foresight_nothing_is_named(tmp_path):
    says = Says(NO, NO, NO)
    bench = RunBench(tmp_path, *LOOKS, observers=[says])
    assert carry_out(bench.run, carry_on)
    assert not bench.records(KnownFault) and says.asked == list("abcde")


class AsksAgain(Foretold):
    """Wants the look `a` once more as soon as it has one answer, and names the fault then."""

    def prospect(self, records, verdict):
        if answers_to("a", verdict) == 1:
            return Prospect(next="a", answers=1)
        return super().prospect(records, verdict)


def test_a_look_on_which_the_cause_hangs_is_asked_once_more_and_the_run_goes_on(tmp_path):
    says = Says(NO, YES, YES)
    foresight = AsksAgain(after=9)
    bench = RunBench(tmp_path, *LOOKS, observers=[says], foresight=foresight)
    assert carry_out(bench.run, carry_on)
    assert says.asked == ["a", "a", "b", "c", "d", "e"]
    assert [one.step for one in bench.records(AskedAgain)] == ["a"]
    kinds = [type(one) for one in bench.run.journal.records]
    assert kinds.index(AskedAgain) < kinds.index(Answered, kinds.index(Answered) + 1)


def test_a_look_that_was_answered_meanwhile_is_not_asked_again(tmp_path):
    bench, says = bench_of(tmp_path, NO, YES)
    carry_out(bench.run, carry_on)
    course = bench.run.course
    assert helping_step(course, Prospect(next="a", answers=1)).id == "a"
    assert helping_step(course, Prospect(next="a", answers=0)) is None
    assert helping_step(course, Prospect(next="a", answers=2)) is None
