"""The actions that a profile may give to a command, and the buses that it may label, as data.

ACTIONS, name: (slots that its bytes may hold, alternatives at the edge of the screen, what it does). ECMA-48 leaves open what
happens beyond the page (5th edition, 6.1.6 and 6.1.7), so wherever terminals differ the profile must choose.
"""

ACTIONS = {
    "bell": ((), (), "sound the bell"),
    "ignore": ((), (), "do nothing"),
    "left": (("count",), ("stay", "wrap", "previous-row"), "move the cursor one column left"),
    "right": (("count",), ("stay", "wrap", "next-row"), "move the cursor one column right"),
    "up": (("count",), ("stay", "wrap", "scroll"), "move the cursor one row up"),
    "down": (("count",), ("scroll", "stay", "wrap"), "move the cursor one row down"),
    "return": ((), (), "move the cursor to column 0"),
    "next-line": ((), ("scroll", "stay", "wrap"), "move the cursor to column 0 of the next row"),
    "home": ((), (), "move the cursor to row 0, column 0"),
    "address": (
        ("row", "column"),
        ("keep", "clamp"),
        "move the cursor to a row and column; a coordinate out of range is left as it was, or clamped",
    ),
    "address-row": (("row",), ("keep", "clamp"), "move the cursor to a row"),
    "address-column": (("column",), ("keep", "clamp"), "move the cursor to a column"),
    "clear": ((), (), "blank the screen and move the cursor home"),
    "erase-display": ((), (), "blank the screen, the cursor stays"),
    "erase-to-end-of-display": (
        (),
        (),
        "blank from the cursor to the end of the screen, the cursor stays",
    ),
    "erase-to-start-of-display": (
        (),
        (),
        "blank from the start of the screen to the cursor, the cursor stays",
    ),
    "erase-line": ((), (), "blank the row, the cursor stays"),
    "erase-to-end-of-line": (
        (),
        (),
        "blank from the cursor to the end of the row, the cursor stays",
    ),
    "erase-to-start-of-line": (
        (),
        (),
        "blank from the start of the row to the cursor, the cursor stays",
    ),
    "insert-character": (("count",), (), "push the rest of the row right by a blank"),
    "delete-character": (("count",), (), "pull the rest of the row left over the cursor"),
    "insert-line": (
        ("count",),
        ("return", "stay"),
        "push the rows from the cursor's on down by a blank one; the cursor returns to column 0, or stays",
    ),
    "delete-line": (
        ("count",),
        ("return", "stay"),
        "pull the rows below up over the cursor's; the cursor returns to column 0, or stays",
    ),
    "tab": (
        (),
        ("stay", "next-row"),
        "move the cursor to the next tab stop, after the last one to the last column, or the next row",
    ),
    "tab-set": ((), (), "set a tab stop at the cursor"),
    "tab-clear": ((), (), "clear the tab stop at the cursor"),
    "tab-clear-all": ((), (), "clear every tab stop"),
    "plain": ((), (), "end all renditions"),
    "bold": ((), (), "show what follows bold"),
    "underline": ((), (), "show what follows underlined"),
    "blink": ((), (), "show what follows blinking"),
    "reverse": ((), (), "show what follows in reverse"),
    "reply": ((), (), "send the reply"),
}

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
}
"""The buses whose lines a profile may label, and how many lines each has."""
