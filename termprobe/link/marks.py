"""Reads the stream that a POSIX port delivers with PARMRK set.

Characters received wrongly are marked in it, and FF is doubled.
"""

import re

from termprobe.link.end import Piece

BAD, BREAK_ERROR = "bad", "break"
_WORD = re.compile(rb"\xff\xff|\xff\x00(?P<bad>.)|\xff\x00?|[^\xff]+", re.DOTALL)
_BEGUN = (b"\xff", b"\xff\0")
"""How a mark begins that is not complete yet."""


class MarkParser:
    """Takes the stream in any chunks; keeps back a mark that is not complete yet.

    Source of the marks: POSIX.1-2017, general terminal interface, section 11.2.2, PARMRK.
    """

    def __init__(self) -> None:
        self._kept = b""

    def feed(self, data: bytes) -> tuple[Piece, ...]:
        """Return the characters that have come: good ones joined, each other one by itself.

        Those are marked BAD (parity or framing) or BREAK_ERROR.
        """
        data, self._kept = self._kept + data, b""
        pieces: list[Piece] = []
        plain = bytearray()
        for word in _WORD.finditer(data):
            text = word.group()
            if word["bad"] is not None:
                pieces += [Piece(bytes(plain)), _marked(word["bad"])]
                plain.clear()
            elif text in _BEGUN and word.end() == len(data):
                self._kept = text
            else:
                plain += text.replace(b"\xff\xff", b"\xff")
        pieces.append(Piece(bytes(plain)))
        return tuple(piece for piece in pieces if piece.data)


def _marked(character: bytes) -> Piece:
    return Piece(character, BREAK_ERROR if character == b"\0" else BAD)
