"""What is wrong with a file: places in it, findings against them, and the checks that make them."""

import difflib
from dataclasses import dataclass, field

from termprobe.errors import FileError
from termprobe.notation import visible

MAX_SHOWN = 100
"""No more findings than this are listed; the last line then counts the rest."""


@dataclass(frozen=True)
class Place:
    """Where in its file something stood, both from 1; 0 where it came from no file."""

    line: int = 0
    column: int = 0
    fields: dict = field(default_factory=dict, compare=False, repr=False)
    """For a record: name of each field that was written -> Place of its value."""

    def of(self, name):
        """Return the Place of the field `name`, or of the whole record where the field was left out."""
        return self.fields.get(name, self)


class Findings(list):
    """The findings on one file, each (line, column, text), in the order in which they were met."""

    def __init__(self, name):
        super().__init__()
        self.name = name

    def add(self, place, text):
        """Note `text` against `place`, anything with `.line` and `.column`."""
        self.append((place.line, place.column, f"{self.name}:{place.line}:{place.column}: {text}"))

    def refuse(self):
        """Raise FileError with the findings sorted by place, if there are any."""
        if self:
            lines = [text for _, _, text in sorted(self, key=lambda finding: finding[:2])]
            more = (
                [f"{self.name}: and {len(lines) - MAX_SHOWN} more"]
                if len(lines) > MAX_SHOWN
                else []
            )
            raise FileError(lines[:MAX_SHOWN] + more)


class UnknownValueError(Exception):
    """A check used a value that the file did not give, or gave wrongly."""


class _Unknown:
    """Stands for such a value until the findings are raised; whoever uses it is stopped by UnknownValueError."""


def _stop(*_):
    raise UnknownValueError


for _name in (
    "getattr eq ne lt le gt ge hash bool str format iter len contains getitem add radd sub rsub mul rmul "
    "lshift rlshift int float index bytes"
).split():
    setattr(_Unknown, f"__{_name}__", _stop)
UNKNOWN = _Unknown()


def try_check(check, *arguments):
    """Call a check with `arguments`; it ends early, with the findings it has made so far, where it meets UNKNOWN."""
    try:
        check(*arguments)
    except UnknownValueError:
        pass


def forget(record, name):
    """Make a field of a record that is being checked UNKNOWN: it has its finding, and later checks must not build on it."""
    object.__setattr__(record, name, UNKNOWN)


def called(record, word):
    """Return the record's name, or `word` where its name is UNKNOWN."""
    return word if record.name is UNKNOWN else record.name


def nearest_word(word, known):
    """Return the one of `known` most like `word`, or None where none is."""
    matches = difflib.get_close_matches(str(word)[:60], [str(k) for k in known], 1, 0.6)
    return matches[0] if matches else None


def nearest(word, known):
    """Return `; nearest is "…"` for the known word most like `word`, or nothing."""
    match = nearest_word(word, known)
    return f'; nearest is "{match}"' if match else ""


def quoted(text):
    """Return `text` in double quotes as a finding shows it: harmless to a console, cut where it is long."""
    return f'"{visible(text if len(text) <= 60 else text[:57] + "...")}"'
