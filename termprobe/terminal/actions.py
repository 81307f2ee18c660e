"""What each action of the vocabulary does to the screen.

What ends a pending wrap: each move of the cursor, also where it stays, an address, a return,
erasing, inserting and deleting. A tab behind the last stop, renditions, tab stops, the bell and
replies leave it pending. No standard rules this; it is the practice of xterm, and
tests/terminal/test_pyte_screen_pending.py lists what four engines do.
"""

from collections.abc import Callable

from termprobe.profile.encode import coordinate_bytes
from termprobe.profile.model import Command, Coordinates, Profile
from termprobe.profile.vocabulary import OF_LINE_TO_CURSOR, OF_SCREEN, OF_SCREEN_TO_CURSOR
from termprobe.terminal.compiling import numbering
from termprobe.terminal.decoded import Decoded
from termprobe.terminal.fields import FieldScreen

Action = Callable[[FieldScreen, Decoded, Profile], None]
"""Does to the screen what the command says."""


def _bell(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.bells += 1


def _ignore(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    pass


def _left(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.left(decoded.command.edge, decoded.count)


def _right(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.right(decoded.command.edge, decoded.count)


def _up(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.up(decoded.command.edge, decoded.count)


def _down(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.down(decoded.command.edge, decoded.count)


def _return(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.move(screen.cursor.y, 0)


def _next_line(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.next_line(decoded.command.edge)


def _home(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.move(0, 0)


def _address(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    edge, cursor = decoded.command.edge, screen.cursor
    row = _coordinate(decoded.row, screen.lines, cursor.y, edge)
    column = _coordinate(decoded.column, screen.columns, cursor.x, edge)
    screen.move(row, column)


def _coordinate(wanted: int | None, size: int, kept: int, edge: str | None) -> int:
    """Return the row or column to go to.

    It is `kept` where none was given, or one off the screen that is not clamped.
    """
    if wanted is None or (edge == "keep" and not 0 <= wanted < size):
        return kept
    return min(max(wanted, 0), size - 1)


def _clear(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.erase_in_display(2)
    screen.move(0, 0)


def _erasing(erase: Callable[[FieldScreen, int], None], how: int) -> Action:
    """Return the action that erases: from the cursor (0), to the cursor (1), all (2)."""

    def action(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
        erase(screen, how)
        screen.is_pending = False

    return action


def _insert_character(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    if decoded.count:
        screen.insert_characters(decoded.count)
    screen.is_pending = False


def _delete_character(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    if decoded.count:
        screen.delete_characters(decoded.count)
    screen.is_pending = False


def _insert_line(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    _shift(screen, decoded, -decoded.count)


def _delete_line(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    _shift(screen, decoded, decoded.count)


def _shift(screen: FieldScreen, decoded: Decoded, count: int) -> None:
    """Move the cursor's row and those below up by `count` rows, or down where it is negative."""
    if count:
        screen.shift_rows(screen.cursor.y, count)
    column = screen.cursor.x
    if decoded.command.edge == "return":
        column = 0
    screen.move(screen.cursor.y, column)


def _tab(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.tab(decoded.command.edge)


def _tab_set(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.set_tab_stop()


def _tab_clear(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.clear_tab_stop(0)


def _tab_clear_all(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.clear_tab_stop(3)


def _plain(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.plain()


def _rendering(field: str) -> Action:
    """Return the action that shows what follows in a rendition, a field of a cell."""

    def action(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
        screen.render(field)

    return action


def _graphics_on(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.is_graphic = True


def _graphics_off(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.is_graphic = False


def _protecting(is_on: bool) -> Action:
    """Return the action that protects the cells of what follows, or no longer does."""

    def action(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
        screen.protect(is_on)

    return action


def _printing(is_on: bool) -> Action:
    """Return the action that sends the text that follows to the printer port, or no longer does."""

    def action(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
        screen.is_printing = is_on

    return action


def _guard(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.guards = decoded.command.edge


def _unguard(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    screen.guards = None


SOME_PARAMETERS = b"1"
"""What the reference sends where a board may send any parameters: the least that is a report."""
SOME_TEXT = b"HERE IS"
"""What it sends where a board sends what its owner gave it."""


def _reply(screen: FieldScreen, decoded: Decoded, profile: Profile) -> None:
    coordinates = numbering(profile)
    try:
        parts = [
            _travelling(part, screen, decoded.command, coordinates)
            for part in decoded.command.reply or ()
        ]
    except ValueError:  # a cursor that the coding cannot tell: nothing is sent
        return
    screen.replies += b"".join(parts)


def _travelling(
    part: bytes | str, screen: FieldScreen, command: Command, coordinates: Coordinates
) -> bytes:
    """Return a part of a reply, or what its slot stands for, as it travels."""
    if isinstance(part, bytes):
        return part
    match part:
        case "row":
            return coordinate_bytes(coordinates, screen.cursor.y)
        case "column":
            return coordinate_bytes(coordinates, screen.cursor.x)
        case "line" | "line-to-cursor" | "screen" | "screen-to-cursor":
            return _contents(screen, command, part)
        case "text":
            return SOME_TEXT
    return SOME_PARAMETERS


def _contents(screen: FieldScreen, command: Command, slot: str) -> bytes:
    """Return the codes of the rows that a slot of a reply stands for."""
    row, last = screen.cursor.y, screen.cursor.y
    if slot == OF_SCREEN:
        last = screen.lines - 1
    if slot in (OF_SCREEN, OF_SCREEN_TO_CURSOR):
        row = 0
    texts = [screen.text(number) for number in range(row, last + 1)]
    if not command.sends_blanks:
        texts = [text.rstrip(" ") for text in texts]
    if slot in (OF_LINE_TO_CURSOR, OF_SCREEN_TO_CURSOR):
        texts[-1] = screen.text(last)[: screen.cursor.x]
    return bytes(command.row_end).join(text.encode("latin-1", "replace") for text in texts)


ACTIONS: dict[str, Action] = {
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
    "erase-display": _erasing(FieldScreen.erase_in_display, 2),
    "erase-to-end-of-display": _erasing(FieldScreen.erase_in_display, 0),
    "erase-to-start-of-display": _erasing(FieldScreen.erase_in_display, 1),
    "erase-line": _erasing(FieldScreen.erase_in_line, 2),
    "erase-to-end-of-line": _erasing(FieldScreen.erase_in_line, 0),
    "erase-to-start-of-line": _erasing(FieldScreen.erase_in_line, 1),
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
    "dim": _rendering("italics"),
    "graphics-on": _graphics_on,
    "graphics-off": _graphics_off,
    "protect": _protecting(True),
    "unprotect": _protecting(False),
    "guard": _guard,
    "unguard": _unguard,
    "printer-on": _printing(True),
    "printer-off": _printing(False),
    "reply": _reply,
}
"""For each action of the vocabulary what it does."""
