"""What each action of the vocabulary does to the glass: the table ACTIONS, name to function(glass, order, profile).

What ends a pending wrap: each move of the cursor, also where it stays, an address, a return, erasing, inserting and
deleting. A tab behind the last stop, renditions, tab stops, the bell and replies leave it pending. No standard rules
this; it is the practice of xterm, and tests/test_glass_pending.py lists what four engines do.
"""

from termprobe.profile.encode import coordinate_bytes
from termprobe.terminal.tables import numbering


def _bell(glass, order, profile):
    glass.bells += 1


def _ignore(glass, order, profile):
    pass


def _left(glass, order, profile):
    glass.left(order.command.edge, order.count)


def _right(glass, order, profile):
    glass.right(order.command.edge, order.count)


def _up(glass, order, profile):
    glass.up(order.command.edge, order.count)


def _down(glass, order, profile):
    glass.down(order.command.edge, order.count)


def _return(glass, order, profile):
    glass.move(glass.cursor.y, 0)


def _next_line(glass, order, profile):
    glass.next_line(order.command.edge)


def _home(glass, order, profile):
    glass.move(0, 0)


def _address(glass, order, profile):
    glass.move(_coordinate(order.row, glass.lines, glass.cursor.y, order.command.edge),
               _coordinate(order.column, glass.columns, glass.cursor.x, order.command.edge))


def _coordinate(wanted, size, kept, edge):
    """Return the row or column to go to: `kept` where none was given, or one off the glass that is not clamped."""
    if wanted is None or edge == "keep" and not 0 <= wanted < size:
        return kept
    return min(max(wanted, 0), size - 1)


def _clear(glass, order, profile):
    glass.erase_in_display(2)
    glass.move(0, 0)


def _erasing(method, how):
    """Return the action of a pyte method that erases: from the cursor (0), to the cursor (1), all (2)."""
    def action(glass, order, profile):
        getattr(glass, method)(how)
        glass.is_pending = False
    return action


def _insert_character(glass, order, profile):
    if order.count:
        glass.insert_characters(order.count)
    glass.is_pending = False


def _delete_character(glass, order, profile):
    if order.count:
        glass.delete_characters(order.count)
    glass.is_pending = False


def _insert_line(glass, order, profile):
    _shift(glass, order, -order.count)


def _delete_line(glass, order, profile):
    _shift(glass, order, order.count)


def _shift(glass, order, count):
    if count:
        glass.shift_rows(glass.cursor.y, count)
    glass.move(glass.cursor.y, 0 if order.command.edge == "return" else glass.cursor.x)


def _tab(glass, order, profile):
    glass.tab(order.command.edge)


def _tab_set(glass, order, profile):
    glass.set_tab_stop()


def _tab_clear(glass, order, profile):
    glass.clear_tab_stop(0)


def _tab_clear_all(glass, order, profile):
    glass.clear_tab_stop(3)


def _plain(glass, order, profile):
    glass.plain()


def _rendering(field):
    def action(glass, order, profile):
        glass.render(field)
    return action


def _reply(glass, order, profile):
    place = {"row": glass.cursor.y, "column": glass.cursor.x}
    try:
        parts = [part if isinstance(part, bytes) else coordinate_bytes(numbering(profile), place[part])
                 for part in order.command.reply or ()]
    except ValueError:  # a cursor that the coding cannot tell: nothing is sent
        return
    glass.replies += b"".join(parts)


ACTIONS = {
    "bell": _bell,
    "ignore": _ignore,
    "left": _left,
    "right": _right,
    "up": _up,
    "down": _down,
    "return": _return,
    "next-line": _next_line,
    "home": _home,
    "address": _address,
    "address-row": _address,
    "address-column": _address,
    "clear": _clear,
    "erase-display": _erasing("erase_in_display", 2),
    "erase-to-end-of-display": _erasing("erase_in_display", 0),
    "erase-to-start-of-display": _erasing("erase_in_display", 1),
    "erase-line": _erasing("erase_in_line", 2),
    "erase-to-end-of-line": _erasing("erase_in_line", 0),
    "erase-to-start-of-line": _erasing("erase_in_line", 1),
    "insert-character": _insert_character,
    "delete-character": _delete_character,
    "insert-line": _insert_line,
    "delete-line": _delete_line,
    "tab": _tab,
    "tab-set": _tab_set,
    "tab-clear": _tab_clear,
    "tab-clear-all": _tab_clear_all,
    "plain": _plain,
    "bold": _rendering("bold"),
    "underline": _rendering("underscore"),
    "blink": _rendering("blink"),
    "reverse": _rendering("reverse"),
    "reply": _reply,
}
