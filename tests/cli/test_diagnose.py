"""`termprobe diagnose`: a run read back, as a page and as a document; the same in the report."""

import json

import pytest

from helpers.program import called, run, run_file

FAULT = "bank-1-data/stuck/0/1"


@pytest.fixture(name="folders", scope="module")
def _folders(tmp_path_factory):
    """Return folders with the run of a bad board and of a good one, and what the first printed."""
    bad, good = tmp_path_factory.mktemp("bad"), tmp_path_factory.mktemp("good")
    printed = run(bad, "--stage", "fields", "--stage", "addresses", port=f"sim:{FAULT}").stdout
    run(good, "--stage", "fields")
    return bad, good, printed


def test_the_document_names_the_fault(folders):
    done = called("diagnose", run_file(folders[0]), "--json")
    found = json.loads(done.stdout)
    assert done.returncode == 1 and (found["verdict"], found["explained"]) == ("fail", True)
    assert found["suspects"][0]["class"] == [FAULT] and found["suspects"][0]["probability"] > 0.95
    assert found["blocks"][0]["block"] == "bank-1-data"
    assert found["next"] is None or isinstance(found["next"], str)


def test_the_page_and_the_report_say_the_same(folders):
    bad, _, printed = folders
    page = called("diagnose", run_file(bad)).stdout
    section = page.split("\n\n", 1)[1].strip()
    assert "data line 0 of RAM bank 1 is stuck at 1" in section and "Probe: " in section
    title = section.splitlines()[1].split("  ")[-1]
    told = called("report", run_file(bad)).stdout
    assert told == printed and title in told and FAULT in told
    assert "Probe data line 0 of RAM bank 1" in " ".join(told.split())
    document = json.loads(called("report", "--format", "json", run_file(bad)).stdout)
    assert document["suspects"][0]["class"] == [FAULT]


def test_of_a_good_board_nothing_is_to_be_explained(folders):
    done = called("diagnose", run_file(folders[1]))
    assert done.returncode == 0 and "Nothing to explain" in done.stdout
    found = json.loads(called("diagnose", run_file(folders[1]), "--json").stdout)
    assert (found["explained"], found["suspects"], found["next"]) == (True, [], None)
