"""Strict YAML, first half: text becomes a tree of nodes that know their places. No value is typed by its looks.

Aliases, tags, merges, duplicate keys, several documents, large and deep files are findings.
"""

import re
from dataclasses import dataclass

import yaml

from termprobe.findings import MAX_SHOWN, Place, quoted
from termprobe.notation import visible

MAX_DEPTH = 30
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_NOT_TEXT = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"
)  # YAML 1.1, 5.1 (c-printable)


@dataclass(frozen=True)
class Scalar:
    """One word or text."""

    text: str
    plain: bool
    """Written without quotes."""
    place: Place


@dataclass(frozen=True)
class List:
    """Nodes in order."""

    items: tuple
    place: Place


@dataclass(frozen=True)
class Map:
    """(key Scalar, node) pairs in order; no key stands twice."""

    pairs: tuple
    place: Place


@dataclass(frozen=True)
class Refused:
    """Something that has its finding already; nothing more is to be said about it."""

    place: Place


def tree(text, findings):
    """Return the one document in `text` as a node; raise FileError where it is no YAML at all, note what else is wrong."""
    _refuse_unprintable(text, findings)
    try:
        return _document(yaml.parse(text, _LOADER), findings)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        findings.add(_place(mark), _wording(text, mark, error))
    except (
        yaml.YAMLError,
        ValueError,
        OverflowError,
    ) as error:  # the last two: escapes beyond Unicode, in the slow loader
        findings.add(Place(1, 1), f"must be YAML: {visible(str(error))}")
    return findings.refuse()


def _refuse_unprintable(text, findings):
    for match in _NOT_TEXT.finditer(text):
        line = text.count("\n", 0, match.start()) + 1
        column = match.start() - text.rfind("\n", 0, match.start())
        findings.add(
            Place(line, column), f"must be printable text, not the character {ord(match[0]):02X}h"
        )
        if len(findings) == MAX_SHOWN:
            break
    findings.refuse()


def _wording(text, mark, error):
    lines = text.splitlines()
    line = lines[mark.line] if mark.line < len(lines) else ""
    if line[: mark.column + 1].strip(" ").startswith("\t"):
        return "must be indented with blanks, not a TAB"
    return f"must be YAML: {visible(str(error.problem or error.context))}"


def _place(mark):
    return Place(mark.line + 1, mark.column + 1)


def _document(events, findings):
    for event in events:
        if isinstance(event, yaml.DocumentStartEvent):
            node = _node(next(events), events, findings, 0)
            break
    else:
        findings.add(Place(1, 1), "must hold a YAML mapping, not nothing")
        return findings.refuse()
    second = next((event for event in events if isinstance(event, yaml.DocumentStartEvent)), None)
    if second:
        findings.add(_place(second.start_mark), "must be one document, not a second one")
        findings.refuse()
    return node


def _node(event, events, findings, depth):
    place = _place(event.start_mark)
    if depth > MAX_DEPTH:
        findings.add(place, f"must be nested at most {MAX_DEPTH} deep, not deeper")
        findings.refuse()
    if isinstance(event, yaml.AliasEvent):
        findings.add(place, "must be written out, not an alias (*name) of another place")
        return Refused(place)
    if event.tag:
        findings.add(place, f"must be plain YAML, not the tag {visible(event.tag)}")
    if isinstance(event, yaml.ScalarEvent):
        return Scalar(event.value, not event.style, place)
    if isinstance(event, yaml.SequenceStartEvent):
        return List(tuple(_items(events, findings, depth)), place)
    return Map(tuple(_pairs(events, findings, depth)), place)


def _items(events, findings, depth):
    for event in events:
        if isinstance(event, yaml.SequenceEndEvent):
            return
        yield _node(event, events, findings, depth + 1)


def _pairs(events, findings, depth):
    known = set()
    for event in events:
        if isinstance(event, yaml.MappingEndEvent):
            return
        key = _node(event, events, findings, depth + 1)
        value = _node(next(events), events, findings, depth + 1)
        trouble = _key_trouble(key, known)
        if trouble:
            findings.add(key.place, trouble)
        elif isinstance(key, Scalar):
            known.add(key.text)
            yield key, value


def _key_trouble(key, known):
    if isinstance(key, Refused):
        return None
    if not isinstance(key, Scalar):
        return "a key must be one word, not a list or mapping"
    if key.text == "<<" and key.plain:
        return "must be written out, not merged (<<) from another place"
    return f"each key must stand once, not {quoted(key.text)} again" if key.text in known else None
