"""A frame as people write it: `7E1` is seven data bits, even parity, one stop bit."""

import re

from termprobe.errors import UsageError
from termprobe.link.base import LineFormat

PARITY_LETTERS = {"none": "N", "even": "E", "odd": "O", "mark": "M", "space": "S"}
_PARITIES = {letter: parity for parity, letter in PARITY_LETTERS.items()}
_FRAME = re.compile(r"(?P<data>[5-8])(?P<parity>[NEOMS])(?P<stop>[12])", re.IGNORECASE)


def frame_from(text: str, option: str = "--format") -> LineFormat:
    """Return the frame that `text` says, at the usual speed; raise UsageError, naming `option`."""
    found = _FRAME.fullmatch(text.strip())
    if not found:
        raise UsageError(
            f"{option} must be 5 to 8 data bits, a letter for the parity (N none, E even, O odd, "
            f'M mark, S space) and 1 or 2 stop bits, not "{text}"; try 8N1 or 7E1'
        )
    parity = _PARITIES[found["parity"].upper()]
    return LineFormat(data_bits=int(found["data"]), parity=parity, stop_bits=int(found["stop"]))


def frame_text(format: LineFormat) -> str:
    """Return `7E1` of a format: what frame_from() reads."""
    return f"{format.data_bits}{PARITY_LETTERS[format.parity]}{format.stop_bits}"
