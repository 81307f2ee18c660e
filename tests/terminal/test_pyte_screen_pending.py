"""A wrap that is pending: the reference does what xterm does.

Where three other engines differ is listed, engine by engine. No standard rules it (ECMA-48 6.1.6,
note), so this is a record of common practice, taken from the engines themselves.
"""

import contextlib
import os
import re
import select
import time

import pytest

from helpers.emulators import headless_terminal, tmux
from helpers.vterm import Vterm
from helpers.xterm import xterm
from termprobe.profile.load import load
from termprobe.terminal.reference import Reference

PROFILE = load("ecma48-24x80")
START = b"\x1b[5;80HA"  # row 4, the last column filled
AFTERWARDS = b"BC"
STEPS = {
    "BS": b"\b",
    "HT": b"\t",
    "LF": b"\n",
    "VT": b"\v",
    "CR": b"\r",
    "BEL": b"\a",
    "NUL": b"\0",
    "CUU": b"\x1b[A",
    "CUD": b"\x1b[B",
    "CUF": b"\x1b[C",
    "CUB": b"\x1b[D",
    "CUP": b"\x1b[5;80H",
    "HVP": b"\x1b[5;80f",
    "IND": b"\x1bD",
    "NEL": b"\x1bE",
    "RI": b"\x1bM",
    "ED 0": b"\x1b[J",
    "ED 1": b"\x1b[1J",
    "ED 2": b"\x1b[2J",
    "EL 0": b"\x1b[K",
    "EL 1": b"\x1b[1K",
    "EL 2": b"\x1b[2K",
    "ICH": b"\x1b[@",
    "DCH": b"\x1b[P",
    "IL": b"\x1b[L",
    "DL": b"\x1b[M",
    "HTS": b"\x1bH",
    "TBC 0": b"\x1b[g",
    "TBC 3": b"\x1b[3g",
    "SGR": b"\x1b[1m",
    "DSR 5": b"\x1b[5n",
    "DSR 6": b"\x1b[6n",
    "DA": b"\x1b[c",
}
ERASING = ["ED 0", "ED 1", "ED 2", "EL 0", "EL 1", "EL 2"]
OTHERS = {
    "xterm": {},
    # Erasing leaves the wrap pending.
    "headless": dict.fromkeys(ERASING, (5, 2)),
    # Whatever does not move the cursor leaves the wrap pending; IL and DL keep the column.
    "libvterm": dict.fromkeys([*ERASING, "ICH", "DCH", "IL", "DL"], (5, 2)),
    # The cursor stands behind the last column: left goes back onto it, and index and reverse index
    # keep it there.
    "tmux": dict.fromkeys([*ERASING, "ICH", "DCH", "IL", "DL"], (5, 2))
    | dict.fromkeys(["BS", "CUB"], (5, 1))
    | dict.fromkeys(["LF", "VT", "IND"], (6, 2))
    | {"RI": (4, 2)},
}
"""Where the cursor stands after START, the step and AFTERWARDS, where the reference has it
elsewhere."""


def by_reference(data):
    reference = Reference(PROFILE)
    reference.feed(data)
    return reference.screen().cursor


def by_libvterm(data):
    terminal = Vterm()
    try:
        terminal.feed(data)
        return terminal.cursor()
    finally:
        terminal.close()


@contextlib.contextmanager
def asked(port):
    """Yield a function that sends bytes to the terminal behind `port` and asks for its cursor."""
    line = os.open(port, os.O_RDWR | os.O_NOCTTY)

    def cursor_after(data):
        os.write(line, b"\x1bc" + data + b"\x1b[6n")
        wanted, got, end_s = data.count(b"\x1b[6n") + 1, b"", time.monotonic() + 10
        while len(reports := re.findall(rb"\x1b\[(\d+);(\d+)R", got)) < wanted:
            assert time.monotonic() < end_s and select.select([line], [], [], 10)[0], (
                f"no report of the cursor, only {got!r}"
            )
            got += os.read(line, 1000)
        row, column = (int(number) - 1 for number in reports[-1])
        return row, min(column, 79)  # some report a cursor behind the last column

    try:
        yield cursor_after
    finally:
        os.close(line)


@contextlib.contextmanager
def engine(name, folder):
    if name == "libvterm":
        yield by_libvterm
        return
    start = {"xterm": xterm, "headless": headless_terminal, "tmux": tmux}[name]
    with start(folder) as port, asked(port if name == "xterm" else port[0]) as cursor_after:
        yield cursor_after


@pytest.mark.parametrize("name", OTHERS)
def test_what_ends_a_pending_wrap(name, tmp_path):
    with engine(name, tmp_path) as cursor_after:
        found = {step: cursor_after(START + data + AFTERWARDS) for step, data in STEPS.items()}
    expected = {step: by_reference(START + data + AFTERWARDS) for step, data in STEPS.items()}
    assert found == expected | OTHERS[name]
    assert all(expected[step] != elsewhere for step, elsewhere in OTHERS[name].items()), (
        "a difference that is none"
    )
