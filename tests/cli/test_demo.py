"""`termprobe demo`: it announces a fault, and finds it or says that it did not."""

import pathlib

import pytest

from helpers.program import called, complaint
from termprobe.cli import demo
from termprobe.cli.main import main
from termprobe.cli.report_page import page_path
from termprobe.journal.reading import read
from termprobe.journal.records import BoardUnderTest
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script

SCREEN_ROWS = 24
FOUND = "The fault was found: bank-0-address/bridged/2-5/low. No other that is modelled shows"


def test_the_fault_that_is_announced_is_found_and_shown(tmp_path):
    # Which looks spare others is worked out and kept, so that nothing has to be said of waiting.
    called("script", "show", "acceptance", "--profile", "club-16x64")
    done = called("demo", "--out", tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    said, told = done.stdout, " ".join(done.stdout.split())
    fault = "address lines 2 (U21 pin 5) and 5 (U21 pin 2) of RAM bank 0 are shorted (wired-AND)"
    assert f"has this fault: {fault} " in told and FOUND in told
    assert "left as it must be, right as this board shows it:\n" in said
    assert f"Here the run stops asking: One fault explains all that has differed: {fault}." in told
    assert "Probe address lines 2 (U21 pin 5)" in told
    lines = [line for line in said.splitlines() if str(tmp_path) not in line]
    assert len(lines) <= 2 * SCREEN_ROWS and max(map(len, lines)) <= 80
    assert [line for line in lines if line.startswith("FAIL  ")] == [
        "FAIL  chart-and-codes: every difference is in an even row; no single bit",
        "FAIL  column-tags: every difference is in an even row; no single bit explains it",
    ], "two looks, and no more"
    report = tmp_path / "DEMO-07-report.txt"
    assert f"Report:  {report}\n" in said
    assert fault in " ".join(report.read_text(encoding="utf-8").split())
    (path,) = tmp_path.glob("*.run.jsonl")
    page = page_path(str(path))
    assert f"Page:    {page}\n" in said and "FAIL (PRACTICE)" in page.read_text(encoding="utf-8")
    assert read(path).header.board == BoardUnderTest(
        serial="DEMO-07", revision="B", builder="nobody; it is simulated", fitted=""
    )


def test_a_good_board_passes(tmp_path):
    done = called("demo", "--fault", "none", "--out", tmp_path)
    assert done.returncode == 0 and "\nThe board passed.\n" in done.stdout
    assert "has no fault at all.\n" in done.stdout and "must be, right as" not in done.stdout


def test_without_a_folder_it_makes_one(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(demo.tempfile, "mkdtemp", lambda prefix: str(tmp_path / prefix))
    monkeypatch.setattr(demo, "_conclude", lambda *_: str(tmp_path / "termprobe-demo-"))
    assert pathlib.Path(main(["demo"])) == tmp_path / "termprobe-demo-"


def test_a_fault_that_there_is_not_is_refused(tmp_path):
    assert "nearest is" in complaint(called("demo", "--fault", "decoder/ded/clear"), 2)


def test_what_was_not_announced_is_a_failed_demonstration(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(demo, "PASS", "fail")
    assert main(["demo", "--fault", "none", "--out", str(tmp_path)]) == 1
    told = capsys.readouterr().out
    assert "This is not what was announced: the verdict is pass." in told


@pytest.mark.parametrize(
    "fault, words",
    [
        ("keyboard-code/stuck/0/1", "keyboard-code/stuck/0/1 is named, with "),
        ("margin/no-wrap", "The fault was found: margin/no-wrap. No other"),
        ("cell/stuck/12-40-3/1", "The fault was found: cell/stuck/12-40-3/1"),
    ],
)
def test_a_fault_of_the_keyboard_or_of_a_function_is_named(tmp_path, capsys, fault, words):
    assert main(["demo", "--fault", fault, "--out", str(tmp_path)]) == 0
    assert words in " ".join(capsys.readouterr().out.split())


def test_a_fault_that_is_not_named_is_not_found(tmp_path, capsys):
    assert main(["demo", "--fault", "echo-gate/stuck-open", "--out", str(tmp_path)]) == 1
    told = " ".join(capsys.readouterr().out.split())
    assert "The fault was not found: the verdict is pass." in told
    assert "The fault was found" not in told


@pytest.mark.parametrize("name", ["singlebyte-24x80", "ecma48-24x80"])
def test_readings_are_invented_well_within_their_limits(name):
    plan = compile_plan(load_profile(name), load_script("acceptance"))
    answers = demo._invented_answers(plan)
    measured = [step for step in plan.steps if step.kind == "measure"]
    assert measured
    for step in measured:
        value = answers[step.id].value
        assert step.allows(value) and step.usual.holds(value) and step.is_reading(value)
        assert value not in (step.low, step.high)
        assert answers[step.id].note == "invented for the demonstration"
    assert all(step.kind in ("measure", "ask") for step in plan.steps if step.id in answers)


@pytest.mark.parametrize(
    "low, high, value",
    [
        (4.75, 5.25, 5),
        (-15, -5, -10),
        (0.4, None, 0.6),
        (-4, None, -2),
        (0, None, 1),
        (None, 0.1, 0.05),
        (None, 0, -1),
        (None, None, 0),
    ],
)
def test_an_invented_reading_stands_on_no_limit(low, high, value):
    assert demo._well_within(low, high) == pytest.approx(value)
