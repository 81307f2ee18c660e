"""What a look may show is worked out beside the session, and never keeps it waiting."""

import contextlib
import threading

from helpers.bench_plan import look, text
from helpers.predicted import predictions_of
from helpers.run_bench import RunBench
from termprobe.journal.records import Sent
from termprobe.session.foresight import PictureForesight
from termprobe.session.messages import Foreseen, Shown, Told

ONE, TWO = look("one", "screen", text("ONE")), look("two", "screen", text("TWO"))
LIMIT_S = 10.0


class Listener:
    """Takes the events, and lets others wait for them."""

    def __init__(self):
        self.events, self._come = [], threading.Semaphore(0)

    def post(self, event):
        self.events.append(event)
        self._come.release()

    def wait(self, count):
        for _ in range(count):
            assert self._come.acquire(timeout=LIMIT_S)
        return self.events


@contextlib.contextmanager
def foreseeing(folder, prepare):
    told, bench = Listener(), RunBench(folder, ONE, TWO)
    foresight = PictureForesight(told.post, prepare)
    foresight.watch(bench.run)
    foresight.start()
    yield foresight, told, bench
    foresight.end()
    foresight.join(LIMIT_S)
    assert not foresight.is_alive()


def by_plan(bench, asked):
    def predict(step_id, records, verdict):
        asked.append((step_id, records, verdict))
        return predictions_of(bench.plan.step(step_id))

    return predict


def test_a_look_that_is_shown_is_passed_on_at_once_and_its_pictures_follow(tmp_path):
    asked, going_on, later = [], threading.Event(), []

    def prepare():
        assert going_on.wait(LIMIT_S)
        return later[0]

    with foreseeing(tmp_path, prepare) as (foresight, told, bench):
        later.append(by_plan(bench, asked))
        going_on.set()
        bench.run.perform(bench.plan.step("one"))
        foresight.tell(Shown("one", 1.0))
        shown, predicted = told.wait(2)
    assert shown == Shown("one", 1.0)
    assert isinstance(predicted, Foreseen) and predicted.predictions.step_id == "one"
    ((step_id, records, verdict),) = asked
    assert step_id == "one" and any(isinstance(one, Sent) for one in records)
    assert [one.verdict for one in verdict.steps] == ["unanswered"] * 2


def test_of_questions_that_wait_only_the_last_is_answered(tmp_path):
    asked, going_on, later = [], threading.Event(), []

    def prepare():
        assert going_on.wait(LIMIT_S)
        return later[0]

    with foreseeing(tmp_path, prepare) as (foresight, told, bench):
        later.append(by_plan(bench, asked))
        for step_id in ("one", "two"):
            foresight.tell(Shown(step_id, 1.0))
        told.wait(2)
        going_on.set()
        told.wait(1)
    assert [step_id for step_id, _, _ in asked] == ["two"]


def test_where_nothing_can_be_predicted_events_still_pass(tmp_path):
    with foreseeing(tmp_path, lambda: None) as (foresight, told, _):
        foresight.tell(Shown("one", 1.0))
        foresight.tell(Told("so"))
        assert told.wait(2) == [Shown("one", 1.0), Told("so")]


def test_a_mistake_in_it_is_told_and_the_session_goes_on(tmp_path):
    def prepare():
        raise ZeroDivisionError("so")

    with foreseeing(tmp_path, prepare) as (foresight, told, _):
        (event,) = told.wait(1)
        assert isinstance(event, Told) and "(so)" in event.text and "mark" in event.text
        foresight.tell(Shown("one", 1.0))
        assert told.wait(1)[-1] == Shown("one", 1.0)
