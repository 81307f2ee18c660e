"""`termprobe compare`: a board beside a good one, in each format."""

import json

import pytest

from helpers.club_batch import BOARDS, write_run
from helpers.program import called, complaint


@pytest.fixture(name="runs", scope="module")
def _runs(tmp_path_factory):
    """Return the run files of a good board and of one that does not scroll."""
    folder = tmp_path_factory.mktemp("compared")
    good = write_run(folder / "good.run.jsonl", BOARDS[6], "sim:")
    return good, write_run(folder / "bad.run.jsonl", BOARDS[7], "sim:scroll/dead")


def test_what_fails_on_the_second_makes_the_exit_code(runs):
    good, bad = runs
    done = called("compare", good, bad)
    assert done.returncode == 1 and "Passed in the first, FAILS in the second" in done.stdout
    back = called("compare", bad, good)
    assert back.returncode == 0 and "Failed in the first, pass in the second" in back.stdout
    assert "Nothing has changed: 6 steps" in called("compare", good, good).stdout


def test_json_and_html_tell_the_same(runs, tmp_path):
    document = json.loads(called("compare", *runs, "--format", "json").stdout)
    new = [step["id"] for step in document["steps"] if step["became"] == "new"]
    assert new and all(step["screens"] for step in document["steps"] if step["id"] in new)
    path = tmp_path / "compared.html"
    called("compare", *runs, "--format", "html", "-o", path)
    html = path.read_text(encoding="utf-8")
    assert all(f"<code>{step}</code>" in html for step in new)


def test_what_is_no_run_is_refused(runs, tmp_path):
    assert "must be a run file" in complaint(called("compare", runs[0], tmp_path / "x"), 2)
