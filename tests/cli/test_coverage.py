"""`termprobe coverage`, as a page and as a document."""

import json

import pytest

from termprobe.cli.main import main
from termprobe.errors import EXIT_PASSED, EXIT_USAGE

WORDS = ("coverage", "--profile", "singlebyte-24x80", "--script", "acceptance")


def test_the_document_adds_up(capsys):
    assert main([*WORDS, "--json"]) == EXIT_PASSED
    found = json.loads(capsys.readouterr().out)
    assert set(found) == {
        *("faults", "undetectable", "detected", "missed", "looks", "presses", "classes"),
        *("by_block", "seconds_of_builder", "smallest_set"),
    }
    assert found["faults"] == found["detected"] + len(found["missed"])
    assert found["faults"] == sum(block["faults"] for block in found["by_block"].values())
    assert found["detected"] > 800 and 0 < len(found["smallest_set"]) <= found["looks"] <= 17
    never_seen = ("swapped", "decoder/also-written/clear")
    assert all(any(word in name for word in never_seen) for name in found["missed"])


def test_the_page_says_what_is_shown_by_block_and_what_is_missed(capsys):
    assert main(WORDS) == EXIT_PASSED
    page = capsys.readouterr().out
    assert page.startswith("acceptance for singlebyte-24x80: ")
    assert "faults that have a part in the display" in page and "The fewest looks" in page
    assert "  ram-address       132 of  187   70.6 %" in page
    assert "Missed (" in page and "more; all with --json" in page


@pytest.mark.parametrize(
    "words, told",
    [
        (("coverage", "--script", "acceptance"), "--profile"),
        (("coverage", "--profile", "ecma48-24x80", "--script", "acceptance"), "section circuit"),
    ],
)
def test_what_is_needed_is_told(words, told, capsys):
    assert main(words) == EXIT_USAGE
    assert told in capsys.readouterr().err
