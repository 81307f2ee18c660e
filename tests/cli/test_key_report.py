"""The report of a walk: what came, and what would explain it."""

import json

import pytest

from helpers.program import called, run_file
from termprobe.cli.key_report import key_report
from termprobe.cli.recorded import load_run
from termprobe.report.formats import text

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
    page = key_report(recorded, recorded.report, is_json=False)
    assert page == printed
    report, rest = text.page(recorded.report), page.split("+ right  x wrong")
    assert page.startswith(report) and len(rest) == 2
    assert "Suspects" in rest[1] and FAULT in rest[1]


def test_the_document_has_the_suspects_too(walk):
    recorded, _ = walk
    document = json.loads(key_report(recorded, recorded.report, is_json=True))
    assert {"board", "verdict", "run", "steps", "suspects", "kind"} <= set(document)
    assert FAULT in document["suspects"][0]["class"]
