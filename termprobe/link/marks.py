"""Reads the stream that a POSIX port delivers with PARMRK set: characters received wrongly are marked, FF is doubled."""

import re

BAD, BREAK = "bad", "break"
_WORD = re.compile(rb"\xff\xff|\xff\x00(?P<bad>.)|\xff\x00?|[^\xff]+", re.DOTALL)


class MarkParser:
    """Takes the stream in any chunks; keeps back a mark that is not complete yet.

    Source of the marks: POSIX.1-2017, general terminal interface, section 11.2.2, PARMRK.
    """

    def __init__(self):
        self._kept = b""

    def feed(self, data):
        """Return tuples (characters, mark): mark is empty, BAD (parity or framing) or BREAK; neighbours are joined."""
        data, self._kept = self._kept + data, b""
        pieces = []
        plain = bytearray()
        for word in _WORD.finditer(data):
            text = word.group()
            if word["bad"] is not None:
                pieces += [
                    (bytes(plain), ""),
                    (word["bad"], BAD if word["bad"] != b"\0" else BREAK),
                ]
                plain.clear()
            elif text in (b"\xff", b"\xff\0") and word.end() == len(data):
                self._kept = text
            else:
                plain += b"\xff" if text == b"\xff\xff" else text
        pieces.append((bytes(plain), ""))
        return tuple(piece for piece in pieces if piece[0])
