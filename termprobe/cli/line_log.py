"""Logs of `termprobe monitor`, read by other commands."""

import argparse

from termprobe.errors import FileError
from termprobe.line.bursts import SENT
from termprobe.line.log import bytes_of, read_log

LONGEST_LINE = 1_000_000
"""A line that is longer is read as several: what has no end of a line is no log, and is refused."""


def add_log_option(parser: argparse.ArgumentParser, text: str) -> None:
    """Add --from, with `text` as its help."""
    parser.add_argument("--from", dest="log", metavar="LOG", help=text)


def sent_in(path: str) -> bytes:
    """Return all that was sent to the board by the log at `path`; raise FileError."""
    try:
        with open(path, encoding="ascii", errors="replace") as file:
            lines = iter(lambda: file.readline(LONGEST_LINE), "")
            return bytes_of(read_log(path, lines), SENT)
    except OSError as error:
        raise FileError([f"{path}: must be a log that can be read ({error.strerror})"]) from None
