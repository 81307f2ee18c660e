"""Good inputs of every kind, to be mutated."""

import pathlib
import shlex

from helpers.paths import RUN_FILES
from helpers.photos import photo

SEEDS = pathlib.Path(__file__).with_name("seeds")
PROFILE, SCRIPT = SEEDS / "profile.yaml", SEEDS / "script.yaml"
WITHOUT_CIRCUIT = "ecma48-24x80"
"""No fault can be simulated of it: what explains a run is not worked out, which takes long."""


def profiles():
    """Return the one for small tries."""
    return [PROFILE.read_bytes()]


def scripts():
    """Return the one for small tries."""
    return [SCRIPT.read_bytes()]


def run_files():
    """Return those of the golden tests."""
    return [path.read_bytes() for path in sorted(RUN_FILES.glob("*.jsonl"))]


def photos():
    """Return one of each format."""
    return [photo(format_=name) for name in ("JPEG", "PNG", "WEBP")]


def words_of(data):
    """Return the words in `data`, as a shell would split them."""
    text = data.decode("utf-8", "surrogateescape").replace("\0", "")
    try:
        return shlex.split(text)
    except ValueError:
        return text.split()


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
