"""At plain prompts what a look may show is worked out while the builder reads."""

import threading
import time

from helpers.bench_plan import look, text
from helpers.predicted import predictions_of
from helpers.run_bench import RunBench
from termprobe.cli.prompt_foresight import PromptForesight

ONE, TWO = look("one", "screen", text("ONE")), look("two", "screen", text("TWO"))
LIMIT_S = 10.0


def until_found(foresight, step):
    last_s = time.monotonic() + LIMIT_S
    while foresight.found(step) is None and time.monotonic() < last_s:
        time.sleep(0.01)
    return foresight.found(step)


def test_what_is_worked_out_is_there_a_little_later_for_its_step_alone(tmp_path):
    bench, going_on = RunBench(tmp_path, ONE, TWO), threading.Event()

    def predict(step_id, records, verdict):
        assert going_on.wait(LIMIT_S)
        return predictions_of(bench.plan.step(step_id))

    foresight = PromptForesight(bench.run, lambda: predict)
    foresight.begin(ONE)
    assert foresight.found(ONE) is None
    going_on.set()
    assert until_found(foresight, ONE).step_id == "one"
    assert foresight.found(TWO) is None
    foresight.begin(TWO)
    assert until_found(foresight, TWO).step_id == "two" and foresight.found(ONE) is None


def test_where_nothing_can_be_predicted_nothing_is_found(tmp_path):
    bench = RunBench(tmp_path, ONE)
    foresight = PromptForesight(bench.run, lambda: None)
    foresight.begin(ONE)
    assert foresight.found(ONE) is None
