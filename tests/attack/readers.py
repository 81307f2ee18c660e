"""What reads: for each reader good inputs to be mutated, and how one input is given to it."""

import functools
import pathlib
import shlex
from collections.abc import Callable, Sequence
from typing import NamedTuple

from helpers.paths import RUN_FILES
from helpers.photos import photo
from termprobe import yamlfile
from termprobe.errors import FileError
from termprobe.findings import Findings
from termprobe.link.base import LineFormat
from termprobe.observer import scripted
from termprobe.observer.card import answers_on
from termprobe.observer.card_form import form_of
from termprobe.photo.keeping import forget_photo, keep_photo
from termprobe.plan.card_items import card_items
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script

from .guarded import GUARDED_CODES, Outcome, called, guarded

SEEDS = pathlib.Path(__file__).with_name("seeds")
PROFILE, SCRIPT = SEEDS / "profile.yaml", SEEDS / "script.yaml"
WITHOUT_CIRCUIT = "ecma48-24x80"
"""No fault can be simulated of it: what explains a run is not worked out, which takes long."""


class Reader(NamedTuple):
    """One who reads."""

    seeds: Callable[[], Sequence[bytes]]
    give: Callable[[bytes, pathlib.Path], Outcome]
    """Takes an input, and a file that it may write it to."""


def _read_seeds(*paths):
    return [path.read_bytes() for path in paths]


def _profile(data, path):
    path.write_bytes(data)
    checked = called(["profile", "check", str(path)])
    if checked.wrong or checked.code:
        return checked
    return called(["script", "check", str(SCRIPT), "--profile", str(path)])


def _script(data, path):
    path.write_bytes(data)
    return called(["script", "show", str(path), "--profile", WITHOUT_CIRCUIT])


@functools.cache
def _plan():
    return compile_plan(load_profile(WITHOUT_CIRCUIT), load_script("acceptance"))


def _answers(data, path):
    """Read answers as `run --answers` does before it opens the line."""
    path.write_bytes(data)
    return _guarded_reading(lambda: scripted.load_answers(str(path), _plan()))


def _photo(data, path):
    """Take a picture in as a note does, and let go of the copy."""
    path.write_bytes(data)
    return _guarded_reading(lambda: forget_photo(keep_photo(str(path), str(path)), str(path)))


def _guarded_reading(read):
    """Return how it ends to `read` a file, which may be refused."""

    def code():
        try:
            read()
        except FileError:
            return GUARDED_CODES["refused"]
        return GUARDED_CODES["taken"]

    return guarded(code)


def _card(data, path):
    """Read a form as `card --fill` does before it makes a run file."""
    path.write_bytes(data)

    def read():
        findings = Findings(str(path))
        form = form_of(yamlfile.read_text(path), findings)
        answers_on(form, card_items(_plan()), LineFormat(), findings)
        findings.refuse()

    return _guarded_reading(read)


def _run_file(data, path):
    path.write_bytes(data)
    return called(["report", str(path)])


def _bytes(data, _):
    return called(["render", "--profile", WITHOUT_CIRCUIT], data)


def _words(data, _):
    """Give words to `explain`, as a shell would split them."""
    text = data.decode("utf-8", "surrogateescape").replace("\0", "")
    try:
        words = shlex.split(text)
    except ValueError:
        words = text.split()
    return called(["explain", "--profile", str(PROFILE), *words])


ANSWERS = [
    b"supply-5v: 5.02 V\nline-clock: 60\n",
    b"parts: yes\nripple-5v: 40 mV\nsolder: skip\n",
    b"raster: 'no'\nidle-level: -9.6\nrail-5v-open: OL\n",
]
FORMS = [
    b"board: 7\ndate: 2026-07-03\nnote: a\nV1: 4.95 V\n1-3: ok\n4: differs  a # b\nK1: came 42h\n",
    b'board: 7\ndate: 2026-07-03 18:45\n15: seen 5,10 "HEMMO"\n15: seen 6\n16: not tried  x\n',
]
WORDS = [
    b'--sent AB --seen BB --where "odd rows"',
    b'--keys "1>Q q>q CR>LF" --json',
    b"--sent '\"A\" CR 7Fh' --seen A --where 'row 1, column 3'",
    b"--where 'rows 1-2, left half'",
    b"--where 'every other line of the last 3 columns' --noticed 'left dot column missing'",
    b"--drawn 'A=.###./#...#' --keys 'shift A > a return > nothing'",
]
STREAMS = [
    b"HELLO\r\n\x1b[2J\x1b[5;7H\x1b[1;31mX\x1b[m\x07",
    b"\x1b[3L\x1b[2M\x1b[4P\x1b[6n\x1b[c\t\x1b[?25l\x1b]0;t\x07",
]

READERS = {
    "profile": Reader(lambda: _read_seeds(PROFILE), _profile),
    "script": Reader(lambda: _read_seeds(SCRIPT), _script),
    "answers": Reader(lambda: ANSWERS, _answers),
    "card": Reader(lambda: FORMS, _card),
    "run file": Reader(lambda: _read_seeds(*sorted(RUN_FILES.glob("*.jsonl"))), _run_file),
    "photo": Reader(lambda: [photo(format_=name) for name in ("JPEG", "PNG", "WEBP")], _photo),
    "render": Reader(lambda: STREAMS, _bytes),
    "explain": Reader(lambda: WORDS, _words),
}
