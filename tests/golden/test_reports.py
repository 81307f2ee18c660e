"""What a run has shown, as its report says it: runs of an earlier version, and a new one."""

import json
import re

import pytest

from helpers.golden import check
from helpers.paths import RUN_FILES
from termprobe.cli.key_report import key_report
from termprobe.cli.main import main
from termprobe.cli.recorded import load_run
from termprobe.errors import EXIT_FAILED, EXIT_PASSED

pytestmark = pytest.mark.golden

NAMES = ("addressing", "keys-quick", "session")
CELLS_KEPT = 2
MOMENT, FILE_MOMENT = "2026-01-02T03:04:05+00:00", "20260102T030405"


@pytest.fixture(autouse=True)
def at_the_run_files(monkeypatch):
    """Name each run file as a person does who stands in its folder."""
    monkeypatch.chdir(RUN_FILES)


@pytest.mark.parametrize("name", NAMES)
def test_the_text(name, capsys):
    assert main(["report", f"{name}.run.jsonl"]) == EXIT_FAILED
    check(f"reports/{name}.txt", capsys.readouterr().out)


@pytest.mark.parametrize("name", NAMES)
def test_the_json_document(name, capsys):
    assert main(["report", f"{name}.run.jsonl", "--format", "json"]) == EXIT_FAILED
    document = json.loads(capsys.readouterr().out)
    check(f"reports/{name}.json", shortened(document))


def shortened(document):
    """Return the document as text, with the first ones alone of each step's differing cells.

    The facts are left out: the text has them, and the schema holds them.
    """
    document["facts"] = "left out of this file"
    for step in document["steps"]:
        left_out = len(step["differs"]) - CELLS_KEPT
        if left_out > 0:
            step["differs"][CELLS_KEPT:] = [f"and {left_out} more, left out of this file"]
    return json.dumps(document, indent=1) + "\n"


@pytest.mark.parametrize("is_json, suffix", [(False, "txt"), (True, "json")])
def test_keys_adds_the_keyboard_and_the_suspects(is_json, suffix):
    recorded = load_run("keys-quick.run.jsonl")
    check(f"reports/keys-quick-suspects.{suffix}", key_report(recorded.report, is_json))


def test_several_runs_stand_one_after_another(capsys):
    assert main(["report", "session.run.jsonl", "keys-quick.run.jsonl"]) == EXIT_FAILED
    check("reports/two-runs.txt", capsys.readouterr().out)


def test_the_demonstration(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["demo", "--out", "here"]) == EXIT_PASSED
    check("reports/demo.txt", dateless(capsys.readouterr().out))
    report = (tmp_path / "here" / "DEMO-07-report.txt").read_text(encoding="utf-8")
    check("reports/demo-report.txt", dateless(report))


def dateless(text):
    """Return the text with a fixed moment for the date and time of the run."""
    text = re.sub(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\S*", MOMENT, text)
    text = re.sub(r"Date         .*", "Date         2 January 2026, 03:04 to 03:04 UTC", text)
    text = re.sub(r"Duration     .*", "Duration     3 s", text)
    text = re.sub(r"\d\d:\d\d:\d\d to \d\d:\d\d:\d\d", "03:04:05 to 03:04:08", text)
    text = re.sub(r"SHA-256      \w*", "SHA-256      of these bytes", text)
    return re.sub(r"-\d{8}T\d{6}\.", f"-{FILE_MOMENT}.", text)
