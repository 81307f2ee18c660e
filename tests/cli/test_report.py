"""`termprobe report`: runs read back, one or several, as text or JSON."""

import dataclasses
import json

import pytest

from helpers.few_faults import play_few
from helpers.paths import RUN_FILES
from helpers.program import called, complaint, run, run_file
from termprobe.cli.main import main
from termprobe.journal.file import encode
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, Noted
from termprobe.report.table import FORMATS

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
    assert json.loads(called("report", "--json", run_file(bad)).stdout) == document


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


# -- run files that somebody spoilt ----------------------------------------------------------------

MARKUP = "<script>alert(1)</script>\x1b[2J"


def spoilt(path, change):
    """Write the run file of a session to `path`, each record as `change` returns it."""
    whole = read(RUN_FILES / "session.run.jsonl")
    path.write_bytes(b"".join(map(encode, (whole.header, *map(change, whole.records)))))
    return str(path)


def hostile(record):
    """Return a note as one of markup, and what was seen as a million cells with it."""
    if isinstance(record, Noted):
        return dataclasses.replace(record, text=MARKUP * 1000)
    if isinstance(record, Answered) and record.step == "hello":
        rows = (MARKUP * 20_000, *[""] * 50_000)
        return dataclasses.replace(record, answer=dataclasses.replace(record.answer, seen=rows))
    return record


@pytest.mark.parametrize("name", FORMATS)
def test_nothing_in_a_run_file_acts_and_no_format_stumbles(name, tmp_path, capsys, monkeypatch):
    play_few(monkeypatch)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    path = spoilt(tmp_path / "a.run.jsonl", hostile)
    assert main(["report", path, "--format", name]) in (1, 4)
    told = capsys.readouterr().out
    assert "\x1b" not in told and len(told) < 20_000_000
    if name in ("html", "junit"):
        assert "<script" not in told and "&lt;script" in told


@pytest.mark.parametrize("kept", [5_000, 9_000, 12_000])
def test_a_run_file_cut_off_anywhere_is_still_a_report(kept, tmp_path, capsys):
    path = tmp_path / "a.run.jsonl"
    whole = (RUN_FILES / "session.run.jsonl").read_bytes()
    header = whole.index(b"\n") + 1
    path.write_bytes(whole[: header + (len(whole) - header) * kept // 13_000])
    assert main(["report", str(path)]) in (1, 4)
    told = capsys.readouterr().out
    assert "board S1" in told and "  Damage: " in told
