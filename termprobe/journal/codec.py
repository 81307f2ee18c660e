"""Records to JSON objects and back, by the fields that records.py names. Pure.

Fields that have their default are left out. Bytes are hexadecimal. A record class that cannot grow,
such as
link.base.Received, stands as a list of its values.
"""

import dataclasses
import math
import types
from collections.abc import Callable, Mapping
from functools import cache, partial
from typing import Any, Union, get_args, get_origin, get_type_hints

from termprobe.journal.kept import Kept
from termprobe.journal.kinds import RECORD_KINDS
from termprobe.journal.records import Record, Unknown

JsonObject = dict[str, object]
OVER_RANGE_TEXT = "OL"
"""A reading over the range of its instrument: JSON has no number for it."""


class RecordError(ValueError):
    """JSON that is not the record that its kind calls for.

    The message says which field, and what it must be.
    """


def encode(record: Record) -> JsonObject:
    """Return `record` as JSON can hold it: number, times and kind first."""
    stamp = dict[str, object](seq=record.seq, t=record.t, at=record.at)
    if isinstance(record, Unknown):
        return {**stamp, "kind": record.called, **record.more}
    return {**stamp, "kind": record.kind, **_fields(record, left_out=stamp)}


def decode(document: JsonObject) -> Record:
    """Return the record in `document`, of class Unknown where its kind is not known.

    Raises RecordError where a field is not what it must be.
    """
    own = {key: value for key, value in document.items() if key != "kind"}
    kind = document.get("kind")
    known = RECORD_KINDS.get(kind) if isinstance(kind, str) else None
    if known is not None:
        record = _built(known, own)
        assert isinstance(record, Record)
        return record
    stamp: JsonObject = {key: own.pop(key) for key in ("seq", "t", "at") if key in own}
    unknown = _built(Unknown, stamp | {"called": kind})
    assert isinstance(unknown, Unknown)
    return dataclasses.replace(unknown, more=own)


def _fields(value: Kept, left_out: Mapping[str, object]) -> JsonObject:
    found: JsonObject = {}
    for field in dataclasses.fields(value):
        own = getattr(value, field.name)
        if field.name not in ("more", *left_out) and own != field.default:
            found[field.name] = _plain(own)
    return {**found, **value.more}


def _plain(value: object) -> object:
    if isinstance(value, bytes):
        return value.hex()
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if value == math.inf:
        return OVER_RANGE_TEXT
    if isinstance(value, Kept):
        return _fields(value, left_out={})
    if dataclasses.is_dataclass(value):
        return [_plain(getattr(value, field.name)) for field in dataclasses.fields(value)]
    return value


def _built(known: Any, document: Mapping[str, object]) -> Kept:
    hints = _hints(known)
    values: dict[str, Any] = {}
    more: JsonObject = {}
    for key, value in document.items():
        if key in hints and key != "more":
            values[key] = _read(hints[key], value, key)
        else:
            more[key] = value
    missing = [name for name in _needed(known) if name not in values]
    if missing:
        raise _wrong(missing[0], "given")
    built: Kept = known(**values, more=more)
    return built


@cache
def _hints(known: Any) -> Mapping[str, Any]:
    names = {field.name for field in dataclasses.fields(known)}
    return {name: hint for name, hint in get_type_hints(known).items() if name in names}


@cache
def _needed(known: Any) -> tuple[str, ...]:
    missing = dataclasses.MISSING
    fields = [field for field in dataclasses.fields(known) if field.default is missing]
    return tuple(field.name for field in fields if field.default_factory is missing)


Reader = Callable[[object, str], object]
"""Returns a value of JSON, of the field named, as a thing of one type."""


def _read(hint: Any, value: object, key: str) -> object:
    """Return `value` as a thing of type `hint`."""
    return _reader(hint)(value, key)


@cache
def _reader(hint: Any) -> Reader:
    """Return what reads a thing of type `hint`; it is looked up for every field of every record."""
    if get_origin(hint) in (types.UnionType, Union):
        options = [option for option in get_args(hint) if option is not type(None)]
        return partial(_read_optional, _reader(options[0]))
    if get_origin(hint) is tuple:
        return partial(_read_tuple, get_args(hint))
    if hint is bytes:
        return _read_bytes
    if dataclasses.is_dataclass(hint) and isinstance(hint, type):
        return partial(_read_part, hint)
    return partial(_read_plain, hint)


def _read_optional(reader: Reader, value: object, key: str) -> object:
    return None if value is None else reader(value, key)


def _read_plain(hint: Any, value: object, key: str) -> object:
    if hint is float and value == OVER_RANGE_TEXT:
        return math.inf
    if hint is float and isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    if hint is not float and type(value) is hint:
        return value
    raise _wrong(key, f"{hint.__name__}, not {type(value).__name__}")


def _read_bytes(value: object, key: str) -> bytes:
    if not isinstance(value, str):
        raise _wrong(key, "hexadecimal")
    try:
        return bytes.fromhex(value)
    except ValueError:
        raise _wrong(key, "hexadecimal") from None


def _read_tuple(hints: tuple[Any, ...], value: object, key: str) -> tuple[object, ...]:
    if not isinstance(value, list):
        raise _wrong(key, "a list")
    if hints[-1] is Ellipsis:
        return tuple(_read(hints[0], item, key) for item in value)
    return tuple(_read_row(hints, value, key))


def _read_part(hint: Any, value: object, key: str) -> object:
    if not issubclass(hint, Kept):
        return hint(*_read_row(tuple(_hints(hint).values()), value, key))
    if not isinstance(value, dict):
        raise _wrong(key, "an object")
    return _built(hint, value)


def _read_row(hints: tuple[Any, ...], value: object, key: str) -> list[object]:
    """Return a list of so many values, each of its own type."""
    if not isinstance(value, list) or len(value) != len(hints):
        raise _wrong(key, f"a list of {len(hints)}")
    return [_read(hint, item, key) for hint, item in zip(hints, value, strict=True)]


def _wrong(key: str, what: str) -> RecordError:
    return RecordError(f"{key} must be {what}")
