"""Bytes to what they mean to one kind of terminal; driven by tables, never failing."""

import functools
import re
from collections.abc import Callable

from termprobe.profile.model import Printing, Profile
from termprobe.terminal.compiling import ESC, compile_tables
from termprobe.terminal.decoded import Ignored, Meaning, Printable
from termprobe.terminal.tables import LARGEST, CodeNode, Tables

CAN, SUB, BEL, DEL = 0x18, 0x1A, 0x07, 0x7F
LIMIT = 256
"""Codes that are kept of one sequence; a longer one is ignored."""
_CACHED = 4096
_CSI = 0x5B
"""Behind ESC: begins a control sequence (ECMA-48 8.3.16)."""
_STRINGS = b"PX]^_"
"""Behind ESC: DCS, SOS, OSC, PM and APC begin a control string (ECMA-48 5.6 and 8.3.27, 8.3.128,
8.3.89, 8.3.94, 8.3.2)."""
_OSC = 0x5D


class Decoder:
    """The bytes may come in any pieces: the same bytes give the same meaning."""

    def __init__(self, profile: Profile) -> None:
        self._tables = compile_tables(profile)
        self._is_decimal = self._tables.coordinates.coding == "decimal"
        highest = (1 << profile.link.data_bits) - 1
        self._kept_bits = bytes(code & highest for code in range(256))
        self._whole = _whole_pattern(profile.display.printing, self._tables)
        self._meaning = functools.lru_cache(_CACHED)(self._tables.control_sequence)
        self._events: list[Meaning] = []
        self._state: Callable[[int], None] | None = None
        """What takes the next code of a sequence; None between sequences."""
        self._node = self._tables.root
        self._seen = bytearray()
        """The codes of the sequence, the first LIMIT of them."""
        self._numbers: list[int | None] = []
        self._number: int | None = None
        """The number whose digits are coming in."""

    def feed(self, data: bytes | bytearray) -> list[Meaning]:
        """Return what became complete with `data`, in order."""
        events = self._events = []
        data = bytes(data).translate(self._kept_bits)
        match, index, end = self._whole.match, 0, len(data)
        while index < end:
            whole = None
            if self._state is None:
                whole = match(data, index)
            if whole is None:
                (self._state or self._begin)(data[index])
                index += 1
                continue
            index = whole.end()
            if whole.lastindex == 1:
                events.append(Printable(whole[1].decode("latin-1")))
            else:
                events.extend(self._meaning(whole[2]))
        return events

    def _idle(self) -> None:
        self._state = None

    def _ignore(self, codes: bytes | bytearray) -> None:
        self._events.append(Ignored(bytes(codes)))
        self._idle()

    def _begin(self, code: int) -> None:
        """Take the first code of anything but text."""
        node = self._tables.root.after.get(code)
        if node is None:
            self._ignore(bytes([code]))
            return
        self._seen = bytearray([code])
        self._numbers, self._number = [], None
        self._enter(node)

    def _enter(self, node: CodeNode) -> None:
        """Go on behind a code that belongs to a command."""
        if node.decoded is None:
            self._node, self._state = node, self._lead_in
            return
        decoded = node.decoded
        if node.slots:
            numbers = zip(node.slots, self._numbers, strict=True)
            decoded = self._tables.filled(decoded.command, numbers)
        self._events.append(decoded)
        self._idle()

    def _lead_in(self, code: int) -> None:
        """Take the next code of a command that is not a control sequence."""
        node = self._node
        is_any_code = node.number is not None and not self._is_decimal
        if self._tables.is_ecma48 and not is_any_code and self._interrupts(code):
            return
        self._keep(code)
        if code in node.after:
            self._enter(node.after[code])
        elif node.number is not None:
            self._take_number(node.number, code)
        elif self._tables.is_ecma48 and self._seen[0] == ESC:
            self._escape(code)
        else:
            # A lead-in holds the decoder for one code: one that completes nothing is lost with it
            # (common practice).
            self._ignore(self._seen)

    def _take_number(self, behind: CodeNode, code: int) -> None:
        """Take a number of one code, a digit, or the code that ends the digits."""
        if not self._is_decimal:
            self._numbers.append(self._tables.coordinate(code))
            self._enter(behind)
        elif 0x30 <= code <= 0x39:
            self._number = min((self._number or 0) * 10 + code - 0x30, LARGEST)
        else:
            self._numbers.append(self._number)
            self._number = None
            if code in behind.after:
                self._enter(behind.after[code])
            else:
                self._ignore(self._seen)

    def _interrupts(self, code: int) -> bool:
        """Tell whether `code` is no part of a sequence, and do what it demands.

        ECMA-48 leaves open what control characters within a sequence do; all of this is common
        practice.
        """
        if code == ESC:
            self._ignore(self._seen)
            self._begin(ESC)
        elif code in (CAN, SUB):
            self._ignore(self._seen + bytes([code]))
        elif code < 0x20:
            self._events.append(self._control(code))
        return code < 0x20 or code >= DEL

    def _control(self, code: int) -> Meaning:
        """Return what a control character means by itself."""
        node = self._tables.root.after.get(code)
        if node is None or node.decoded is None:
            return Ignored(bytes([code]))
        return node.decoded

    def _keep(self, code: int) -> None:
        if len(self._seen) < LIMIT:
            self._seen.append(code)

    def _escape(self, code: int) -> None:
        """Take the code behind ESC, or behind ESC and intermediate bytes.

        These are ECMA-48 5.3 and 5.5, and ECMA-35 13.2.
        """
        if 0x20 <= code <= 0x2F:
            self._state = self._escape_intermediate
        elif len(self._seen) > 2:
            self._ignore(self._seen)
        elif code == _CSI:
            self._state = self._sequence
        elif code in _STRINGS:
            self._state = self._string
        else:
            self._ignore(self._seen)

    def _escape_intermediate(self, code: int) -> None:
        if not self._interrupts(code):
            self._keep(code)
            self._escape(code)

    def _sequence(self, code: int) -> None:
        """Take parameter and intermediate bytes up to the final byte (ECMA-48 5.4)."""
        if self._interrupts(code):
            return
        self._keep(code)
        if not 0x40 <= code <= 0x7E:
            return
        if len(self._seen) == LIMIT:
            self._ignore(self._seen)
        else:
            self._events.extend(self._meaning(bytes(self._seen)))
            self._idle()

    def _string(self, code: int) -> None:
        """Take a control string up to ST (ECMA-48 5.6 and 8.3.143); its contents mean nothing here.

        That BEL ends OSC as well, and that CAN, SUB and ESC end every string, is common practice.
        """
        if code == ESC:
            self._ignore(self._seen)
            self._begin(ESC)
        elif code in (CAN, SUB) or (code == BEL and self._seen[1] == _OSC):
            self._ignore(self._seen)
        else:
            self._keep(code)


def _whole_pattern(printing: Printing, tables: Tables) -> re.Pattern[bytes]:
    """Return the pattern of what need not be taken code by code.

    Its groups are (1) a run of printable codes that begin no command, (2) a control sequence that
    nothing interrupts.
    """
    text = sequence = b"(?!)"  # never matches
    shown = range(printing.first, printing.last + 1)
    codes = bytes(code for code in shown if code not in tables.root.after)
    if codes:
        text = b"[" + re.escape(codes) + b"]+"
    if tables.is_ecma48:
        sequence = rb"\x1b\[[ -?]{0,%d}[@-~]" % (LIMIT - 4)
    return re.compile(b"(" + text + b")|(" + sequence + b")")
