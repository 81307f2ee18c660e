"""Strict YAML, second part: values that know where they stood, and how one scalar becomes one."""

import re
import typing
from collections.abc import Callable
from dataclasses import dataclass, field

from termprobe import notation
from termprobe.findings import Place
from termprobe.yamlnodes import Scalar


class _Written:
    """A value that knows where in its file it stood, both from 1; 0 where it came from no file."""

    line: int = 0
    column: int = 0


class Text(_Written, str):
    """Printable text."""


class ByteText(_Written, bytes):
    """Bytes written in the notation."""


class Template(_Written, tuple[bytes | str, ...]):
    """Bytes and slot names in the notation."""

    @property
    def slots(self) -> tuple[str, ...]:
        """The names of the slots, in order."""
        return tuple(part for part in self if isinstance(part, str))

    @property
    def literal(self) -> bytes:
        """The bytes before, between and behind the slots, joined."""
        return b"".join(part for part in self if isinstance(part, bytes))

    def begins_with(self, data: bytes) -> bool:
        """Tell whether the bytes before the first slot begin with `data`."""
        return bool(self) and isinstance(self[0], bytes) and self[0].startswith(data)

    def with_slots_as(self, mark: bytes) -> bytes:
        """Return the bytes with `mark` in each slot."""
        return b"".join(mark if isinstance(part, str) else part for part in self)


@dataclass(frozen=True)
class Mapped:
    """What was read from a mapping."""

    place: Place = field(default=Place(), init=False, compare=False, repr=False)


def read(node: Scalar, kind: object) -> object:
    """Return the value of `kind` that stands in `node`; raise ValueError where none does."""
    words = words_of(kind)
    if words:
        return _one_of(node.text, words)
    value = _READERS[kind](node.text)
    if isinstance(value, _Written):
        value.line, value.column = node.place.line, node.place.column
    return value


def key_of(node: Scalar) -> Text:
    """Return the key of a mapping that stands in `node`, whatever it is."""
    key = Text(node.text)
    key.line, key.column = node.place.line, node.place.column
    return key


def words_of(kind: object) -> tuple[str, ...]:
    """Return the words that a Literal allows; none for any other kind."""
    if typing.get_origin(kind) is typing.Literal:
        return typing.get_args(kind)
    return ()


def name_of(kind: object) -> str:
    """Return what a value of `kind` is called in findings."""
    words = words_of(kind)
    if words:
        return f"one of {', '.join(words)}"
    return _NAMES.get(kind, "bytes in the notation")


def _one_of(text: str, allowed: tuple[str, ...]) -> str:
    if text not in allowed:
        raise ValueError
    return text


def _text(text: str) -> Text:
    without_breaks = text.replace("\n", "")
    if notation.visible(without_breaks) != without_breaks:
        raise ValueError
    return Text(text)


def _integer(text: str) -> int:
    if re.fullmatch(r"[0-9A-Fa-f]{1,8}h", text):
        return int(text[:-1], 16)
    if not re.fullmatch(r"-?[0-9]{1,9}", text):
        raise ValueError
    return int(text)


def _number(text: str) -> float:
    if not re.fullmatch(r"-?[0-9]{1,9}(\.[0-9]{1,9})?", text):
        raise ValueError
    return float(text)


def _yes_no(text: str) -> bool:
    return _one_of(text, ("yes", "no")) == "yes"


def _bytes(text: str) -> ByteText:
    return ByteText(notation.parse(text))


def _template(text: str) -> Template:
    return Template(notation.parse_template(text))


_READERS: dict[object, Callable[[str], object]] = {
    str: _text,
    Text: _text,
    int: _integer,
    float: _number,
    bool: _yes_no,
    ByteText: _bytes,
    Template: _template,
}
_TEXT = "printable text"
_NAMES: dict[object, str] = {
    str: _TEXT,
    Text: _TEXT,
    int: "a whole number (decimal, or hexadecimal as 1Bh)",
    float: "a number",
    bool: "yes or no",
}
