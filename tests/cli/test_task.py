"""What is to be carried out: from files that are named, or as the run had it."""

import pytest

from helpers.program import called, run, run_file
from termprobe import yamlfile
from termprobe.cli.recorded import load_run
from termprobe.cli.request import BenchRequest, stage_choice
from termprobe.cli.task import task_of
from termprobe.errors import FileError, UsageError

NAMED = {"profile": "singlebyte-24x80", "script": "acceptance"}


@pytest.fixture(name="earlier", scope="module")
def _earlier(tmp_path_factory):
    folder = tmp_path_factory.mktemp("runs")
    run(folder, "--stage", "fields")
    return load_run(run_file(folder))


def test_files_that_are_named_make_the_whole_plan():
    task = task_of(BenchRequest("sim:", **NAMED), None)
    path = yamlfile.find("acceptance", "scripts")
    assert task.profile.id == "singlebyte-24x80" and task.script_text == path.read_text()
    assert (task.chosen, task.left_out) == (None, 0)


def test_of_a_part_the_steps_are_known_that_it_leaves_out():
    whole = task_of(BenchRequest("sim:", **NAMED), None).plan
    task = task_of(BenchRequest("sim:", **NAMED, choice=stage_choice(["fields"])), None)
    assert task.chosen == tuple(step.id for step in whole.of_stage("fields"))
    fitted = [step for step in whole.steps if not step.not_fitted]
    assert task.left_out == len(fitted) - len(task.chosen) > 0


def test_a_run_that_is_resumed_goes_on_with_its_own_files_and_its_part(earlier):
    task = task_of(BenchRequest("sim:"), earlier)
    assert task.plan == earlier.plan and {step.stage for step in task.plan.steps} == {"fields"}
    assert task.profile == earlier.profile
    other = task_of(BenchRequest("sim:", choice=stage_choice(["cursor"])), earlier)
    assert other.plan == earlier.plan, "what is chosen now does not change what was begun"


@pytest.mark.parametrize("kind", NAMED)
def test_what_is_not_named_is_asked_for(kind):
    request = BenchRequest("sim:", **{**NAMED, kind: None})
    with pytest.raises(UsageError, match=f"--{kind} must name a {kind}; `termprobe {kind} list`"):
        task_of(request, None)


def test_findings_in_what_the_run_had_are_placed_in_the_run_file(earlier):
    text, name = earlier.text_of("profile")
    assert text.startswith("#") or "id: singlebyte-24x80" in text
    assert name == f"{earlier.path} (profile)"


def test_a_file_that_cannot_be_read_is_refused():
    with pytest.raises(FileError, match="nearest is"):
        task_of(BenchRequest("sim:", profile="singlebyte-24x81", script="acceptance"), None)


def test_the_program_says_the_same(tmp_path):
    done = called("run", "--port", "sim:", "--board", "1", "--out", tmp_path)
    assert done.returncode == 2 and "--profile must name a profile" in done.stderr
