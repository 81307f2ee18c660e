"""What each action of the vocabulary does to the screen: the table ACTIONS, name to function(screen, decoded, profile).

What ends a pending wrap: each move of the cursor, also where it stays, an address, a return, erasing, inserting and
deleting. A tab behind the last stop, renditions, tab stops, the bell and replies leave it pending. No standard rules
this; it is the practice of xterm, and tests/terminal/test_pyte_screen_pending.py lists what four engines do.
"""

from termprobe.profile.encode import coordinate_bytes
from termprobe.terminal.compiling import numbering


def _bell(screen, decoded, profile):
    screen.bells += 1


def _ignore(screen, decoded, profile):
    pass


def _left(screen, decoded, profile):
    screen.left(decoded.command.edge, decoded.count)


def _right(screen, decoded, profile):
    screen.right(decoded.command.edge, decoded.count)


def _up(screen, decoded, profile):
    screen.up(decoded.command.edge, decoded.count)


def _down(screen, decoded, profile):
    screen.down(decoded.command.edge, decoded.count)


def _return(screen, decoded, profile):
    screen.move(screen.cursor.y, 0)


def _next_line(screen, decoded, profile):
    screen.next_line(decoded.command.edge)


def _home(screen, decoded, profile):
    screen.move(0, 0)


def _address(screen, decoded, profile):
    screen.move(
        _coordinate(decoded.row, screen.lines, screen.cursor.y, decoded.command.edge),
        _coordinate(decoded.column, screen.columns, screen.cursor.x, decoded.command.edge),
    )


def _coordinate(wanted, size, kept, edge):
    """Return the row or column to go to: `kept` where none was given, or one off the screen that is not clamped."""
    if wanted is None or edge == "keep" and not 0 <= wanted < size:
        return kept
    return min(max(wanted, 0), size - 1)


def _clear(screen, decoded, profile):
    screen.erase_in_display(2)
    screen.move(0, 0)


def _erasing(method, how):
    """Return the action of a pyte method that erases: from the cursor (0), to the cursor (1), all (2)."""

    def action(screen, decoded, profile):
        getattr(screen, method)(how)
        screen.is_pending = False

    return action


def _insert_character(screen, decoded, profile):
    if decoded.count:
        screen.insert_characters(decoded.count)
    screen.is_pending = False


def _delete_character(screen, decoded, profile):
    if decoded.count:
        screen.delete_characters(decoded.count)
    screen.is_pending = False


def _insert_line(screen, decoded, profile):
    _shift(screen, decoded, -decoded.count)


def _delete_line(screen, decoded, profile):
    _shift(screen, decoded, decoded.count)


def _shift(screen, decoded, count):
    if count:
        screen.shift_rows(screen.cursor.y, count)
    screen.move(screen.cursor.y, 0 if decoded.command.edge == "return" else screen.cursor.x)


def _tab(screen, decoded, profile):
    screen.tab(decoded.command.edge)


def _tab_set(screen, decoded, profile):
    screen.set_tab_stop()


def _tab_clear(screen, decoded, profile):
    screen.clear_tab_stop(0)


def _tab_clear_all(screen, decoded, profile):
    screen.clear_tab_stop(3)


def _plain(screen, decoded, profile):
    screen.plain()


def _rendering(field):
    def action(screen, decoded, profile):
        screen.render(field)

    return action


def _reply(screen, decoded, profile):
    place = {"row": screen.cursor.y, "column": screen.cursor.x}
    try:
        parts = [
            part if isinstance(part, bytes) else coordinate_bytes(numbering(profile), place[part])
            for part in decoded.command.reply or ()
        ]
    except ValueError:  # a cursor that the coding cannot tell: nothing is sent
        return
    screen.replies += b"".join(parts)


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
