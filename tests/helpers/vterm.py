"""libvterm by ctypes: an independent terminal engine to compare with. Debian package libvterm0."""

import ctypes
import ctypes.util


class _Position(ctypes.Structure):
    _fields_ = [("row", ctypes.c_int), ("column", ctypes.c_int)]


class _Rectangle(ctypes.Structure):
    _fields_ = [
        ("start_row", ctypes.c_int),
        ("end_row", ctypes.c_int),
        ("start_column", ctypes.c_int),
        ("end_column", ctypes.c_int),
    ]


class _Cell(ctypes.Structure):
    """VTermScreenCell of vterm.h.

    Bits of `attributes`: 0 bold, 1 and 2 underline, 3 italic, 4 blink, 5 reverse.
    """

    _fields_ = [
        ("characters", ctypes.c_uint32 * 6),
        ("width", ctypes.c_char),
        ("attributes", ctypes.c_uint32),
        ("colours", ctypes.c_uint8 * 8),
    ]


BITS = ((0x01, "b"), (0x06, "u"), (0x10, "k"), (0x20, "r"))


def _library():
    library = ctypes.CDLL(ctypes.util.find_library("vterm") or "libvterm.so.0")
    for name, result, arguments in (
        ("vterm_new", ctypes.c_void_p, [ctypes.c_int, ctypes.c_int]),
        ("vterm_free", None, [ctypes.c_void_p]),
        ("vterm_set_utf8", None, [ctypes.c_void_p, ctypes.c_int]),
        ("vterm_obtain_screen", ctypes.c_void_p, [ctypes.c_void_p]),
        ("vterm_obtain_state", ctypes.c_void_p, [ctypes.c_void_p]),
        ("vterm_screen_reset", None, [ctypes.c_void_p, ctypes.c_int]),
        ("vterm_input_write", ctypes.c_size_t, [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_size_t]),
        (
            "vterm_screen_get_chars",
            ctypes.c_size_t,
            [ctypes.c_void_p, ctypes.POINTER(ctypes.c_uint32), ctypes.c_size_t, _Rectangle],
        ),
        (
            "vterm_screen_get_cell",
            ctypes.c_int,
            [ctypes.c_void_p, _Position, ctypes.POINTER(_Cell)],
        ),
        ("vterm_state_get_cursorpos", None, [ctypes.c_void_p, ctypes.POINTER(_Position)]),
        ("vterm_output_read", ctypes.c_size_t, [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_size_t]),
    ):
        function = getattr(library, name)
        function.restype, function.argtypes = result, arguments
    return library


class Vterm:
    """One terminal of libvterm: feed bytes, read rows, cursor and replies."""

    def __init__(self, rows=24, columns=80):
        self._library = _library()
        self._rows, self._columns = rows, columns
        self._terminal = self._library.vterm_new(rows, columns)
        self._library.vterm_set_utf8(self._terminal, 0)
        self._screen = self._library.vterm_obtain_screen(self._terminal)
        self._library.vterm_screen_reset(self._screen, 1)

    def feed(self, data):
        self._library.vterm_input_write(self._terminal, data, len(data))

    def rows(self):
        return tuple(self._row(row) for row in range(self._rows))

    def _row(self, row):
        cells = (ctypes.c_uint32 * self._columns)()
        count = self._library.vterm_screen_get_chars(
            self._screen, cells, self._columns, _Rectangle(row, row + 1, 0, self._columns)
        )
        return "".join(chr(code or 0x20) for code in cells[:count]).ljust(self._columns)

    def rendition(self, row, column):
        """Return the rendition of a cell, in letters as in a Screen; none where it is plain."""
        cell = _Cell()
        self._library.vterm_screen_get_cell(
            self._screen, _Position(row, column), ctypes.byref(cell)
        )
        return "".join(letter for bits, letter in BITS if cell.attributes & bits)

    def cursor(self):
        place = _Position()
        self._library.vterm_state_get_cursorpos(
            self._library.vterm_obtain_state(self._terminal), ctypes.byref(place)
        )
        return place.row, place.column

    def replies(self):
        buffer = ctypes.create_string_buffer(4096)
        count = self._library.vterm_output_read(self._terminal, buffer, len(buffer))
        return buffer.raw[:count]

    def close(self):
        self._library.vterm_free(self._terminal)
