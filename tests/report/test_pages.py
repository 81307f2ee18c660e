"""Pages: everything that is filled in is escaped and shown, and nothing may be missing."""

import html5lib
import pytest
from jinja2 import UndefinedError

from termprobe.report import pages
from termprobe.report.pages import page


@pytest.fixture
def templates(tmp_path, monkeypatch):
    """Return a folder whose templates stand beside those of the program."""
    monkeypatch.setattr(pages, "TEMPLATES", [tmp_path, pages.TEMPLATES])
    pages._environment.cache_clear()
    yield tmp_path
    pages._environment.cache_clear()


def parsed(text):
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)


def test_what_is_filled_in_is_neither_markup_nor_a_control_character(templates):
    (templates / "try.html").write_text("<p title='{{ text }}'>{{ text }}</p>")
    found = page("try.html", text="<script>'\x1b[2J\u202e & ")
    assert "<script" not in found and "\x1b" not in found and "\u202e" not in found
    assert found.count("&lt;script&gt;&#39;\\x1b[2J\\u202e &amp; ") == 2


def test_a_fact_that_is_missing_is_a_mistake(templates):
    (templates / "try.html").write_text("{{ missing }}")
    with pytest.raises(UndefinedError, match="missing"):
        page("try.html")


def test_the_frame_is_a_whole_page_that_forbids_scripts_and_links_its_contents(templates):
    (templates / "try.html").write_text(
        '{% extends "base.html" %}{% block title %}{{ name }}{% endblock %}'
        '{% block main %}<section id="one"><h2>One</h2></section>{% endblock %}'
    )
    found = parsed(page("try.html", name="A & B", contents=[("one", "The <first>")]))
    metas = {
        meta.get("http-equiv") or meta.get("name"): meta.get("content")
        for meta in found.iter("meta")
    }
    assert metas["Content-Security-Policy"].startswith("default-src 'none'")
    assert "script-src" not in metas["Content-Security-Policy"]
    assert metas["color-scheme"] == "light dark"
    assert found.findtext("head/title") == "A & B"
    (link,) = found.iter("a")
    assert (link.get("href"), link.text) == ("#one", "The <first>")
    assert not list(found.iter("script")) and not list(found.iter("link"))


def test_the_style_serves_paper_phones_dark_rooms_and_keys():
    style = (pages.TEMPLATES / "page.css").read_text()
    for needed in ("@media print", "max-width: 34rem", "prefers-color-scheme: dark"):
        assert needed in style
    assert ":focus-visible" in style and "@page" in style
    assert "url(" not in style and "@import" not in style
