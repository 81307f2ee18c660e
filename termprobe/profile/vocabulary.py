"""The actions that a profile may give to a command, and the buses that it may label, as data.

ECMA-48 leaves open what happens beyond the page (5th edition, 6.1.6 and 6.1.7), so wherever
terminals differ at the edge of the screen the profile must choose.
"""

from typing import NamedTuple


class ActionRule(NamedTuple):
    """What a command of one action does, and how it may be written."""

    does: str
    slots: tuple[str, ...] = ()
    """The slots that its bytes may hold; all but `count` must stand in them."""
    edges: tuple[str, ...] = ()
    """The alternatives at the edge of the screen, of which the profile chooses one."""


_COUNT = ("count",)
_AT_LAST_ROW = ("scroll", "stay", "wrap")
_OFF_SCREEN = ("keep", "clamp")
_AFTERWARDS = ("return", "stay")

PARAMETERS = "parameters"
"""The slot of a reply that stands for parameter bytes which differ from model to model."""
PROGRAMMED = "text"
"""The slot of a reply that stands for printable text which each unit was given by its owner."""
OF_LINE, OF_LINE_TO_CURSOR, OF_SCREEN, OF_SCREEN_TO_CURSOR = (
    "line",
    "line-to-cursor",
    "screen",
    "screen-to-cursor",
)
"""The slots of a reply that stand for the codes of what is on the screen: the cursor's
row; that row up to the cursor, whose own cell is not sent; all rows; all up to the cursor."""
OF_CONTENTS = (OF_LINE, OF_LINE_TO_CURSOR, OF_SCREEN, OF_SCREEN_TO_CURSOR)
REPLY_SLOTS = ("row", "column", PARAMETERS, PROGRAMMED, *OF_CONTENTS)

VOCABULARY = {
    "bell": ActionRule("sound the bell"),
    "ignore": ActionRule("do nothing"),
    "left": ActionRule("move the cursor one column left", _COUNT, ("stay", "wrap", "previous-row")),
    "right": ActionRule("move the cursor one column right", _COUNT, ("stay", "wrap", "next-row")),
    "up": ActionRule("move the cursor one row up", _COUNT, ("stay", "wrap", "scroll")),
    "down": ActionRule("move the cursor one row down", _COUNT, _AT_LAST_ROW),
    "return": ActionRule("move the cursor to column 0"),
    "next-line": ActionRule("move the cursor to column 0 of the next row", (), _AT_LAST_ROW),
    "home": ActionRule("move the cursor to row 0, column 0"),
    "address": ActionRule(
        "move the cursor to a row and column; "
        "a coordinate out of range is left as it was, or clamped",
        ("row", "column"),
        _OFF_SCREEN,
    ),
    "address-row": ActionRule("move the cursor to a row", ("row",), _OFF_SCREEN),
    "address-column": ActionRule("move the cursor to a column", ("column",), _OFF_SCREEN),
    "clear": ActionRule("blank the screen and move the cursor home"),
    "erase-display": ActionRule("blank the screen, the cursor stays"),
    "erase-to-end-of-display": ActionRule(
        "blank from the cursor to the end of the screen, the cursor stays"
    ),
    "erase-to-start-of-display": ActionRule(
        "blank from the start of the screen to the cursor, the cursor stays"
    ),
    "erase-line": ActionRule("blank the row, the cursor stays"),
    "erase-to-end-of-line": ActionRule(
        "blank from the cursor to the end of the row, the cursor stays"
    ),
    "erase-to-start-of-line": ActionRule(
        "blank from the start of the row to the cursor, the cursor stays"
    ),
    "insert-character": ActionRule("push the rest of the row right by a blank", _COUNT),
    "delete-character": ActionRule("pull the rest of the row left over the cursor", _COUNT),
    "insert-line": ActionRule(
        "push the rows from the cursor's on down by a blank one; "
        "the cursor returns to column 0, or stays",
        _COUNT,
        _AFTERWARDS,
    ),
    "delete-line": ActionRule(
        "pull the rows below up over the cursor's; the cursor returns to column 0, or stays",
        _COUNT,
        _AFTERWARDS,
    ),
    "tab": ActionRule(
        "move the cursor to the next tab stop, "
        "after the last one to the last column, or the next row",
        edges=("stay", "next-row"),
    ),
    "tab-set": ActionRule("set a tab stop at the cursor"),
    "tab-clear": ActionRule("clear the tab stop at the cursor"),
    "tab-clear-all": ActionRule("clear every tab stop"),
    "plain": ActionRule("end all renditions"),
    "bold": ActionRule("show what follows bold"),
    "underline": ActionRule("show what follows underlined"),
    "dim": ActionRule("show what follows dim"),
    "blink": ActionRule("show what follows blinking"),
    "reverse": ActionRule("show what follows in reverse"),
    "graphics-on": ActionRule("show what follows in the graphics set"),
    "graphics-off": ActionRule("show what follows in the usual set again"),
    "protect": ActionRule("protect the cells of what follows, once they are guarded"),
    "unprotect": ActionRule("leave the cells of what follows unprotected"),
    "guard": ActionRule(
        "guard protected cells: nothing is erased there, and what is to be written there goes to "
        "the next other cell, or is lost",
        edges=("skip", "stay"),
    ),
    "unguard": ActionRule("guard no cells any more"),
    "printer-on": ActionRule("send what follows to the printer port as well"),
    "printer-off": ActionRule("send nothing more to the printer port"),
    "reply": ActionRule("send the reply"),
}
"""The name of each action: its rule."""

BUS_LINES = {
    "receiver-data": 7,
    "bank-0-data": 7,
    "bank-1-data": 7,
    "glyph-address": 7,
    "transmitter-data": 7,
    "keyboard-code": 7,
    "ram-address": 11,
    "bank-0-address": 11,
    "bank-1-address": 11,
    "row-counter": 5,
    "column-counter": 7,
    "shift-register": 1,
    "blanking": 1,
    "cursor": 1,
}
"""The buses whose lines a profile may label, and how many lines each has. Of the shift register it
is its output, of blanking and cursor the gate that mixes them in."""
SIZED_BUSES = ("row-scan", "dot-column")
"""Buses that may be labelled where the display's dots are known: they have as many lines as the
drawings of its characters need."""
