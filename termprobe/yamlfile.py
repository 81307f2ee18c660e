"""Strict YAML: one file to frozen dataclasses, or every finding at once as `file:line:column: what must be, not what stood there`.

No value is typed by its looks: each is a string until the dataclass field that takes it says otherwise. Aliases, tags,
merges, duplicate and unknown keys, several documents, large and deep files are refused.
"""

import dataclasses
import difflib
import pathlib
import types
import typing

import yaml

from termprobe import notation
from termprobe.errors import FileError

MAX_BYTES = 1_000_000
MAX_DEPTH = 30
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


class Findings(list):
    """The findings on one file, in the order in which they were met."""

    def __init__(self, name):
        super().__init__()
        self.name = name

    def add(self, place, text):
        """Note `text` against `place`, anything with `.line` and `.column`, or a YAML mark."""
        column = place.column + (1 if isinstance(place, yaml.Mark) else 0)
        line = place.line + (1 if isinstance(place, yaml.Mark) else 0)
        self.append((line, column, f"{self.name}:{line}:{column}: {text}"))

    def refuse(self):
        """Raise FileError with every finding sorted by place, if there is any."""
        if self:
            raise FileError(text for _, _, text in sorted(self))


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
    raise FileError([f"{name}: {kind[:-1]} must be a path to a .yaml file or one of {', '.join(ids)}{nearest(name, ids)}"])


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
        raise FileError([f"{path}:{line}:{column}: must be UTF-8 text, not the byte {data[error.start]:02X}h"]) from None


def build(text, name, cls, checks=()):
    """Return the document in `text` as a `cls`; `name` stands in the findings.

    Each of `checks` is called with the built object and the Findings, to add what only the whole can show. Raises
    FileError with every finding.
    """
    findings = Findings(name)
    node = _compose(text, findings)
    _refuse_forms(node, findings, 0, set())
    findings.refuse()
    value = _typed(node, cls, name, findings)
    findings.refuse()
    for check in checks:
        check(value, findings)
    findings.refuse()
    return value


def nearest(word, known):
    """Return `; nearest is "…"` for the known word most like `word`, or nothing."""
    match = difflib.get_close_matches(str(word), [str(k) for k in known], 1, 0.6)
    return f'; nearest is "{match[0]}"' if match else ""


def _compose(text, findings):
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    try:
        _refuse_depth(text, loader, findings)
        node = yaml.compose(text, loader)
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        column = error.position - text.rfind("\n", 0, error.position)
        raise FileError([f"{findings.name}:{line}:{column}: must be printable text, not the character {error.character:02X}h"]) from None
    except yaml.MarkedYAMLError as error:
        findings.add(error.problem_mark or error.context_mark, f"must be YAML: {notation.visible(str(error.problem))}")
        findings.refuse()
    if node is None:
        raise FileError([f"{findings.name}:1:1: must hold a YAML mapping, not nothing"])
    return node


def _refuse_depth(text, loader, findings):
    depth = 0
    for event in yaml.parse(text, loader):
        depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
        if depth > MAX_DEPTH:
            findings.add(event.start_mark, f"must be nested at most {MAX_DEPTH} deep, not deeper")
            findings.refuse()


def _refuse_forms(node, findings, depth, seen):
    """Note aliases, tags, merges and duplicate keys, and too deep nesting, anywhere below `node`."""
    if depth > MAX_DEPTH:
        findings.add(node.start_mark, f"must be nested at most {MAX_DEPTH} deep, not deeper")
        return
    if id(node) in seen:
        findings.add(node.start_mark, "must be written out, not an alias (*name) of another place")
        return
    seen.add(id(node))
    if not node.tag.startswith("tag:yaml.org,2002:") or node.tag.rsplit(":", 1)[1] in ("binary", "set", "omap", "pairs", "python"):
        findings.add(node.start_mark, f"must be plain YAML, not the tag {notation.visible(node.tag)}")
    if isinstance(node, yaml.SequenceNode):
        for item in node.value:
            _refuse_forms(item, findings, depth + 1, seen)
    elif isinstance(node, yaml.MappingNode):
        keys = set()
        for key, value in node.value:
            if not isinstance(key, yaml.ScalarNode):
                findings.add(key.start_mark, "a key must be one word, not a list or mapping")
                continue
            if key.value == "<<":
                findings.add(key.start_mark, "must be written out, not merged (<<) from another place")
            if key.value in keys:
                findings.add(key.start_mark, f'each key must stand once, not "{notation.visible(key.value)}" again')
            keys.add(key.value)
            _refuse_forms(value, findings, depth + 1, seen)


def _typed(node, kind, path, findings):
    """Return `node` as a `kind`, or None with a finding."""
    origin = typing.get_origin(kind)
    if origin in (typing.Union, types.UnionType):
        kinds = [k for k in typing.get_args(kind) if k is not type(None)]
        if isinstance(node, yaml.ScalarNode) and node.style is None and node.value in ("", "null", "~"):
            return None
        for k in sorted(kinds, key=lambda k: typing.get_origin(k) is not typing.Literal)[:-1]:
            if _fits(node, k):
                return _typed(node, k, path, findings)
        return _typed(node, kinds[-1], path, findings)
    if origin is tuple:
        return _typed_list(node, typing.get_args(kind)[0], path, findings)
    if origin is dict:
        return _typed_map(node, typing.get_args(kind)[1], path, findings)
    if dataclasses.is_dataclass(kind):
        return _typed_record(node, kind, path, findings)
    return _typed_scalar(node, kind, origin, path, findings)


