"""Strict YAML, second half: one file to frozen dataclasses, or every finding at once as `file:line:column: what must be`.

Each value is text until the dataclass field that takes it says otherwise. Unknown and missing keys are findings.
"""

import dataclasses
import functools
import pathlib
import re
import types
import typing

from termprobe import notation
from termprobe.errors import FileError
from termprobe.findings import UNKNOWN, Findings, Place, nearest, nearest_word, quoted, try_check
from termprobe.yamlnodes import List, Map, Refused, Scalar, tree

MAX_BYTES = 1_000_000
_PACKAGE = pathlib.Path(__file__).resolve().parent


class Text(str):
    """A string that knows where it stood: `.line` and `.column`, both from 1."""

    line = column = 0


class ByteText(bytes):
    """Bytes written in the notation, that know where they stood."""

    line = column = 0


class Template(tuple):
    """Bytes and slot names in the notation, that know where they stood."""

    line = column = 0


def shipped(kind):
    """Return the folder of the files of `kind` (profiles, scripts) that come with termprobe: in the package, or beside it."""
    inside = _PACKAGE / "shipped" / kind
    return inside if inside.is_dir() else _PACKAGE.parent / kind


def shipped_ids(kind):
    """Return the ids of the shipped files of `kind`, sorted."""
    return sorted(path.stem for path in shipped(kind).glob("*.yaml"))


def find(name, kind):
    """Return the path of the file that `name`, an id or a path, stands for; raise FileError with the nearest id."""
    path = pathlib.Path(name)
    if path.suffix in (".yaml", ".yml") or path.parent != pathlib.Path("."):
        return path
    ids = shipped_ids(kind)
    if name in ids:
        return shipped(kind) / f"{name}.yaml"
    raise FileError(
        [
            f"{name}: {kind[:-1]} must be a path to a .yaml file or one of {', '.join(ids)}{nearest(name, ids)}"
        ]
    )


def read_text(path):
    """Return the file's text; raise FileError where it cannot be read, is too large, or is no UTF-8."""
    try:
        with open(path, "rb") as file:
            data = file.read(MAX_BYTES + 1)
    except OSError as error:
        raise FileError([f"{path}: must be a readable file ({error.strerror or error})"]) from None
    if len(data) > MAX_BYTES:
        raise FileError([f"{path}: must be at most {MAX_BYTES:,} bytes, not more"])
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = error.start - data.rfind(b"\n", 0, error.start)
        raise FileError(
            [f"{path}:{line}:{column}: must be UTF-8 text, not the byte {data[error.start]:02X}h"]
        ) from None


def build(text, name, cls, checks=()):
    """Return the document in `text` as a `cls`; `name` stands in the findings.

    Each of `checks` is called with the built object and the Findings, to add what only the whole can show; what is
    already known to be wrong is UNKNOWN in the object, and stops the check that uses it. Raises FileError with every finding.
    """
    findings = Findings(name)
    value = _value(tree(text, findings), cls, _word(cls), findings)
    for check in checks:
        try_check(check, value, findings)
    findings.refuse()
    return value


def _value(node, kind, path, findings):
    """Return `node` as a `kind`, or UNKNOWN with a finding."""
    if isinstance(node, Refused):
        return UNKNOWN
    kind = _alternative(node, kind)
    origin = typing.get_origin(kind)
    if kind is None:
        return None
    if origin is tuple:
        return _list(node, typing.get_args(kind)[0], path, findings)
    if origin is dict:
        return _dict(node, typing.get_args(kind)[1], path, findings)
    if dataclasses.is_dataclass(kind):
        return _record(node, kind, path, findings)
    return _scalar(node, kind, path, findings)


def _alternative(node, kind):
    """Return the one of a union's kinds that the form of `node` fits, the last where none does; None where it is left empty."""
    if typing.get_origin(kind) not in (typing.Union, types.UnionType):
        return kind
    kinds = [k for k in typing.get_args(kind) if k is not types.NoneType]
    if isinstance(node, Scalar) and node.plain and not node.text:
        return None
    literals = [k for k in kinds if typing.get_origin(k) is typing.Literal]
    for k in literals:
        if isinstance(node, Scalar) and node.text in typing.get_args(k):
            return k
    others = [k for k in kinds if k not in literals]
    return next((k for k in others if isinstance(node, _form_of(k))), (others or literals)[-1])


def _form_of(kind):
    if typing.get_origin(kind) is tuple:
        return List
    return Map if typing.get_origin(kind) is dict or dataclasses.is_dataclass(kind) else Scalar


