"""Markdown that shows what was written, and is laid out from the same facts."""

import pytest
from markdown_it import MarkdownIt

from helpers.whole_reports import whole_report
from termprobe.report.formats.markdown import escaped, fenced, render

PARSER = MarkdownIt("commonmark").enable("table")


@pytest.mark.parametrize(
    "text", ["a * b * c", "1. a", "- a", "# a", "<b>", "`a`", "[a](b)", "a|b", "\\", "&lt;", "x\ny"]
)
def test_what_is_escaped_shows_just_what_it_was(text):
    shown = text.replace("\n", "\\x0a").replace("&", "&amp;").replace("<", "&lt;")
    assert PARSER.render(escaped(text)) == f"<p>{shown.replace('>', '&gt;')}</p>\n"


def test_nothing_ends_a_block_of_lines_early():
    lines = fenced(["a", "````", "b\x1b"])
    assert lines[0] == "`````text" and lines[-1] == "`````" and lines[3] == "b\\x1b"


def test_the_sections_are_those_of_the_other_formats():
    text = render([whole_report()])
    headings = [line for line in text.splitlines() if line.startswith("#")]
    assert headings == [
        "# FAIL: board plain failed 2 of 5 steps; 2 are not proven",
        "## What failed",
        "## What this run shows, by the steps that passed",
        "## What was not tried",
        "## What has changed",
        "## Suspects of the board",
        "## Modelled faults that a step that passed would have shown",
        "## Readings",
        "## Stage by stage",
        "### plain",
        "## Noted during the run",
        "## What limits this report",
    ]
    assert "| Board | plain |" in text and "  must be |HELLO" in text
    assert "| Plus five | pass | 5 V | 4.75 to 5.25 V, that is 5 V ± 5 % | plain | second" in text
