"""A run leaves its report as a page beside its file, and JUnit XML where it is asked for."""

import json
from xml.etree import ElementTree

import jsonschema
import pytest

from helpers.paths import ROOT, RUN_FILES
from helpers.program import BENCH, called, run_file
from termprobe.cli.main import main
from termprobe.cli.recorded import load_run
from termprobe.cli.report_page import leave_page, page_path

STAGE = ("--stage", "typed-back")
SCHEMA = ROOT / "termprobe" / "report" / "report.schema.json"


class Told:
    """Keeps what a console is told."""

    def __init__(self):
        self.texts = []

    def tell(self, text):
        self.texts.append(text)


def test_a_run_leaves_its_page_and_says_where_and_writes_junit(tmp_path):
    junit = tmp_path / "run.xml"
    words = (*BENCH, "--port", "sim:", *STAGE, "--out", tmp_path, "--junit", junit)
    done = called("run", *words)
    page = page_path(str(run_file(tmp_path)))
    assert f"Report page: {page}\n" in done.stderr and page.name.endswith(".html")
    assert "PARTIAL (PRACTICE)" in page.read_text(encoding="utf-8")
    suite = ElementTree.parse(junit).find("testsuite")
    assert (suite.get("tests"), suite.get("failures"), suite.get("errors")) == ("1", "0", "0")


def test_a_walk_leaves_its_page_too(tmp_path):
    done = called(
        "keys", *BENCH[:2], "--board", "1", "--port", "sim:", "--quick", "--out", tmp_path
    )
    assert f"Report page: {page_path(str(run_file(tmp_path)))}\n" in done.stderr


def test_a_session_leaves_its_page_too(tmp_path):
    words = (*BENCH, "--port", "sim:", "--stage", "supply", "--out", tmp_path)
    done = called("session", *words, input="yes\n5\n")
    assert f"Report page: {page_path(str(run_file(tmp_path)))}\n" in done.stderr


def test_a_run_file_is_never_written_over():
    assert page_path("a/b.run.jsonl").name == "b.html"
    assert page_path("a/b.html").name == "b.html.html"


def test_what_keeps_the_page_away_is_told_and_harms_nothing(tmp_path):
    told = Told()
    recorded = load_run(RUN_FILES / "keys-quick.run.jsonl")
    object.__setattr__(recorded, "path", str(tmp_path / "missing" / "a.run.jsonl"))
    leave_page(recorded, told)
    assert told.texts == [
        f"No report page was written to {tmp_path / 'missing' / 'a.html'} "
        "(No such file or directory)."
    ]


def test_junit_that_cannot_be_written_is_a_mistake_of_the_command_line(tmp_path):
    words = (*BENCH, "--port", "sim:", *STAGE, "--out", tmp_path, "--junit", tmp_path / "no" / "x")
    done = called("run", *words)
    assert done.returncode == 2 and "must be a file that can be written" in done.stderr


@pytest.mark.parametrize(
    "command, folder", [("report",) * 2, ("errata",) * 2, ("compare", "report")]
)
def test_the_schema_in_the_repository_is_the_one_that_is_printed(capsys, command, folder):
    assert main([command, "--schema"]) == 0
    kept = ROOT / "termprobe" / folder / f"{command}.schema.json"
    assert capsys.readouterr().out == kept.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["addressing", "keys-quick", "session"])
def test_reports_on_run_files_are_valid_by_the_schema(name, capsys):
    main(["report", str(RUN_FILES / f"{name}.run.jsonl"), "--format", "json"])
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.validate(json.loads(capsys.readouterr().out), schema)
