"""A board of the terminal of helpers/special.py with fields, written by hand for tests.

It is made of the profile's text alone and shares nothing with what works out the expected screens.
A few things can be wrong with it, each by its name.
"""

from helpers.special import SHAPES

ROWS, COLUMNS, OFFSET, GRAPHICS_FROM = 24, 40, 0x30, 0x60
BLANK = (" ", "", False)
ONE_BYTE = {0x02: "clear", 0x1C: "home", 0x0D: "return", 0x0A: "down", 0x0E: "graphics-on"}
ONE_BYTE |= {0x0F: "graphics-off", 0x12: "printer-on", 0x14: "printer-off"}
BEHIND_ESC = {ord("D"): "dim", ord("P"): "plain", ord("("): "protect", ord(")"): "unprotect"}
BEHIND_ESC |= {ord("&"): "guard", ord("*"): "unguard"}
SWITCHES = {
    "graphics-on": ("graphics", True),
    "graphics-off": ("graphics", False),
    "printer-on": ("printer", True),
    "printer-off": ("printer", False),
    "dim": ("dim", True),
    "plain": ("dim", False),
    "protect": ("protect", True),
    "unprotect": ("protect", False),
    "guard": ("guard", True),
    "unguard": ("guard", False),
}


class FieldsBoard:
    """Takes bytes; `wrong` is the name of what is wrong with it, `NAME-dead` for a dead command."""

    def __init__(self, wrong=""):
        self.wrong, self.begun, self.printed = wrong, b"", b""
        self.on = dict.fromkeys(("graphics", "printer", "dim", "protect", "guard"), False)
        self.row = self.column = 0
        self.cells = {}

    def receive(self, data):
        for code in data:
            self.begun += bytes([code])
            if not self.is_begun():
                whole, self.begun = self.begun, b""
                self.obey(whole)

    def is_begun(self):
        needed = {0x1D: 3, 0x1B: 2}.get(self.begun[0], 1)
        return len(self.begun) < needed

    def obey(self, whole):
        if whole[0] == 0x1D:
            self.column, self.row = whole[1] - OFFSET, whole[2] - OFFSET
        elif whole[0] == 0x1B:
            self.command(BEHIND_ESC[whole[1]])
        elif whole[0] in ONE_BYTE:
            self.command(ONE_BYTE[whole[0]])
        else:
            self.text(whole[0])

    def command(self, name):
        if self.wrong == f"{name}-dead":
            return
        if name in SWITCHES:
            switch, is_on = SWITCHES[name]
            self.on[switch] = is_on
        if name == "printer-on" and self.wrong == "printer-code-shown":
            self.store("+")
        if name == "clear":
            self.cells = {at: cell for at, cell in self.cells.items() if self.is_kept(cell)}
        if name in ("clear", "home"):
            self.row = self.column = 0
        if name == "return":
            self.column = 0
        if name == "down":
            self.row += 1

    def is_kept(self, cell):
        return cell[2] and self.on["guard"] and self.wrong != "guarded-erased"

    def text(self, code):
        if self.on["printer"] or self.wrong == "printer-takes-all":
            self.printed += bytes([code])
        if self.on["printer"] and self.wrong == "printer-hides":
            return
        shape = code - GRAPHICS_FROM - (self.wrong == "graphics-shifted")
        character = chr(code)
        if self.on["graphics"] and 0 <= shape < len(SHAPES):
            character = SHAPES[shape]
        self.store(character)

    def store(self, character):
        while self.on["guard"] and self.wrong != "guarded-written" and self.here()[2]:
            self.advance()
        look = "d" * self.on["dim"]
        self.cells[self.row, self.column] = (character, look, self.on["protect"])
        self.advance()

    def here(self):
        return self.cells.get((self.row, self.column), BLANK)

    def advance(self):
        self.row, self.column = divmod(self.row * COLUMNS + self.column + 1, COLUMNS)

    def rows(self):
        """Return the characters that it shows."""
        shown = [
            "".join(self.cells.get((row, column), BLANK)[0] for column in range(COLUMNS))
            for row in range(ROWS)
        ]
        return tuple(shown)

    def renditions(self):
        """Return by row and column what is not shown as usual."""
        return {at: cell[1] for at, cell in self.cells.items() if cell[1] and cell[0] != " "}