def _fits(node, kind):
    if typing.get_origin(kind) is typing.Literal:
        return node.value in typing.get_args(kind)
    if typing.get_origin(kind) is tuple:
        return isinstance(node, yaml.SequenceNode)
    if typing.get_origin(kind) is dict or dataclasses.is_dataclass(kind):
        return isinstance(node, yaml.MappingNode)
    return isinstance(node, yaml.ScalarNode)


def _typed_list(node, kind, path, findings):
    if not isinstance(node, yaml.SequenceNode):
        findings.add(node.start_mark, f"{path} must be a list, not {_form(node)}")
        return ()
    return tuple(_typed(item, kind, path, findings) for item in node.value)


def _typed_map(node, kind, path, findings):
    if not isinstance(node, yaml.MappingNode):
        findings.add(node.start_mark, f"{path} must be a mapping, not {_form(node)}")
        return {}
    return {_placed(Text(key.value), key): _typed(value, kind, key.value, findings) for key, value in node.value}


def _typed_record(node, cls, path, findings):
    if not isinstance(node, yaml.MappingNode):
        findings.add(node.start_mark, f"{path} must be a mapping, not {_form(node)}")
        return None
    hints = typing.get_type_hints(cls)
    names = {field.metadata.get("key", field.name): field for field in dataclasses.fields(cls) if field.init}
    values = {}
    for key, value in node.value:
        if key.value not in names:
            word = notation.visible(key.value)
            findings.add(key.start_mark, f'a key of {path} must be one of {", ".join(names)}, not "{word}"{nearest(key.value, names)}')
            continue
        field = names[key.value]
        values[field.name] = _typed(value, hints[field.name], key.value, findings)
    for key, field in names.items():
        if field.name not in values and field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING:
            findings.add(node.start_mark, f'{path} must have the key "{key}"')
    return _constructed(cls, values, node, findings)


def _constructed(cls, values, node, findings):
    try:
        record = cls(**values)
    except (TypeError, ValueError) as error:
        if not findings:
            findings.add(node.start_mark, str(error))
        return None
    if hasattr(record, "place"):
        object.__setattr__(record, "place", Place(node.start_mark.line + 1, node.start_mark.column + 1))
    return record


@dataclasses.dataclass(frozen=True)
class Place:
    """Where in its file something stood, both from 1; 0 where it came from no file."""

    line: int = 0
    column: int = 0


def _typed_scalar(node, kind, origin, path, findings):
    if not isinstance(node, yaml.ScalarNode):
        findings.add(node.start_mark, f"{path} must be {_kind_name(kind)}, not {_form(node)}")
        return None
    try:
        if origin is typing.Literal:
            return _one_of(node.value, typing.get_args(kind), path)
        return _placed(_READERS[kind](node.value), node)
    except ValueError as error:
        text = str(error) if isinstance(error, _Wording) else f"{path} must be {_kind_name(kind)}, not {_quoted(node.value)}"
        findings.add(node.start_mark, text)
        return None


class _Wording(ValueError):
    """A finding that words itself."""


def _one_of(value, allowed, path):
    if value not in allowed:
        raise _Wording(f"{path} must be one of {', '.join(allowed)}, not {_quoted(value)}{nearest(value, allowed)}")
    return value


def _integer(text):
    if len(text) <= 9 and text.endswith("h"):
        return int(text[:-1], 16)
    if not text.lstrip("-").isascii() or not text.lstrip("-").isdigit() or len(text) > 9:
        raise ValueError
    return int(text)


def _number(text):
    number = float(text)
    if number != number or abs(number) > 1e12:
        raise ValueError
    return number


def _yes_no(text):
    if text not in ("yes", "no"):
        raise ValueError
    return text == "yes"


def _bytes(text):
    try:
        return ByteText(notation.parse(text))
    except notation.NotationError as error:
        raise _Wording(str(error)) from None


def _template(text):
    try:
        return Template(notation.parse_template(text))
    except notation.NotationError as error:
        raise _Wording(str(error)) from None


_READERS = {str: Text, int: _integer, float: _number, bool: _yes_no, bytes: _bytes, ByteText: _bytes, Template: _template}
_NAMES = {str: "text", int: "a whole number (decimal, or hexadecimal as 1Bh)", float: "a number", bool: "yes or no",
          bytes: "bytes in the notation", ByteText: "bytes in the notation", Template: "bytes in the notation"}


def _kind_name(kind):
    return _NAMES.get(kind, "one word")


def _placed(value, node):
    if isinstance(value, (Text, ByteText, Template)):
        value.line, value.column = node.start_mark.line + 1, node.start_mark.column + 1
    return value


def _quoted(text):
    return f'"{notation.visible(text if len(text) <= 60 else text[:57] + "...")}"'


def _form(node):
    if isinstance(node, yaml.ScalarNode):
        return _quoted(node.value)
    return "a list" if isinstance(node, yaml.SequenceNode) else "a mapping"
