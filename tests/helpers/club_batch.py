"""An invented club's batch of twelve boards of two revisions, as runs of simulated boards.

The layout of revision A has two lines exchanged; on two boards a joint or a bridge is bad, and on
one a strap stands wrong. Each board is run, what is found is repaired, and it is run again.
"""

import contextlib
import datetime
import functools
import hashlib
import io
import json
import os
import pathlib
import tempfile
import zlib
from typing import NamedTuple
from unittest import mock

from termprobe.cli.main import main

FIRST_DAY = datetime.datetime(2026, 5, 2, 10, 30, tzinfo=datetime.UTC)
PROFILE, SCRIPT = "club-16x64", "quick"
LAYOUT = "bank-1-data/swapped/2-3"
OPEN_JOINT = "row-counter/stuck/1/0"
SOLDER_BRIDGE = "ram-address/bridged/0-7/low"
WRONG_STRAP = "baud/ratio/2"


class ClubBoard(NamedTuple):
    """A board, and the faults that it has one after the other; each is found and repaired."""

    serial: str
    revision: str
    builder: str
    batch: str
    faults: tuple[str, ...] = ()
    is_mended: bool = True
    """Whether it is run again after the last repair."""


BOARDS = (
    ClubBoard("01", "A", "Ada", "kit 1", (LAYOUT,)),
    ClubBoard("02", "A", "Ada", "kit 2", (LAYOUT,), is_mended=False),
    ClubBoard("03", "A", "Ben", "kit 1", (LAYOUT,)),
    ClubBoard("04", "A", "Ben", "kit 2", (LAYOUT, OPEN_JOINT)),
    ClubBoard("05", "A", "Cleo", "kit 1", (LAYOUT,)),
    ClubBoard("06", "A", "Dov", "kit 2", (LAYOUT,), is_mended=False),
    ClubBoard("07", "B", "Ada", "kit 1"),
    ClubBoard("08", "B", "Ben", "kit 2", (SOLDER_BRIDGE,)),
    ClubBoard("09", "B", "Cleo", "kit 1"),
    ClubBoard("10", "B", "Cleo", "kit 2", (WRONG_STRAP,)),
    ClubBoard("11", "B", "Dov", "kit 1"),
    ClubBoard("12", "B", "Dov", "kit 2"),
)


def run_club(folder, boards=BOARDS):
    """Write the run files of `boards` into a folder of each.

    A simulated board does the same each time, so what one has gone through another one with the
    same faults gets as a copy under its own name.
    """
    made = {}
    for board in boards:
        ports = [f"sim:{fault}" for fault in board.faults]
        if board.is_mended:
            ports.append("sim:")
        before = None
        for number in range(1, len(ports) + 1):
            own = os.path.join(folder, board.serial, f"run-{number}")
            course = tuple(ports[:number])
            if course in made:
                before = _copy(made[course], own, board, before)
            elif before is None:
                path = pathlib.Path(own, f"{board.serial}-first.run.jsonl")
                before = made[course] = write_run(path, board, ports[0])
            else:
                before = made[course] = run_once(own, board, ports[number - 1], before)


def _copy(path, folder, board, before):
    """Return the path of a copy of another board's run file, as if it were `board`'s."""
    os.makedirs(folder)
    target = os.path.join(folder, f"{board.serial}-{os.path.basename(path).partition('-')[2]}")
    pathlib.Path(target).write_bytes(as_of(pathlib.Path(path).read_bytes(), board, before))
    return target


def as_of(data, board, before=None):
    """Return the bytes of a run file as if `board` had been tried, after its run file `before`."""
    first, _, rest = data.partition(b"\n")
    header = json.loads(first[9:])
    header["board"] = dict(zip(("serial", "revision", "builder", "batch"), board, strict=False))
    if before is None:
        return line_of(header) + rest
    second, _, behind = rest.lstrip(b"\n").partition(b"\n")
    digest = hashlib.sha256(pathlib.Path(before).read_bytes()).hexdigest()
    after = json.loads(second[9:]) | {"run": os.path.basename(before), "digest": digest}
    return line_of(header) + line_of(after) + behind


def on_one_day(data):
    """Return the bytes of a run file as if each record had been made a second after the last.

    So made, it is the same whenever and wherever it was run.
    """
    lines = []
    for line in filter(None, data.splitlines()):
        record = json.loads(line[9:])
        number = record["seq"]
        at = FIRST_DAY + datetime.timedelta(seconds=number)
        record |= {"t": float(number), "at": at.isoformat()}
        for moment in record.keys() & {"arrived_s", "platform"}:
            del record[moment]
        lines.append(line_of(record))
    return b"".join(lines)


def line_of(document):
    """Return a record as a line of a run file."""
    text = json.dumps(document, separators=(",", ":")).encode()
    return b"%08x %s\n" % (zlib.crc32(text), text)


@functools.cache
def known_run(port):
    """Return the bytes of the run file of a board at `port`, which is run once in each process."""
    with tempfile.TemporaryDirectory() as folder:
        return pathlib.Path(run_once(os.path.join(folder, "run"), BOARDS[0], port)).read_bytes()


def write_run(path, board, port):
    """Write the run file of `board` at `port`; return its path as text."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(as_of(known_run(port), board))
    return os.fspath(path)


def run_once(folder, board, port, before=None, script=SCRIPT):
    """Return the path of the run file of one run, which comes after the run `before`.

    The page that a run leaves is not made: it takes longer than the run.
    """
    words = ["run", "--port", port, "--out", folder, "--until-sure", "--json"]
    if before is None:
        words += ["--profile", PROFILE, "--script", script, "--board", board.serial]
        words += ["--revision", board.revision, "--builder", board.builder]
        words += ["--batch", board.batch]
    else:
        words += ["--after", before]
    unseen = io.StringIO()
    quiet = contextlib.redirect_stdout(unseen), contextlib.redirect_stderr(unseen)
    with quiet[0], quiet[1], mock.patch("termprobe.cli.unattended.leave_page"):
        code = main(words)
    (path,) = pathlib.Path(folder).glob("*.run.jsonl")
    assert code in (0, 1, 4), unseen.getvalue()
    return os.fspath(path)
