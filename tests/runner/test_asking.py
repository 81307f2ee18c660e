"""The strongest observer that can answer is asked, and one in trouble is given up."""

from helpers.bench import Says, look
from helpers.run_bench import RunBench
from termprobe.errors import ObserverError
from termprobe.journal.records import AS_EXPECTED, DUMP, EYES, Answer, Noted
from termprobe.runner.told import ObserverTrouble
from termprobe.runner.walk import carry_out

YES = Answer(AS_EXPECTED)


def broken(step):
    raise ObserverError("the dump command d must print 24 rows, not 3")


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
