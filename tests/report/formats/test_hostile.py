"""Whatever a board or a builder has put into a run, no format lets it act on a sheet or screen."""

import json
import re
from xml.etree import ElementTree

import html5lib
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from helpers.examples import examples
from helpers.reports import harmful
from helpers.whole_reports import whole_report
from termprobe.notation import visible
from termprobe.report.table import FORMATS

MARKUP = "<script>alert(1)</script><img src=x onerror=y>&amp;\"'--> ]]> {{ 7 * 7 }} {% x %}"
ESCAPES = "\x1b[2J\x9b31m\x00\x07\u202e\ud800\ufffe\u2028"
LINKS = "[a](javascript:x) http://x.example <b> | `c` ~~d~~ * _e_ $f$ @g www.h.example ![i](j)"
STARTS = ("# a", "- a", "1. a", "=== a", "+ a", "> a", "    a", "``` a", "--- a", "| a |")
HOSTILE = st.one_of(st.text(max_size=40), st.sampled_from((MARKUP, ESCAPES, LINKS, *STARTS)))


def tags(text):
    """Return the names of the elements of a page, each once."""
    return {element.tag for element in html5lib.parse(text, namespaceHTMLElements=False).iter()}


PLAIN = {name: render([whole_report()]) for name, render in FORMATS.items()}
TAGS = tags(PLAIN["html"]) | {"use"}
IN_MARKDOWN = MarkdownIt("commonmark").enable(["table", "strikethrough"])
ELEMENTS = re.compile(r"<(\w+)")


@examples(25)
@given(HOSTILE, HOSTILE)
@example(MARKUP, MARKUP)
@example(ESCAPES, ESCAPES)
@example(LINKS, LINKS)
def test_no_format_lets_anything_act(text, seen):
    made = {name: render([whole_report(text, seen)]) for name, render in FORMATS.items()}
    for told in made.values():
        assert not harmful(told)
        told.encode("utf-8")
    assert tags(made["html"]) <= TAGS
    assert set(ELEMENTS.findall(IN_MARKDOWN.render(made["markdown"]))) <= set(
        ELEMENTS.findall(IN_MARKDOWN.render(PLAIN["markdown"]))
    )
    for element in ElementTree.fromstring(made["junit"]).iter():
        assert element.tag in PLAIN["junit"]
    assert json.loads(made["json"])["board"] == text


@pytest.mark.parametrize("text", [MARKUP, ESCAPES, *STARTS])
def test_what_was_written_is_shown_and_never_dropped(text):
    made = whole_report(text)
    page = html5lib.parse(FORMATS["html"]([made]), namespaceHTMLElements=False)
    assert visible(text).strip() in " ".join("".join(page.itertext()).split("\n"))
    suite = ElementTree.fromstring(FORMATS["junit"]([made])).find("testsuite")
    values = {one.get("name"): one.get("value") for one in suite.iter("property")}
    assert values["Board"] == visible(text)
    shown = html5lib.parse(IN_MARKDOWN.render(FORMATS["markdown"]([made])))
    assert visible(text).strip() in "".join(shown.itertext())


@pytest.mark.parametrize("name", FORMATS)
def test_a_line_of_ten_megabytes_is_shortened(name):
    long = "x" * 10_000_000
    made = FORMATS[name]([whole_report(long, long)])
    is_whole = name == "json"
    assert len(made) < 2_000_000 or is_whole
    assert "and 9,998,000 characters more" in made or is_whole
