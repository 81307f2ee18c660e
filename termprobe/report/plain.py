"""Records as plain data, such as JSON holds, and the JSON Schema of what they become. Pure."""

import dataclasses
import types
import typing
from collections.abc import Iterator, Mapping
from typing import Any, get_args, get_origin, get_type_hints

from termprobe.report.document import UNLESS_NONE

Plain = dict[str, object]
SCHEMA_VERSION = "https://json-schema.org/draft/2020-12/schema"
_SIMPLE = {str: "string", int: "integer", float: "number", bool: "boolean", types.NoneType: "null"}


def plain(value: object) -> object:
    """Return a record as a dict, a tuple as a list; a record of named values is a dict too."""
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        return [plain(one) for one in value]
    if isinstance(value, Mapping):
        return {str(name): plain(one) for name, one in value.items()}
    if dataclasses.is_dataclass(value) or hasattr(value, "_fields"):
        return plain_record(value)
    return value


def plain_record(record: object) -> Plain:
    """Return a record as a dict of plain data, without what is left out of it."""
    found: Plain = {}
    for name, is_left_out in _fields(type(record)):
        value = getattr(record, name)
        if value is None and is_left_out:
            continue
        found[name.removesuffix("_")] = plain(value)
    return found


def _fields(record: type) -> Iterator[tuple[str, bool]]:
    """Yield (name, whether it is left out where it is None) of each field of a record."""
    if dataclasses.is_dataclass(record):
        for field in dataclasses.fields(record):
            yield field.name, bool(field.metadata.get(UNLESS_NONE))
        return
    for name in getattr(record, "_fields", ()):
        yield name, False


def schema_of(record: type, title: str) -> Plain:
    """Return the JSON Schema of one such record, or a list of several of them."""
    parts: dict[str, Plain] = {}
    own = _schema(record, parts)
    return _headed(title, {"anyOf": [own, {"type": "array", "items": own}]}, parts)


def schema_of_one(record: type, title: str) -> Plain:
    """Return the JSON Schema of one such record alone."""
    parts: dict[str, Plain] = {}
    return _headed(title, _schema(record, parts), parts)


def _headed(title: str, own: Plain, parts: dict[str, Plain]) -> Plain:
    """Return a schema as it stands in a file, with the `parts` that it names."""
    named = {"$defs": dict(sorted(parts.items()))}
    return {"$schema": SCHEMA_VERSION, "title": title, **own, **named}


def _schema(hint: Any, parts: dict[str, Plain]) -> Plain:  # - a type may be of any form
    """Return the schema of what a type hint allows; records are added to `parts`."""
    simple = _SIMPLE.get(hint)
    if simple is not None:
        return {"type": simple}
    origin, arguments = get_origin(hint), get_args(hint)
    if origin in (types.UnionType, typing.Union):
        return {"anyOf": [_schema(one, parts) for one in arguments]}
    if origin is tuple and arguments[-1] is Ellipsis:
        return {"type": "array", "items": _schema(arguments[0], parts)}
    if origin is tuple:
        items = [_schema(one, parts) for one in arguments]
        return {"type": "array", "prefixItems": items, "minItems": len(items), "items": False}
    if origin is dict:
        return {"type": "object", "additionalProperties": _schema(arguments[1], parts)}
    return _record_schema(hint, parts)


def _record_schema(record: type, parts: dict[str, Plain]) -> Plain:
    """Return the reference to a record's schema, which is added to `parts`."""
    own: Plain = {"$ref": f"#/$defs/{record.__name__}"}
    if record.__name__ in parts:
        return own
    parts[record.__name__] = {}
    hints = get_type_hints(record)
    fields = dict(_fields(record))
    first_line = (record.__doc__ or "").partition("\n")[0]
    parts[record.__name__] = {
        "type": "object",
        "description": first_line,
        "properties": {name.removesuffix("_"): _schema(hints[name], parts) for name in fields},
        "required": [name.removesuffix("_") for name, is_out in fields.items() if not is_out],
        "additionalProperties": False,
    }
    return own
