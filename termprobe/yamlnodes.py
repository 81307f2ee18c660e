"""Strict YAML, first part: text becomes a tree of nodes that know their places.

No value is typed by its looks. Aliases, tags, merges, duplicate keys, several documents, large and
deep files are findings.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

import yaml

from termprobe.findings import MAX_SHOWN, Findings, Place, quoted
from termprobe.notation import visible

MAX_DEPTH = 30


class PlainLoader(yaml.SafeLoader):
    """Reads what PyYAML's C part reads, where there is none.

    A question mark is a part of a plain text between braces; PyYAML's own Python ends it there.
    """

    _is_in_text = False

    def scan_plain(self) -> yaml.ScalarToken:
        """Return the plain text that comes next."""
        self._is_in_text = True
        try:
            return super().scan_plain()
        finally:
            self._is_in_text = False

    def peek(self, index: int = 0) -> str:
        """Return a character that comes next; any letter for what ends no text."""
        found = str(super().peek(index))
        return "x" if self._is_in_text and found == "?" else found


_LOADER = getattr(yaml, "CSafeLoader", PlainLoader)
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

    @property
    def is_empty(self) -> bool:
        """Tell whether nothing was written, not even quotes."""
        return self.plain and not self.text


@dataclass(frozen=True)
class List:
    """Nodes in order."""

    items: tuple["Node", ...]
    place: Place


@dataclass(frozen=True)
class Map:
    """(key, node) pairs in order; no key stands twice."""

    pairs: tuple[tuple[Scalar, "Node"], ...]
    place: Place


@dataclass(frozen=True)
class Refused:
    """Something that has its finding already; nothing more is to be said about it."""

    place: Place


Node = Scalar | List | Map | Refused


class _Mark(Protocol):
    """Where an event begins, both from 0."""

    @property
    def line(self) -> int: ...

    @property
    def column(self) -> int: ...


def tree(text: str, findings: Findings) -> Node:
    """Return the one document in `text`; note what is wrong.

    Raise FileError where it is no YAML at all.
    """
    _refuse_unprintable(text, findings)
    try:
        return _document(yaml.parse(text, _LOADER), findings)
    except yaml.MarkedYAMLError as error:
        _note_error(text, error, findings)
    except (yaml.YAMLError, ValueError, OverflowError) as error:
        # The last two: escapes beyond Unicode, in the slow loader.
        findings.add(Place(1, 1), f"must be YAML: {visible(str(error))}")
    raise findings.error()


def _refuse_unprintable(text: str, findings: Findings) -> None:
    for match in _NOT_TEXT.finditer(text):
        line = text.count("\n", 0, match.start()) + 1
        column = match.start() - text.rfind("\n", 0, match.start())
        code = ord(match[0])
        findings.add(Place(line, column), f"must be printable text, not the character {code:02X}h")
        if len(findings) == MAX_SHOWN:
            break
    findings.refuse()


def _note_error(text: str, error: yaml.MarkedYAMLError, findings: Findings) -> None:
    place = _place(error.problem_mark or error.context_mark)
    lines = text.splitlines()
    before = "".join(lines[place.line - 1 : place.line])[: place.column]
    if before.strip(" ").startswith("\t"):
        findings.add(place, "must be indented with blanks, not a TAB")
    else:
        findings.add(place, f"must be YAML: {visible(str(error.problem or error.context))}")


def _place(mark: _Mark | None) -> Place:
    if mark is None:
        return Place(1, 1)
    return Place(mark.line + 1, mark.column + 1)


def _document(events: Iterator[yaml.Event], findings: Findings) -> Node:
    if _next_document(events) is None:
        findings.add(Place(1, 1), "must hold a YAML mapping, not nothing")
        raise findings.error()
    node = _node(next(events), events, findings, 0)
    second = _next_document(events)
    if second is not None:
        findings.add(_place(second.start_mark), "must be one document, not a second one")
        raise findings.error()
    return node


def _next_document(events: Iterator[yaml.Event]) -> yaml.DocumentStartEvent | None:
    return next((event for event in events if isinstance(event, yaml.DocumentStartEvent)), None)


def _node(event: yaml.Event, events: Iterator[yaml.Event], findings: Findings, depth: int) -> Node:
    place = _place(event.start_mark)
    if depth > MAX_DEPTH:
        findings.add(place, f"must be nested at most {MAX_DEPTH} deep, not deeper")
        raise findings.error()
    if isinstance(event, yaml.AliasEvent):
        findings.add(place, "must be written out, not an alias (*name) of another place")
        return Refused(place)
    if isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent) and event.tag:
        findings.add(place, f"must be plain YAML, not the tag {visible(event.tag)}")
    if isinstance(event, yaml.ScalarEvent):
        return Scalar(event.value, not event.style, place)
    if isinstance(event, yaml.SequenceStartEvent):
        return List(tuple(_items(events, findings, depth)), place)
    return Map(tuple(_pairs(events, findings, depth)), place)


def _items(events: Iterator[yaml.Event], findings: Findings, depth: int) -> Iterator[Node]:
    for event in events:
        if isinstance(event, yaml.SequenceEndEvent):
            return
        yield _node(event, events, findings, depth + 1)


def _pairs(
    events: Iterator[yaml.Event], findings: Findings, depth: int
) -> Iterator[tuple[Scalar, Node]]:
    known: set[str] = set()
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


def _key_trouble(key: Node, known: set[str]) -> str:
    """Return what is wrong with a key; nothing where it is right, or has its finding already."""
    if isinstance(key, Refused):
        return ""
    if not isinstance(key, Scalar):
        return "a key must be one word, not a list or mapping"
    if key.text == "<<" and key.plain:
        return "must be written out, not merged (<<) from another place"
    if key.text in known:
        return f"each key must stand once, not {quoted(key.text)} again"
    return ""
