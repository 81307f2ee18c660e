"""Strict YAML, last part: one file to frozen dataclasses, or every finding at once.

A finding reads `file:line:column: what must be`. Each value is text until the dataclass field that
takes it says otherwise. Unknown and missing keys are findings.
"""

import dataclasses
import functools
import pathlib
import re
import types
import typing
from collections.abc import Callable, Iterable

from termprobe import yamlvalues
from termprobe.errors import FileError
from termprobe.findings import UNKNOWN, Findings, Place, nearest, nearest_word, quoted, try_check
from termprobe.notation import NotationError, visible
from termprobe.yamlnodes import List, Map, Node, Refused, Scalar, tree

MAX_BYTES = 1_000_000
_PACKAGE = pathlib.Path(__file__).resolve().parent

T = typing.TypeVar("T")


def shipped(kind: str) -> pathlib.Path:
    """Return the folder of the files of `kind` (profiles, scripts) that come with termprobe.

    It lies in the package, or beside it.
    """
    inside = _PACKAGE / "shipped" / kind
    if inside.is_dir():
        return inside
    return _PACKAGE.parent / kind


def shipped_ids(kind: str) -> list[str]:
    """Return the ids of the shipped files of `kind`, sorted."""
    return sorted(path.stem for path in shipped(kind).glob("*.yaml"))


def find(name: str, kind: str) -> pathlib.Path:
    """Return the path of the file that `name`, an id or a path, stands for.

    Raise FileError with the nearest id.
    """
    path = pathlib.Path(name)
    if path.suffix in (".yaml", ".yml") or path.parent != pathlib.Path("."):
        return path
    ids = shipped_ids(kind)
    if name in ids:
        return shipped(kind) / f"{name}.yaml"
    allowed = f"a path to a .yaml file or one of {', '.join(ids)}"
    raise FileError([f"{name}: {kind[:-1]} must be {allowed}{nearest(name, ids)}"])


def read_text(path: str | pathlib.Path) -> str:
    """Return the file's text; raise FileError where it is unreadable, too large, or no UTF-8."""
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
        found = f"not the byte {data[error.start]:02X}h"
        raise FileError([f"{path}:{line}:{column}: must be UTF-8 text, {found}"]) from None


def build(
    text: str, name: str, kind: type[T], checks: Iterable[Callable[[T, Findings], None]] = ()
) -> T:
    """Return the document in `text` as a `kind`; `name` stands in the findings.

    Each of `checks` is called with the built object and the Findings, to add what only the whole
    can show; what is already known to be wrong is UNKNOWN in the object, and stops the check that
    uses it. Raises FileError with every finding.
    """
    findings = Findings(name)
    value = _value(tree(text, findings), kind, _word(kind), findings)
    if not _is_known(value, kind):
        raise findings.error()
    for check in checks:
        try_check(check, value, findings)
    findings.refuse()
    return value


def _is_known(value: object, kind: type[T]) -> typing.TypeGuard[T]:
    """Tell whether `value`, which _value has made for `kind`, is one, or UNKNOWN."""
    return value is not UNKNOWN


def _value(node: Node, kind: object, path: str, findings: Findings) -> object:
    """Return `node` as a `kind`, or UNKNOWN with a finding."""
    if isinstance(node, Refused):
        return UNKNOWN
    kind = _alternative(node, kind)
    if kind is None:
        return None
    if typing.get_origin(kind) is tuple:
        return _list(node, typing.get_args(kind)[0], path, findings)
    if typing.get_origin(kind) is dict:
        return _dict(node, typing.get_args(kind)[1], path, findings)
    if isinstance(kind, type) and dataclasses.is_dataclass(kind):
        return _record(node, kind, path, findings)
    return _scalar(node, kind, path, findings)


def _alternative(node: Node, kind: object) -> object:
    """Return the one of a union's kinds that `node` fits, the last where it fits none.

    Words come first; None stands for a value that is left empty.
    """
    if typing.get_origin(kind) not in (typing.Union, types.UnionType):
        return kind
    if isinstance(node, Scalar) and node.is_empty:
        return None
    kinds = [each for each in typing.get_args(kind) if each is not types.NoneType]
    kinds.sort(key=lambda each: not yamlvalues.words_of(each))
    return next((each for each in kinds if _fits(node, each)), kinds[-1])


