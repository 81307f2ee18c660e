"""The log of a line as text, one burst a line: seconds, way, bytes in the notation, an error.

0.000000 sent ESC "=" SP SP "HELLO"
0.118204 came "A" CR
0.131000 came 41h ; framing
"""

import re
from collections.abc import Iterable, Iterator

from termprobe.errors import FileError
from termprobe.line.bursts import CAME, SENT, Burst
from termprobe.notation import NotationError, parse, show, visible

_LINE = re.compile(
    rf"(?P<at>\d+\.\d+) (?P<way>{SENT}|{CAME}) (?P<bytes>.*?)( ; (?P<error>[a-z]+))?"
)
LONGEST_SHOWN = 60


def log_line(burst: Burst) -> str:
    """Return the line of `burst`, without an end of line."""
    error = f" ; {burst.error}" if burst.error else ""
    return f"{burst.at_s:.6f} {burst.way} {show(burst.data)}{error}"


def read_log(name: str, lines: Iterable[str]) -> Iterator[Burst]:
    """Yield the bursts of `lines`; raise FileError, which names the file and the line."""
    for number, line in enumerate(lines, 1):
        text = line.rstrip("\r\n")
        if not text or text.startswith("#"):
            continue
        found = _LINE.fullmatch(text)
        try:
            if found is None:
                raise NotationError("a line of a log must be: seconds, sent or came, bytes")
            yield Burst(
                float(found["at"]), found["way"], parse(found["bytes"]), found["error"] or ""
            )
        except NotationError as error:
            given = visible(text[:LONGEST_SHOWN])
            raise FileError([f"{name}:{number}: {error}; this line is: {given}"]) from None


def bytes_of(bursts: Iterable[Burst], way: str) -> bytes:
    """Return all bytes that went one way, in order."""
    return b"".join(burst.data for burst in bursts if burst.way == way)
