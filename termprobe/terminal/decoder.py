"""Bytes to what they mean to one kind of terminal: text, commands, and what it ignores; driven by tables, never failing."""

import functools
import re

from termprobe.terminal.tables import ESC, LARGEST, Ignored, Printable, compile_tables

CAN, SUB, BEL, DEL = 0x18, 0x1A, 0x07, 0x7F
LIMIT = 256
"""Codes that are kept of one sequence; a longer one is ignored."""
_CACHED = 4096


class Decoder:
    """The bytes may come in any pieces: the same bytes give the same meaning."""

    def __init__(self, profile):
        self._tables = compile_tables(profile)
        self._kept_bits = bytes(code & (1 << profile.link.data_bits) - 1 for code in range(256))
        self._whole = _whole_pattern(profile.display.printing, self._tables)
        self._meaning = functools.lru_cache(_CACHED)(self._tables.control_sequence)
        self._events = []
        self._idle()

    def feed(self, data):
        """Return the Printable, Decoded and Ignored that became complete with `data`, in order."""
        events = self._events = []
        data = bytes(data).translate(self._kept_bits)
        match, place, end = self._whole.match, 0, len(data)
        while place < end:
            whole = match(data, place) if self._state is None else None
            if whole:
                place = whole.end()
                if whole.lastindex == 1:
                    events.append(Printable(whole[1].decode("latin-1")))
                else:
                    events.extend(self._meaning(whole[2]))
            else:
                (self._state or self._begin)(data[place])
                place += 1
        return events

    def _idle(self):
        self._state = None

    def _ignore(self, codes):
        self._events.append(Ignored(bytes(codes)))
        self._idle()

    def _begin(self, code):
        """Take the first code of anything but text."""
        node = self._tables.root.after.get(code)
        if node is None:
            return self._ignore([code])
        self._seen = bytearray([code])
        self._numbers, self._number = [], None
        return self._enter(node)

    def _enter(self, node):
        """Go on behind a code that belongs to a command."""
        if node.decoded is None:
            self._node, self._state = node, self._lead_in
        else:
            self._events.append(
                self._tables.filled(node.decoded, node.slots, self._numbers)
                if node.slots
                else node.decoded
            )
            self._idle()

    def _lead_in(self, code):
        """Take the next code of a command that is not a control sequence."""
        node = self._node
        is_raw = node.number is not None and self._tables.coordinates.coding != "decimal"
        if self._tables.is_ecma48 and not is_raw and self._interrupts(code):
            return None
        self._keep(code)
        if code in node.after:
            return self._enter(node.after[code])
        if is_raw:
            self._numbers.append(self._tables.coordinate(code))
            return self._enter(node.number)
        if node.number is not None:
            return self._decimal(node, code)
        if self._tables.is_ecma48 and self._seen[0] == ESC:
            return self._escape(code)
        # A lead-in holds the decoder for one code: one that completes nothing is lost with it (common practice).
        return self._ignore(self._seen)

    def _decimal(self, node, code):
        """Take a digit, or the code that ends the number."""
        if 0x30 <= code <= 0x39:
            self._number = min((self._number or 0) * 10 + code - 0x30, LARGEST)
            return None
        self._numbers.append(self._number)
        self._number = None
        if code in node.number.after:
            return self._enter(node.number.after[code])
        return self._ignore(self._seen)

    def _interrupts(self, code):
        """Tell whether `code` is no part of a sequence, and do what it demands. ECMA-48 leaves open what control
        characters within a sequence do; all of this is common practice."""
        if code == ESC:
            self._ignore(self._seen)
            self._begin(ESC)
        elif code in (CAN, SUB):
            self._ignore(self._seen + bytes([code]))
        elif code < 0x20:
            node = self._tables.root.after.get(code)
            self._events.append(node.decoded if node and node.decoded else Ignored(bytes([code])))
        return code < 0x20 or code >= DEL

    def _keep(self, code):
        if len(self._seen) < LIMIT:
            self._seen.append(code)

    def _escape(self, code):
        """Take the code behind ESC, or behind ESC and intermediate bytes (ECMA-48 5.3 and 5.5; ECMA-35 13.2)."""
        if 0x20 <= code <= 0x2F:
            self._state = self._escape_intermediate
        elif len(self._seen) > 2:
            self._ignore(self._seen)
        elif code == 0x5B:  # CSI, ECMA-48 8.3.16
            self._state = self._sequence
        elif (
            code in b"PX]^_"
        ):  # DCS, SOS, OSC, PM, APC, ECMA-48 5.6 and 8.3.27, 8.3.143, 8.3.89, 8.3.94, 8.3.2
            self._state = self._string
        else:
            self._ignore(self._seen)

    def _escape_intermediate(self, code):
        if not self._interrupts(code):
            self._keep(code)
            self._escape(code)

    def _sequence(self, code):
        """Take parameter and intermediate bytes up to the final byte (ECMA-48 5.4)."""
        if self._interrupts(code):
            return
        self._keep(code)
        if 0x40 <= code <= 0x7E:
            if len(self._seen) == LIMIT:
                return self._ignore(self._seen)
            self._events.extend(self._meaning(bytes(self._seen)))
            self._idle()

    def _string(self, code):
        """Take a control string up to ST (ECMA-48 5.6 and 8.3.143); its contents mean nothing here. That BEL ends OSC as
        well, and that CAN, SUB and ESC end every string, is common practice."""
        if code == ESC:
            self._ignore(self._seen)
            self._begin(ESC)
        elif code in (CAN, SUB) or code == BEL and self._seen[1] == 0x5D:
            self._ignore(self._seen)
        else:
            self._keep(code)


def _whole_pattern(printing, tables):
    """Return the pattern of what need not be taken code by code: (1) a run of printable codes that begin no command,
    (2) a control sequence that nothing interrupts."""
    codes = bytes(
        code for code in range(printing.first, printing.last + 1) if code not in tables.root.after
    )
    text = b"[" + re.escape(codes) + b"]+" if codes else b"(?!)"
    sequence = rb"\x1b\[[ -?]{0,%d}[@-~]" % (LIMIT - 4) if tables.is_ecma48 else b"(?!)"
    return re.compile(b"(" + text + b")|(" + sequence + b")")
