"""The report of a walk: what came, and what would explain it."""

import json

import pytest

from helpers.program import called, run_file
from termprobe.cli.key_report import key_report
from termprobe.cli.main import main
from termprobe.cli.recorded import load_run

FAULT = "key-matrix/row-open/3"
KEYS = ("keys", "--profile", "singlebyte-24x80", "--board", "1", "--quick")


@pytest.fixture(name="walk", scope="module")
def _walk(tmp_path_factory):
    """Return (the run read back, what was printed of it) of a quick walk over a faulty board."""
    folder = tmp_path_factory.mktemp("walk")
    done = called(*KEYS, "--port", f"sim:{FAULT}", "--out", folder)
    assert done.returncode == 1
    return load_run(run_file(folder)), done.stdout


def test_the_page_has_the_report_the_drawing_and_the_suspects(walk):
    recorded, printed = walk
    page = key_report(recorded.report, is_json=False)
    assert page == printed
    report, suspects = page.split("+ right  x wrong")
    assert report.startswith("FAIL (PRACTICE): ") and "|ESC " in report
    assert "Suspects of the keyboard" in suspects and FAULT in suspects


def test_a_report_made_again_gives_drawing_and_suspects_as_the_walk_did(walk, capsys):
    recorded, printed = walk
    assert main(["report", recorded.path]) == 1
    assert capsys.readouterr().out == printed
    assert main(["report", recorded.path, "--format", "json"]) == 1
    document = json.loads(capsys.readouterr().out)
    walked = json.loads(key_report(recorded.report, is_json=True))
    assert document["suspects"] == walked["suspects"] and FAULT in document["suspects"][0]["class"]


def test_one_cause_is_one_line_and_not_a_failure_for_each_press(tmp_path):
    printed = called(*KEYS, "--port", "sim:keyboard-code/stuck/0/0", "--out", tmp_path).stdout
    recorded = load_run(run_file(tmp_path))
    failed = [step.id for step in recorded.report.verdict.steps if step.verdict == "fail"]
    assert len(failed) > 1
    lines = printed.splitlines()
    assert f": {len(failed)} steps failed by it. " in " ".join(printed.split())
    assert f"    FAIL       {len(failed) - 1} more by a cause that is told above" in lines
    assert len([line for line in lines if line.startswith("    FAIL ")]) == 2


def test_the_document_has_the_suspects_too(walk):
    recorded, _ = walk
    document = json.loads(key_report(recorded.report, is_json=True))
    assert {"board", "verdict", "run", "steps", "suspects", "kind"} <= set(document)
    assert FAULT in document["suspects"][0]["class"]
