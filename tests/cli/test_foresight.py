"""Runs that name a fault and carry on with it: what they judge, and what a report says of them."""

import json
import re

from helpers.dictionaries import profile_text
from helpers.program import called, run, run_file
from helpers.scripts import ECMA, SINGLE, acceptance
from termprobe.cli.bench import Bench
from termprobe.cli.foresight import foresight_at
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, TakenBack
from termprobe.plan.choose import choose_stages

STUCK = "bank-0-data/stuck/2/0"
STAGES = ("--stage", "characters", "--stage", "fields", "--stage", "addresses")


def bench(profile, plan):
    return Bench(profile, plan, None, None, None, None, profile_text=profile_text())


def test_faults_are_named_only_where_boards_are_simulated_and_looks_are_asked():
    assert foresight_at(bench(SINGLE, acceptance())) is not None
    assert foresight_at(bench(ECMA, acceptance(ECMA))) is None
    assert foresight_at(bench(SINGLE, choose_stages(acceptance(), ["keys"]))) is None


def test_a_run_carries_on_with_the_fault_and_all_else_is_judged(tmp_path):
    done = run(tmp_path, *STAGES, "--carry-on", port=f"sim:{STUCK}")
    assert done.returncode == 1, done.stderr
    headline = re.sub(r"\s+", " ", done.stdout.split("\n\n")[0])
    assert headline.startswith("FAIL (WITH KNOWN FAULT, PRACTICE): board 0001 failed 2 of ")
    assert ": 2 steps failed by it. " in " ".join(done.stdout.split())
    (known,) = [one for one in read(run_file(tmp_path)).records if isinstance(one, KnownFault)]
    assert known.fault == STUCK and len(known.explains) == 2
    report = json.loads(called("report", run_file(tmp_path), "--format", "json").stdout)
    assert [one["fault"] for one in report["known_faults"]] == [STUCK]
    failed = {step["id"] for step in report["steps"] if step["verdict"] == "fail"}
    assert failed == set(known.explains)
    assert any("as expected with known fault" in step["reason"] for step in report["steps"])


def test_with_a_wrong_clock_no_look_is_judged_by_what_is_foreseen(tmp_path):
    """What the board hears hangs on where the sending pauses: nothing can be foreseen."""
    words = "--profile", "singlebyte-24x80", "--script", "quick", "--board", "1", "--out", tmp_path
    called("run", *words, "--carry-on", "--port", "sim:baud/ratio/0.5")
    report = json.loads(called("report", run_file(tmp_path), "--format", "json").stdout)
    assert [one["fault"] for one in report["known_faults"]] == ["baud/ratio/0.5"]
    verdicts = [step["verdict"] for step in report["steps"]]
    assert verdicts == ["fail"] * 2 + ["blocked"] * 5, "the first two name it"


def test_a_run_stops_once_it_is_sure_and_asks_first_what_failed_once_it_goes_on(tmp_path):
    done = run(tmp_path, *STAGES, "--until-sure", port=f"sim:{STUCK}")
    assert done.returncode == 1
    assert "One fault explains all that has differed: " in " ".join(done.stderr.split())
    assert 0 < done.stderr.index("Live board: ") < done.stderr.index("Probe "), "caution first"
    assert f"--resume {run_file(tmp_path)} " in done.stderr
    assert done.stderr.rstrip().endswith("--until-sure")
    answers = [one for one in read(run_file(tmp_path)).records if isinstance(one, Answered)]
    assert len([one for one in answers if one.answer.word == "differs"]) == 2
    assert answers[-1].answer.word == "differs", "nothing is asked behind the second look"
    again = called("run", "--resume", run_file(tmp_path), "--port", "sim:", "--until-sure")
    repaired = [one for one in read(run_file(tmp_path)).records if isinstance(one, Answered)]
    assert [one.step for one in repaired[len(answers) :]][:2] == [
        one.step for one in answers if one.answer.word == "differs"
    ]
    assert again.returncode == 0, again.stdout


def test_a_good_board_is_asked_to_the_end(tmp_path):
    good = run(tmp_path, *STAGES, "--until-sure")
    assert good.returncode == 0 and "One fault explains" not in good.stderr
    assert "not allowed with" in run(tmp_path, "--until-sure", "--carry-on").stderr


def test_a_run_that_goes_on_knows_the_fault_still(tmp_path):
    run(tmp_path, "--stage", "fields", "--stage", "addresses", "--carry-on", port=f"sim:{STUCK}")
    path = run_file(tmp_path)
    journal = Journal.reopen(path, CrankedClock())
    journal.append(TakenBack("column-tags"))
    journal.close()
    done = called("run", "--resume", path, "--port", f"sim:{STUCK}")
    assert done.returncode == 1
    answers = [one for one in read(path).records if isinstance(one, Answered)]
    assert answers[-1].step == "column-tags" and answers[-1].against.faults == (STUCK,)
    assert answers[-1].answer.word == "as-expected"


def test_without_carrying_on_all_is_asked_and_told_in_one_line(tmp_path):
    done = run(tmp_path, *STAGES, port=f"sim:{STUCK}")
    assert done.returncode == 1 and "WITH KNOWN FAULT" not in done.stdout
    assert re.search(r": \d+ steps failed by it\. ", " ".join(done.stdout.split()))
    assert not [one for one in read(run_file(tmp_path)).records if isinstance(one, KnownFault)]


def test_after_a_repair_what_failed_is_asked_again(tmp_path):
    run(tmp_path, "--stage", "fields", port=f"sim:{STUCK}")
    path = run_file(tmp_path)
    journal = Journal.reopen(path, CrankedClock())
    journal.append(ToRepair(STUCK, explains=("solid-55",)))
    journal.close()
    done = called("run", "--resume", path, "--port", "sim:")
    assert done.returncode == 0, done.stdout
    assert "PARTIAL (PRACTICE)" in done.stdout
