"""An endless text, made block by block, in which a loss of any length can be told.

Each block begins with a tag that numbers it. Blocks whose number is even hold characters by chance,
of which no run of eight is met twice in any stretch that matters; the others hold what is hardest
on a line: levels that change with every bit, that hardly change at all, and a single bit that moves
through all the others.
"""

import random
import re

from termprobe.link.pacer import XOFF, XON

BLOCK = 64
"""Characters of a block, its tag included."""
TAG = re.compile(rb"#([0-9A-F]{8})")
TAG_LENGTH = 9
IN_A_ROW = 2
"""So many of what is hardest come one after another; more would make blocks too much alike."""
LAST_BLOCK = 16**8
"""Numbers begin anew there, after 270 thousand million characters."""
PRINTABLE = bytes(range(0x20, 0x7F))
# 55h and AAh change level with every bit, least significant first; 00h and FFh hardly at all;
# then one bit that moves, alone at 1, and alone at 0. Common practice on serial lines.
_HARD_FRAMES = bytes(
    [
        0x55,
        0xAA,
        0x00,
        0xFF,
        *(1 << bit for bit in range(8)),
        *(0xFF ^ 1 << bit for bit in range(8)),
    ]
)


def carried_codes(data_bits: int, keeps_xon_xoff: bool = True) -> bytes:
    """Return all codes that a frame of `data_bits` carries, without XON and XOFF where not kept."""
    codes = bytes(range(1 << data_bits))
    if keeps_xon_xoff:
        return codes
    return codes.translate(None, bytes([XON, XOFF]))


class Stream:
    """The text of `codes` that the number `seed` makes; `codes` hold the digits, A to F and #."""

    def __init__(self, codes: bytes, seed: int) -> None:
        self._codes, self._seed = codes, seed
        self._hard = [code for code in _HARD_FRAMES if code in codes]
        if len(self._hard) < len(_HARD_FRAMES) // 2:
            # Printable characters whose levels change with every bit, and those that hardly do.
            self._hard = [code for code in b"U*U*~? @`Pp0" if code in codes]

    def block(self, number: int) -> bytes:
        """Return the block `number`, 0 or more: BLOCK bytes, the same at each call."""
        tag = b"#%08X" % (number % LAST_BLOCK)
        count = BLOCK - len(tag)
        chance = random.Random(f"{self._seed} {number}")
        if number % 2:
            frames = chance.choices(self._hard, k=count // IN_A_ROW + 1)
            return tag + bytes(code for code in frames for _ in range(IN_A_ROW))[:count]
        return tag + bytes(chance.choices(self._codes, k=count))
