"""The far end of a printer port."""

from termprobe.link.base import Received


class Paper:
    """The end of a line at which these pieces come, one a read; an error is raised."""

    def __init__(self, *pieces):
        self.pieces = list(pieces)

    def read(self, wait_s):
        piece = self.pieces.pop(0) if self.pieces else b""
        if isinstance(piece, Exception):
            raise piece
        return (Received(0.0, piece),) if piece else ()