def _fits(node: Node, kind: object) -> bool:
    words = yamlvalues.words_of(kind)
    if words:
        return isinstance(node, Scalar) and node.text in words
    if typing.get_origin(kind) is tuple:
        return isinstance(node, List)
    if typing.get_origin(kind) is dict or dataclasses.is_dataclass(kind):
        return isinstance(node, Map)
    return isinstance(node, Scalar)


def _list(node: Node, kind: object, path: str, findings: Findings) -> object:
    if not isinstance(node, List):
        return _refuse(node, f"{path} must be a list, not {_shown(node)}", findings)
    if isinstance(kind, type) and dataclasses.is_dataclass(kind):
        path = _word(kind)
    return tuple(_value(item, kind, path, findings) for item in node.items)


def _dict(node: Node, kind: object, path: str, findings: Findings) -> object:
    if not isinstance(node, Map):
        return _refuse(node, f"{path} must be a mapping, not {_shown(node)}", findings)
    return {
        yamlvalues.key_of(key): _value(value, kind, key.text, findings) for key, value in node.pairs
    }


def _record(node: Node, cls: type, path: str, findings: Findings) -> object:
    if not isinstance(node, Map):
        return _refuse(node, f"{path} must be a mapping, not {_shown(node)}", findings)
    fields = _fields(cls)
    values: dict[str, object] = {}
    places: dict[str, Place] = {}
    for key, value in node.pairs:
        field = fields.get(key.text)
        if field is not None:
            values[field.name] = _value(value, field.kind, key.text, findings)
            places[field.name] = value.place
            continue
        meant = _unknown_key(key, path, fields, findings)
        if meant is not None:
            values.setdefault(meant.name, UNKNOWN)
    for name, field in fields.items():
        if field.is_needed and field.name not in values:
            values[field.name] = _refuse(node, f'{path} must have the key "{name}"', findings)
    record: object = cls(**values)
    object.__setattr__(record, "place", Place(node.place.line, node.place.column, places))
    return record


class _Field(typing.NamedTuple):
    """A field of a record."""

    name: str
    kind: object
    is_needed: bool


@functools.cache
def _fields(cls: type) -> dict[str, _Field]:
    """Return the fields of a dataclass by their keys in the file."""
    hints = typing.get_type_hints(cls)
    found = {}
    for field in dataclasses.fields(cls):
        if field.init:
            is_needed = field.default is field.default_factory is dataclasses.MISSING
            key = field.metadata.get("key", field.name)
            found[key] = _Field(field.name, hints[field.name], is_needed)
    return found


def _unknown_key(
    key: Scalar, path: str, fields: dict[str, _Field], findings: Findings
) -> _Field | None:
    """Note the unknown key; return the field that was most likely meant, or None."""
    keys = ", ".join(fields)
    near = nearest(key.text, fields)
    findings.add(key.place, f"a key of {path} must be one of {keys}, not {quoted(key.text)}{near}")
    return fields.get(nearest_word(key.text, fields) or "")


def _scalar(node: Node, kind: object, path: str, findings: Findings) -> object:
    if not isinstance(node, Scalar) or node.is_empty:
        return _refuse(node, _misfit(node, kind, path), findings)
    try:
        return yamlvalues.read(node, kind)
    except NotationError as error:
        return _refuse(node, f"{path}: {visible(str(error))}", findings)
    except ValueError:
        near = nearest(node.text, yamlvalues.words_of(kind))
        return _refuse(node, _misfit(node, kind, path) + near, findings)


def _misfit(node: Node, kind: object, path: str) -> str:
    return f"{path} must be {yamlvalues.name_of(kind)}, not {_shown(node)}"


def _refuse(node: Node, text: str, findings: Findings) -> object:
    findings.add(node.place, text)
    return UNKNOWN


def _word(cls: type) -> str:
    """Return what a record is called in findings: ScriptStep is a `script step`."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", cls.__name__).lower()


def _shown(node: Node) -> str:
    if isinstance(node, List):
        return "a list"
    if isinstance(node, Map):
        return "a mapping"
    if isinstance(node, Scalar) and not node.is_empty:
        return quoted(node.text)
    return "nothing"
