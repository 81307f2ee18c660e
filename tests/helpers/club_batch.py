"""An invented club's batch of twelve boards of two revisions, as runs of simulated boards.

The layout of revision A has two lines exchanged; on two boards a joint or a bridge is bad, and on
one a strap stands wrong. Each board is run, what is found is repaired, and it is run again.
"""

import contextlib
import io
import json
import os
import pathlib
import zlib
from typing import NamedTuple

from termprobe.cli.main import main

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

    A simulated board does the same each time, so what one has run another one with the same faults
    gets as a copy under its own name.
    """
    made = {}
    for board in boards:
        own = os.path.join(folder, board.serial)
        course = board.faults, board.is_mended
        if course in made:
            _copy(made[course], own, board)
        else:
            _run_board(own, board)
            made[course] = own


def _run_board(folder, board):
    before = None
    ports = [f"sim:{fault}" for fault in board.faults]
    if board.is_mended:
        ports.append("sim:")
    for number, port in enumerate(ports, 1):
        own = os.path.join(folder, f"run-{number}")
        before = run_once(own, board, port, before)


def _copy(source, folder, board):
    """Copy the run files of another board, as those of `board`."""
    for path in sorted(pathlib.Path(source).rglob("*.run.jsonl")):
        name = as_named(path.name, board)
        target = pathlib.Path(folder, path.parent.name, name)
        target.parent.mkdir(parents=True)
        target.write_bytes(as_of(path.read_bytes(), board))


def as_named(name, board):
    """Return the name of a run file, SERIAL-DATE, for another board."""
    return f"{board.serial}-{name.partition('-')[2]}"


def as_of(data, board):
    """Return the bytes of a run file as if `board` had been tried."""
    first, _, rest = data.partition(b"\n")
    second, _, behind = rest.partition(b"\n")
    header = json.loads(first[9:])
    header["board"] = dict(zip(("serial", "revision", "builder", "batch"), board, strict=False))
    beginning = line_of(header)
    if b'"comes-after"' in second:
        after = json.loads(second[9:])
        after["run"] = as_named(after["run"], board)
        return beginning + line_of(after) + behind
    return beginning + rest


def line_of(document):
    """Return a record as a line of a run file."""
    text = json.dumps(document, separators=(",", ":")).encode()
    return b"%08x %s\n" % (zlib.crc32(text), text)


def run_once(folder, board, port, before=None):
    """Return the path of the run file of one run, which comes after the run `before`."""
    words = ["run", "--port", port, "--out", folder, "--until-sure", "--json"]
    if before is None:
        words += ["--profile", PROFILE, "--script", SCRIPT, "--board", board.serial]
        words += ["--revision", board.revision, "--builder", board.builder]
        words += ["--batch", board.batch]
    else:
        words += ["--after", before]
    unseen = io.StringIO()
    with contextlib.redirect_stdout(unseen), contextlib.redirect_stderr(unseen):
        code = main(words)
    (name,) = os.listdir(folder)
    assert code in (0, 1, 4), unseen.getvalue()
    return os.path.join(folder, name)