def _list(node, kind, path, findings):
    if not isinstance(node, List):
        return _refuse(node, f"{path} must be a list, not {_shown(node)}", findings)
    path = _word(kind) if dataclasses.is_dataclass(kind) else path
    return tuple(_value(item, kind, path, findings) for item in node.items)


def _dict(node, kind, path, findings):
    if not isinstance(node, Map):
        return _refuse(node, f"{path} must be a mapping, not {_shown(node)}", findings)
    return {
        _placed(Text(key.text), key): _value(value, kind, key.text, findings)
        for key, value in node.pairs
    }


def _record(node, cls, path, findings):
    if not isinstance(node, Map):
        return _refuse(node, f"{path} must be a mapping, not {_shown(node)}", findings)
    fields = _fields(cls)
    values, places = {}, {}
    for key, value in node.pairs:
        name, kind, _ = fields.get(key.text, (None, None, None))
        if name:
            values[name] = _value(value, kind, key.text, findings)
            places[name] = value.place
        else:
            meant = _unknown_key(key, path, fields, findings)
            values.setdefault(meant, UNKNOWN)
    values.pop(None, None)
    for key, (name, _, needed) in fields.items():
        if needed and name not in values:
            values[name] = _refuse(node, f'{path} must have the key "{key}"', findings)
    record = cls(**values)
    object.__setattr__(record, "place", Place(node.place.line, node.place.column, places))
    return record


def _unknown_key(key, path, fields, findings):
    """Note the unknown key; return the name of the field that was most likely meant, or None."""
    findings.add(
        key.place,
        f"a key of {path} must be one of {', '.join(fields)}, not {quoted(key.text)}{nearest(key.text, fields)}",
    )
    return fields.get(nearest_word(key.text, fields), (None,))[0]


@functools.cache
def _fields(cls):
    """Return key in the file -> (field, its kind, whether it is needed)."""
    hints = typing.get_type_hints(cls)
    return {
        field.metadata.get("key", field.name): (
            field.name,
            hints[field.name],
            field.default is field.default_factory is dataclasses.MISSING,
        )
        for field in dataclasses.fields(cls)
        if field.init
    }


def _scalar(node, kind, path, findings):
    if not isinstance(node, Scalar) or node.plain and not node.text:
        return _refuse(node, f"{path} must be {_kind_name(kind)}, not {_shown(node)}", findings)
    try:
        if typing.get_origin(kind) is typing.Literal:
            return _one_of(node.text, typing.get_args(kind))
        return _placed(_READERS[kind](node.text), node)
    except notation.NotationError as error:
        return _refuse(node, f"{path}: {notation.visible(str(error))}", findings)
    except ValueError:
        return _refuse(
            node,
            f"{path} must be {_kind_name(kind)}, not {_shown(node)}{nearest(node.text, typing.get_args(kind))}",
            findings,
        )


def _refuse(node, text, findings):
    findings.add(node.place, text)
    return UNKNOWN


def _one_of(text, allowed):
    if text not in allowed:
        raise ValueError
    return text


def _text(text):
    if any(notation.visible(character) != character for character in text.replace("\n", "")):
        raise ValueError
    return Text(text)


def _integer(text):
    if re.fullmatch(r"[0-9A-Fa-f]{1,8}h", text):
        return int(text[:-1], 16)
    if not re.fullmatch(r"-?[0-9]{1,9}", text):
        raise ValueError
    return int(text)


def _number(text):
    if not re.fullmatch(r"-?[0-9]{1,9}(\.[0-9]{1,9})?", text):
        raise ValueError
    return float(text)


def _yes_no(text):
    return _one_of(text, ("yes", "no")) == "yes"


def _bytes(text):
    return ByteText(notation.parse(text))


def _template(text):
    return Template(notation.parse_template(text))


_READERS = {
    str: _text,
    int: _integer,
    float: _number,
    bool: _yes_no,
    bytes: _bytes,
    ByteText: _bytes,
    Template: _template,
}
_NAMES = {
    str: "printable text",
    int: "a whole number (decimal, or hexadecimal as 1Bh)",
    float: "a number",
    bool: "yes or no",
}


def _kind_name(kind):
    if typing.get_origin(kind) is typing.Literal:
        return f"one of {', '.join(typing.get_args(kind))}"
    return _NAMES.get(kind, "bytes in the notation")


def _word(cls):
    """Return what a record is called in findings: ScriptStep is a `script step`."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", cls.__name__).lower()


def _placed(value, node):
    if isinstance(value, (Text, ByteText, Template)):
        value.line, value.column = node.place.line, node.place.column
    return value


def _shown(node):
    if isinstance(node, Scalar):
        return quoted(node.text) if node.text or not node.plain else "nothing"
    return "a list" if isinstance(node, List) else "a mapping"
