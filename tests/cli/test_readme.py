"""What README.md quotes of a run is what that run says."""

import re

from helpers.paths import ROOT
from helpers.program import called

SECTIONS = ("## A failed board, from the first look to the cause", "## What a report looks like")
COMMANDS = ("termprobe ", "printf ")


def quoted(section):
    """Return the lines that a section quotes of what the program says."""
    text = (ROOT / "README.md").read_text(encoding="utf-8").split(section + "\n", 1)[1]
    lines = re.findall(r"^ {4}(.+)$", text.split("\n## ", 1)[0], re.MULTILINE)
    return [line for line in lines if not line.startswith(COMMANDS) and not line.endswith("...")]


def test_the_failed_board_and_its_report_are_as_they_are_told(tmp_path):
    words = ("--profile", "club-16x64", "--script", "quick", "--board", "0007")
    port = ("--port", "sim:bank-1-data/bridged/2-5/low")
    done = called("run", *words, *port, "--out", tmp_path)
    said = (done.stdout + done.stderr).split("\n")
    for section in SECTIONS:
        lines = quoted(section)
        assert len(lines) > 8 and [line for line in lines if line not in said] == []
