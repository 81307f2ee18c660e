"""The presses that prove a keyboard: which key, with which modifiers, and what it must send.

They come in the order in which they are asked for.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from termprobe.notation import show, visible
from termprobe.plan.model import Press
from termprobe.profile.key_codes import CONTROL, SHIFT, presses
from termprobe.profile.model import Key, Keyboard, Profile

KeyCrossing = tuple[int, ...]
"""Row and column of the key matrix."""


def listed_presses(profile: Profile) -> tuple[Press, ...]:
    """Return the Press of every key and state to be pressed, in the order of the profile's keys.

    There are none without a keyboard. Keys that only modify (shift, control, lock, repeat) are not
    pressed alone. Local keys send nothing and are left out, and so is every state in which a key
    sends no code of its own (see profile/key_codes.py).
    """
    if profile.keyboard is None:
        return ()
    is_automatic = profile.keyboard.repeat == "automatic"
    coded: dict[str, list[tuple[frozenset[str], bytes]]] = {}
    for name, modifiers, code in presses(profile.keyboard):
        coded.setdefault(name, []).append((modifiers, code))
    found: list[Press] = []
    for key in profile.keyboard.keys:
        found += _of_key(key, coded.get(str(key.name), ()), is_automatic)
    return tuple(found)


def coded_presses(profile: Profile) -> tuple[Press, ...]:
    """Return the listed presses that send a code.

    Any link can report those, also one that reports no break.
    """
    return tuple(press for press in listed_presses(profile) if not press.is_break)


def spoken(press: Press) -> str:
    """Return what to press: `key "1 !" with SHIFT`."""
    return f'key "{visible(press.legend)}"{_with(press.modifiers)}'


def codes_of(some_presses: Iterable[Press]) -> tuple[tuple[bytes, tuple[str, ...]], ...]:
    """Return ((code, (what to press for it, ...)), ...) of `some_presses` that send a code."""
    codes: dict[bytes, list[str]] = {}
    for press in some_presses:
        if not press.is_break:
            codes.setdefault(press.code, []).append(spoken(press))
    return tuple((code, tuple(names)) for code, names in codes.items())


def chord_presses(profile: Profile) -> tuple[Press, ...]:
    """Return for each key with a diode three keys at once that show whether its diode holds.

    There are rows times columns of them.

    The current that a shorted diode lets through makes the fourth corner of the rectangle appear.
    Keys whose rectangle has no full set of corners that send one code each are left out; so is
    every keyboard without diodes, where three keys always make the fourth.
    """
    keyboard = profile.keyboard
    if keyboard is None or not keyboard.diodes:
        return ()
    plain = {press.key: press for press in coded_presses(profile) if not press.modifiers}
    at: dict[KeyCrossing, Press] = {
        tuple(key.matrix): plain[str(key.name)]
        for key in keyboard.keys
        if key.matrix and str(key.name) in plain
    }
    chords = (_chord(at, crossing) for crossing in sorted(at))
    return tuple(chord for chord in chords if chord is not None)


def _chord(at: Mapping[KeyCrossing, Press], crossing: KeyCrossing) -> Press | None:
    """Return the chord that tests the diode at `crossing`, or None.

    Neighbours in its row and its column go down before it.
    """
    row, column = crossing
    for other_row, other_column in sorted(at):
        corners = (row, other_column), (other_row, column)
        if other_row == row or other_column == column or not all(c in at for c in corners):
            continue
        first, second = (at[corner] for corner in corners)
        tested, ghost = at[crossing], at[other_row, other_column]
        if len({press.code for press in (tested, ghost, first, second)}) == 4:
            return _held(first, second, tested, ghost)
    return None


def _held(first: Press, second: Press, tested: Press, ghost: Press) -> Press:
    code = first.code + second.code + tested.code
    return Press(
        id=f"chord/{tested.key}",
        key=tested.key,
        legend=tested.legend,
        modifiers=(),
        code=code,
        asked=f"{spoken(first)} and {spoken(second)} held, then {spoken(tested)}",
        sends=f"{show(code)} and no {show(ghost.code)}",
        held=(first.key, second.key),
    )


def _of_key(
    key: Key, coded: Sequence[tuple[frozenset[str], bytes]], is_automatic: bool
) -> Iterator[Press]:
    """Yield the presses of one key; `coded` holds its (modifiers, bytes)."""
    if key.role == "break":
        yield _press(key, frozenset(), b"", False, is_break=True)
    for modifiers, code in coded:
        yield _press(key, modifiers, code, may_repeat=is_automatic and key.repeats)


def _press(
    key: Key, modifiers: frozenset[str], code: bytes, may_repeat: bool, is_break: bool = False
) -> Press:
    name, held = str(key.name), tuple(sorted(modifiers & {SHIFT, CONTROL}))
    return Press(
        id="+".join((f"press/{name}", *held)),
        key=name,
        legend=str(key.legend),
        modifiers=held,
        code=bytes(code),
        asked=f'"{visible(str(key.legend))}"{_with(held)}',
        sends="a break" if is_break else show(code),
        is_break=is_break,
        may_repeat=may_repeat,
    )


def _with(modifiers: Sequence[str]) -> str:
    return f" with {' and '.join(word.upper() for word in modifiers)}" if modifiers else ""


def location(keyboard: Keyboard, name: str) -> str:
    """Return where a key is for somebody who sees no keycaps.

    It reads `row 2 of 5, key 3 from the left, matrix row 3 column 1`. It is empty where the
    keyboard has no such key.
    """
    key = keyboard.key(name)
    if key is None:
        return ""
    rows = sorted({other.row for other in keyboard.keys})
    same_row = [other for other in keyboard.keys if other.row == key.row]
    in_row = sorted((other.offset, str(other.name)) for other in same_row)
    number = in_row.index((key.offset, str(key.name))) + 1
    where = f"row {rows.index(key.row) + 1} of {len(rows)}, key {number} from the left"
    if not key.matrix:
        return where
    return f"{where}, matrix row {key.matrix[0]} column {key.matrix[1]}"


def request(keyboard: Keyboard, press: Press) -> str:
    """Return how a press is asked for.

    It reads `"1 !" with SHIFT (row 1 of 5, key 2 from the left, ...)`.
    """
    legends = {str(key.name): str(key.legend) for key in keyboard.keys}
    held = [_key_at(keyboard, name, legends.get(name, name)) for name in press.held]
    with_modifiers = "".join(f" with {modifier.upper()}" for modifier in press.modifiers)
    own = _key_at(keyboard, press.key, press.legend, with_modifiers)
    return f"and hold {' and '.join(held)}, then {own}" if held else own


def _key_at(keyboard: Keyboard, name: str, legend: str, modifiers: str = "") -> str:
    return f'"{visible(legend)}"{modifiers} ({location(keyboard, name)})'
