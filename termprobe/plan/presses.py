"""The presses that prove a keyboard: which key, with which modifiers, and what it must send, in the order in which they are asked for."""

from dataclasses import dataclass

from termprobe.notation import show, visible
from termprobe.profile.key_codes import CONTROL, SHIFT, presses


@dataclass(frozen=True)
class Press:
    """One press of one key, released before the next."""

    id: str
    """`press/a`, `press/a+shift`, `press/a+control+shift`: the key's name, then the modifiers by alphabet."""
    key: str
    legend: str
    modifiers: tuple[str, ...]
    """`control`, `shift`: held while the key is pressed, by alphabet."""
    code: bytes
    """What must come; empty where a break condition must."""
    title: str
    """In one line: `"1 !" with SHIFT sends "!"`."""
    is_break: bool = False
    """A break condition must come on the line, and no code."""
    may_repeat: bool = False
    """Held down long enough, the key goes on sending by itself."""
    held: tuple[str, ...] = ()
    """Keys that go down before it, one after the other, and are held meanwhile."""


def listed_presses(profile):
    """Return the Press of every key and state to be pressed, by the order of the profile's keys; empty without a keyboard.

    Keys that only modify (shift, control, lock, repeat) are not pressed alone, local keys send nothing and are left out,
    and so is every state in which a key sends no code of its own (see profile/keyboard.py).
    """
    if profile.keyboard is None:
        return ()
    is_automatic = profile.keyboard.repeat == "automatic"
    coded = {}
    for name, modifiers, code in presses(profile.keyboard):
        coded.setdefault(name, []).append((modifiers, code))
    return tuple(
        press
        for key in profile.keyboard.keys
        for press in _of_key(key, coded.get(str(key.name), ()), is_automatic)
    )


def coded_presses(profile):
    """Return the listed presses that send a code: those that any link can report, also one that reports no break."""
    return tuple(press for press in listed_presses(profile) if not press.is_break)


def spoken(press):
    """Return what to press: `key "1 !" with SHIFT`."""
    held = (
        f" with {' and '.join(modifier.upper() for modifier in press.modifiers)}"
        if press.modifiers
        else ""
    )
    return f'key "{visible(press.legend)}"{held}'


def codes_of(presses):
    """Return ((code, (what to press for it, ...)), ...) of `presses` that send a code."""
    codes = {}
    for press in presses:
        if not press.is_break:
            codes.setdefault(press.code, []).append(spoken(press))
    return tuple((code, tuple(names)) for code, names in codes.items())


def press_of(step):
    """Return the Press that a plan's step of kind press asks for."""
    return Press(
        step.id,
        step.key,
        step.legend,
        step.modifiers,
        step.reply,
        step.title,
        may_repeat=step.may_repeat,
        held=step.held,
    )


CHORD = "chord/"
"""The ids of chords begin so."""


def chord_presses(profile):
    """Return for each key with a diode three keys at once that show whether its diode holds: rows times columns of them.

    The current that a shorted diode lets through makes the fourth corner of the rectangle appear. Keys whose rectangle has no
    full set of corners that send one code each are left out; so is every keyboard without diodes, where three keys always
    make the fourth.
    """
    keyboard = profile.keyboard
    if keyboard is None or not keyboard.diodes:
        return ()
    plain = {press.key: press for press in coded_presses(profile) if not press.modifiers}
    at = {
        tuple(key.matrix): plain[str(key.name)]
        for key in keyboard.keys
        if key.matrix and str(key.name) in plain
    }
    return tuple(chord for place in sorted(at) if (chord := _chord(at, place)))


def _chord(at, place):
    """Return the chord that tests the diode at `place`, or None: its row's and its column's neighbour go down before it."""
    row, column = place
    for other_row, other_column in sorted(at):
        corners = (row, other_column), (other_row, column)
        if (
            other_row == row
            or other_column == column
            or not all(corner in at for corner in corners)
        ):
            continue
        tested, ghost, first, second = (
            at[place],
            at[other_row, other_column],
            at[corners[0]],
            at[corners[1]],
        )
        if len({press.code for press in (tested, ghost, first, second)}) == 4:
            return Press(
                f"{CHORD}{tested.key}",
                tested.key,
                tested.legend,
                (),
                first.code + second.code + tested.code,
                f"{spoken(first)} and {spoken(second)} held, then {spoken(tested)} sends "
                f"{show(first.code + second.code + tested.code)} and no {show(ghost.code)}",
                held=(first.key, second.key),
            )
    return None


def _of_key(key, coded, is_automatic):
    """Yield the presses of one key; `coded` holds its (modifiers, bytes)."""
    if key.role == "break":
        yield _press(key, frozenset(), b"", False, is_break=True)
    for modifiers, code in coded:
        yield _press(key, modifiers, code, may_repeat=is_automatic and key.repeats)


def _press(key, modifiers, code, may_repeat, is_break=False):
    name, held = str(key.name), tuple(sorted(modifiers & {SHIFT, CONTROL}))
    states = f" with {' and '.join(modifier.upper() for modifier in held)}" if held else ""
    title = f'"{visible(str(key.legend))}"{states} sends {"a break" if is_break else show(code)}'
    return Press(
        "+".join((f"press/{name}", *held)),
        name,
        str(key.legend),
        held,
        bytes(code),
        title,
        is_break,
        may_repeat,
    )
