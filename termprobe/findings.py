"""What is wrong with a file: places in it, findings against them, and the checks that make them."""

import contextlib
import difflib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import NamedTuple, Protocol, TypeVarTuple

from termprobe.errors import FileError
from termprobe.notation import visible

MAX_SHOWN = 100
"""No more findings than this are listed; the last line then counts the rest."""
_LONGEST_QUOTE = 60

Arguments = TypeVarTuple("Arguments")


class Located(Protocol):
    """Anything that knows where in its file it stood: a Place, or a value that was read."""

    @property
    def line(self) -> int:
        """From 1; 0 where it came from no file."""

    @property
    def column(self) -> int:
        """From 1; 0 where it came from no file."""


@dataclass(frozen=True)
class Place:
    """Where in its file something stood, both from 1; 0 where it came from no file."""

    line: int = 0
    column: int = 0
    fields: dict[str, "Place"] = field(default_factory=dict, compare=False, repr=False)
    """For a record: name of each field that was written -> Place of its value."""

    def of(self, name: str) -> "Place":
        """Return the Place of the field `name`, or of the record where the field was left out."""
        return self.fields.get(name, self)


class Finding(NamedTuple):
    """One thing that is wrong."""

    line: int
    column: int
    text: str
    """Begins with the name of the file, line and column."""


class Findings(list[Finding]):
    """The findings on one file, in the order in which they were met."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.name = name

    def add(self, place: Located, text: str) -> None:
        """Note `text` against `place`."""
        line, column = place.line, place.column
        self.append(Finding(line, column, f"{self.name}:{line}:{column}: {text}"))

    def refuse(self) -> None:
        """Raise the findings, if there are any."""
        if self:
            raise self.error()

    def error(self) -> FileError:
        """Return the error that holds the findings, sorted by place."""
        in_order = sorted(self, key=lambda finding: (finding.line, finding.column))
        texts = [finding.text for finding in in_order]
        left_out = len(texts) - MAX_SHOWN
        if left_out > 0:
            texts[MAX_SHOWN:] = [f"{self.name}: and {left_out} more"]
        return FileError(texts)


class UnknownValueError(Exception):
    """A check used a value that the file did not give, or gave wrongly."""


class _Unknown:
    """Stands for such a value until the findings are raised; UnknownValueError stops its users."""


def _stop(*_: object) -> None:
    raise UnknownValueError


_USES = (
    "getattr eq ne lt le gt ge hash bool str format iter len contains getitem add radd sub rsub "
    "mul rmul lshift rlshift int float index bytes"
)
for _name in _USES.split():
    setattr(_Unknown, f"__{_name}__", _stop)
UNKNOWN: object = _Unknown()


def try_check(check: Callable[[*Arguments], None], *arguments: *Arguments) -> None:
    """Call a check; where it meets UNKNOWN it ends early, with the findings it has made so far."""
    with contextlib.suppress(UnknownValueError):
        check(*arguments)


def forget(record: object, name: str) -> None:
    """Make a field of a record UNKNOWN: it has its finding, and no later check may use it."""
    object.__setattr__(record, name, UNKNOWN)


class Named(Protocol):
    """A record with a name."""

    @property
    def name(self) -> str:
        """What a finding calls the record."""


def called(record: Named, word: str) -> str:
    """Return the record's name, or `word` where its name is UNKNOWN."""
    if record.name is UNKNOWN:
        return word
    return record.name


def nearest_word(word: str, known: Iterable[str]) -> str | None:
    """Return the one of `known` most like `word`, or None where none is."""
    matches = difflib.get_close_matches(str(word)[:60], [str(each) for each in known], 1, 0.6)
    return next(iter(matches), None)


def nearest(word: str, known: Iterable[str]) -> str:
    """Return `; nearest is "…"` for the known word most like `word`, or nothing."""
    match = nearest_word(word, known)
    if not match:
        return ""
    return f'; nearest is "{match}"'


def quoted(text: str) -> str:
    """Return `text` in double quotes, harmless to a console, cut where it is long."""
    if len(text) > _LONGEST_QUOTE:
        text = text[: _LONGEST_QUOTE - 3] + "..."
    return f'"{visible(text)}"'
