"""`termprobe errata`: from the runs of a club's twelve boards to what belongs to the layout."""

import json
import os

import pytest

from helpers.club_batch import (
    BOARDS,
    LAYOUT,
    OPEN_JOINT,
    SOLDER_BRIDGE,
    WRONG_STRAP,
    line_of,
    run_club,
)
from helpers.program import called, complaint
from helpers.readme_pictures import DIGESTS, digests, pages, picture_of


@pytest.fixture(name="club", scope="module")
def _club(tmp_path_factory):
    """Return the folder of the club's run files."""
    folder = tmp_path_factory.mktemp("club")
    run_club(os.fspath(folder))
    return folder


@pytest.fixture(name="document", scope="module")
def _document(club):
    done = called("errata", club, "--json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_layout_joints_and_strap_are_told_apart(document):
    found = {one["what"]: (one["origin"], one["boards"]) for one in document["findings"]}
    assert found == {
        LAYOUT: ("layout", ["01", "02", "03", "04", "05", "06"]),
        OPEN_JOINT: ("board", ["04"]),
        SOLDER_BRIDGE: ("board", ["08"]),
        WRONG_STRAP: ("board", ["10"]),
    }
    worded = {one["what"]: one["wording"] for one in document["findings"]}
    assert "strap" in worded[WRONG_STRAP] and "bridge" in worded[SOLDER_BRIDGE]
    assert document["findings"][0]["p"] == pytest.approx(2 / 924, abs=1e-6)


def test_each_revision_has_its_yields(document):
    shares = {
        name: (one["first_pass"]["count"], one["passing"]["count"], one["boards"])
        for name, one in document["revisions"].items()
    }
    assert shares == {"A": (0, 4, 6), "B": (4, 6, 6)}
    assert len(document["boards"]) == len(BOARDS)


def test_the_history_of_a_board_is_that_of_its_runs(document):
    assert document["histories"]["04"] == [
        f"fail ({LAYOUT})",
        "repair",
        f"fail ({OPEN_JOINT})",
        "repair",
        "pass",
    ]
    assert document["time_to_cause"]["runs"] == 9


def test_practice_is_said_first(club, document):
    assert document["practice"] is True
    assert called("errata", club).stdout.startswith("PRACTICE: every run is of a simulated board")


def test_what_cannot_be_read_is_said_and_left_out(club, tmp_path):
    broken = tmp_path / "x.run.jsonl"
    broken.write_text("<script>alert(1)</script>\x1b[2J")
    done = called("errata", club / "07", broken)
    assert done.returncode == 0 and f"left out {broken}" in done.stderr
    assert "Not read:" in done.stdout and "\x1b" not in done.stdout + done.stderr
    assert "must be a run file" in complaint(called("errata", broken), 2)


def test_its_output_goes_into_a_file(club, tmp_path):
    path = tmp_path / "errata.txt"
    assert called("errata", club / "07", "-o", path).stdout == ""
    assert "Findings: none" in path.read_text(encoding="utf-8")


def test_the_sheet_is_made_with_the_words_of_the_designer(club, tmp_path):
    words = tmp_path / "remedies.yaml"
    first = called("errata", club, "--format", "markdown", "--remedies", words)
    assert "Begun" in first.stderr and "**Remedy:** not written yet" in first.stdout
    words.write_text(
        words.read_text(encoding="utf-8").replace("remedy:", "remedy: Exchange the two tracks.")
    )
    again = called("errata", club, "--format", "markdown", "--remedies", words)
    assert "**Remedy:** Exchange the two tracks." in again.stdout and again.stderr == ""
    page = called("errata", club, "--format", "html", "--remedies", words).stdout
    assert page.startswith("<!DOCTYPE html>") and "Exchange the two tracks." in page
    assert "Ada" not in page and "PRACTICE: made from simulated boards." in page


def test_the_pictures_of_readme_are_of_the_pages_as_they_are(club):
    told = DIGESTS.read_text(encoding="utf-8")
    assert told == digests(pages(club)), "make them anew: python -m tests.batch.pictures"
    heads = [picture_of(name).read_bytes()[:8] for name in ("report", "errata")]
    assert heads == [b"\x89PNG\r\n\x1a\n"] * 2


def test_runs_of_real_boards_make_a_sheet_without_those_of_practice(club, tmp_path):
    for board in BOARDS:
        for path in (club / board.serial).rglob("*.run.jsonl"):
            target = tmp_path / board.serial / f"{path.parent.name}.run.jsonl"
            target.parent.mkdir(exist_ok=True)
            first, _, rest = path.read_bytes().partition(b"\n")
            header = json.loads(first[9:]) | {"link": {"name": "/dev/ttyUSB0"}}
            target.write_bytes(line_of(header) + rest)
    both = called("errata", club, tmp_path, "--json")
    found = json.loads(both.stdout)
    assert found["practice"] is False and found["left_out"]["practice"] == 19
    assert found["findings"][0]["origin"] == "layout"
    sheet = called("errata", tmp_path, "--format", "markdown").stdout
    assert sheet.startswith("# Errata") and "PRACTICE" not in sheet
