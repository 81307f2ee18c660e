"""`termprobe demo`: it announces a fault, and finds it or says that it did not."""

import pathlib

import pytest

from helpers.program import called, complaint
from termprobe.cli import demo
from termprobe.cli.main import main
from termprobe.journal.reading import read
from termprobe.journal.records import BoardUnderTest
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script


def test_the_fault_that_is_announced_is_found_and_shown(tmp_path):
    done = called("demo", "--out", tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    fault = "code lines 1 and 4 of the character generator are exchanged"
    assert f"has this fault:\n    {fault}\n" in done.stdout
    assert "left as it must be, right as this board shows it:\n" in done.stdout
    assert "bits 1 and 4\n  arrive exchanged" in done.stdout
    assert "\nThe fault was found.\n" in done.stdout
    report = tmp_path / "DEMO-07-report.txt"
    assert report.read_text(encoding="utf-8") in done.stdout
    (path,) = tmp_path.glob("*.run.jsonl")
    assert read(path).header.board == BoardUnderTest(
        serial="DEMO-07", revision="B", builder="nobody; it is simulated", fitted=""
    )


def test_a_good_board_passes(tmp_path):
    done = called("demo", "--fault", "none", "--out", tmp_path)
    assert done.returncode == 0 and "\nThe board passed.\n" in done.stdout
    assert "has no fault at all.\n" in done.stdout and "must be, right as" not in done.stdout


def test_without_a_folder_it_makes_one(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(demo.tempfile, "mkdtemp", lambda prefix: str(tmp_path / prefix))
    monkeypatch.setattr(demo, "_conclude", lambda report, fault, folder: folder)
    assert pathlib.Path(main(["demo"])) == tmp_path / "termprobe-demo-"


def test_a_fault_that_there_is_not_is_refused(tmp_path):
    assert "nearest is" in complaint(called("demo", "--fault", "decoder/ded/clear"), 2)


def test_what_was_not_announced_is_a_failed_demonstration(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(demo, "PASS", "fail")
    assert main(["demo", "--fault", "none", "--out", str(tmp_path)]) == 1
    told = capsys.readouterr().out
    assert "This is not what was announced: the verdict is pass." in told


@pytest.mark.parametrize("name", ["singlebyte-24x80", "ecma48-24x80"])
def test_readings_are_invented_within_their_limits(name):
    plan = compile_plan(load_profile(name), load_script("acceptance"))
    answers = demo._invented_answers(plan)
    measured = [step for step in plan.steps if step.kind == "measure"]
    assert measured
    for step in measured:
        value = answers[step.id].value
        assert step.allows(value) and step.usual.holds(value) and step.is_reading(value)
        assert answers[step.id].note == "invented for the demonstration"
    assert all(step.kind in ("measure", "ask") for step in plan.steps if step.id in answers)
