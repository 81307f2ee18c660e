"""`termprobe report`: runs read back, one or several, as text or JSON."""

import json

import pytest

from helpers.program import called, complaint, run, run_file

FAILING = "sim:bank-1-data/stuck/0/1"


@pytest.fixture(name="folders", scope="module")
def _folders(tmp_path_factory):
    """Return folders with the run of a good board, of a bad one, and of one not done."""
    good, bad, open_ = (tmp_path_factory.mktemp(name) for name in ("good", "bad", "open"))
    run(good, "--stage", "fields")
    printed = run(bad, "--stage", "fields", port=FAILING).stdout
    run(open_, "--stage", "supply")
    return good, bad, open_, printed


def test_the_report_is_made_again_from_the_run_file(folders):
    _, bad, _, printed = folders
    again = called("report", run_file(bad))
    assert again.stdout == printed and again.returncode == 1
    document = json.loads(called("report", "--format", "json", run_file(bad)).stdout)
    assert document["verdict"] == "fail" and document["totals"] == {"fail": 2}


def test_of_several_runs_the_worst_gives_the_exit_code(folders):
    good, bad, open_, _ = folders
    for runs, code in (((good,), 0), ((good, open_), 4), ((good, open_, bad), 1)):
        done = called("report", "--format", "json", *map(run_file, runs))
        assert done.returncode == code
    assert [document["verdict"] for document in json.loads(done.stdout)] == [
        "pass",
        "incomplete",
        "fail",
    ]


def test_a_report_goes_into_a_file_that_can_be_written(folders, tmp_path):
    good, *_ = folders
    path = tmp_path / "report.txt"
    assert called("report", run_file(good), "-o", path).stdout == ""
    assert path.read_text(encoding="utf-8").startswith("PARTIAL (PRACTICE): board 0001")
    done = called("report", run_file(good), "-o", "/proc/no/report.txt")
    assert "try another -o FILE" in complaint(done, 2)
