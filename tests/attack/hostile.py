"""Texts that nobody should be able to act by, and what is wrong with a page that shows them."""

import json
import unicodedata
import xml.etree.ElementTree as ElementTree

import html5lib
from markdown_it import MarkdownIt

LONG = 20_000
TEXTS = {
    "escape": "\x1b[2J\x1b]0;attack\x07",
    "C0": "a\0b\x08c\rd\x0ee\x7f",
    "C1": "\x9b31m\x85\x90attack\x9c",
    "line feeds": "attack\n# attack\n\n- attack\n```\n| a |\n---\n",
    "separators": "a\u2028attack\u2029b",
    "right to left": "\u202eattack\u202c\u2066a\u2069\u200f\u061c",
    "without width": "a\u200bt\u2060t\ufeffa\u00adck\u180e\u200d",
    "tags": "a\U000e0001\U000e0061\ufff9b\ufffa\ufffb",
    "surrogate": "a\udc9b31m\ud800",
    "no character": "a\uffff\ufffe\U0001fffe",
    "element": "<attack onclick=attack()>&lt;b&gt;</attack>",
    "script": "</style></title></script><script>attack()</script><!--",
    "attribute": "\"'><img src=x onerror=attack()>",
    "CDATA": "]]><attack/><![CDATA[ &attack;",
    "template": "{{19137*73331}}{% raw %}${19137*73331}",
    "link": "[attack](javascript:attack()) <javascript:attack()> ![attack](http://attack.invalid)",
    "bare link": "http://attack.invalid/ www.attack.invalid attack@attack.invalid",
    "emphasis": "**attack** _attack_ `attack` ~~attack~~ ``` # attack",
    "table": "attack|attack\\|attack",
    "shell": "$(attack) `attack` ; attack & | attack > attack",
    "format": "%s%n{0}{attack}\\x1b[2J",
    "long": "attack " * (LONG // 7),
    "wide": "漢" * 200 + "e" + "\u0301" * 200,
    "empty": "",
}
"""Each by what is hostile about it."""
ACTS = {"Cc", "Cf", "Cs", "Zl", "Zp"}
"""What could act on a console, by categories of Unicode: control, format, surrogate, separator."""
TEMPLATED = "1403335347"
"""What a template would make of its text above."""


def wrong_with_text(page):
    """Return what acts in a page; empty where nothing does."""
    for character in sorted(set(page) - {"\n"}):
        if not character.isprintable() and unicodedata.category(character) in ACTS:
            return f"raw: {character!r}"
    if TEMPLATED in page:
        return "a template was filled in"
    return ""


def wrong_with_html(page):
    """Return what of a hostile text is markup in a page of HTML."""
    for element in html5lib.parse(page, namespaceHTMLElements=False).iter():
        if not isinstance(element.tag, str):
            if "attack" in (element.text or ""):
                return "a comment"
            continue
        if "attack" in element.tag or any(name.startswith("on") for name in element.attrib):
            return f"an element: {element.tag} {dict(element.attrib)}"
        if element.tag in ("script", "style") and "attack" in (element.text or ""):
            return f"in {element.tag}"
        address = element.get("href") or element.get("src") or ""
        if "attack" in address:
            return f"a link: {address}"
    return ""


OF_MARKUP = ("html_inline", "html_block", "link_open", "image", "s_open", "em_open")


def wrong_with_markdown(page):
    """Return what of a hostile text is markup in a page of Markdown."""
    reader = MarkdownIt("gfm-like", {"html": True, "linkify": False})
    tokens = reader.parse(page)
    for token in [*tokens, *(child for one in tokens for child in one.children or ())]:
        if token.type in OF_MARKUP:
            return f"{token.type}: {token.content or token.attrs}"
        if token.type == "code_inline" and token.content == "attack":
            return "code"
    headings = [two for one, two in zip(tokens, tokens[1:], strict=False) if _is_heading(one)]
    if any(token.content.strip() == "attack" for token in headings):
        return "a heading"
    return ""


def _is_heading(token):
    return token.type == "heading_open"


def wrong_with_json(page):
    """Return why a page is no JSON that every reader takes."""
    try:
        json.loads(page, parse_constant=_refused)
    except ValueError as error:
        return f"no JSON: {error}"
    return ""


def _refused(word):
    raise ValueError(f"{word} is no number")


def wrong_with_xml(page):
    """Return why a page is no XML."""
    try:
        found = ElementTree.fromstring(page)
    except ElementTree.ParseError as error:
        return f"no XML: {error}"
    return "an element" if found.findall(".//attack") else ""


WRONG_WITH = {
    "text": wrong_with_text,
    "html": wrong_with_html,
    "markdown": wrong_with_markdown,
    "json": wrong_with_json,
    "junit": wrong_with_xml,
}


def wrong_with(kind, page):
    """Return what is wrong with a page of a kind."""
    return wrong_with_text(page) or WRONG_WITH[kind](page)
