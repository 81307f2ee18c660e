"""The presses that prove a keyboard: which key, with which modifiers, and what it must send, in the order in which they are asked for."""

from dataclasses import dataclass

from termprobe.notation import show, visible
from termprobe.profile.keyboard import CONTROL, SHIFT, presses


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


def listed_presses(profile):
    """Return the Press of every key and state to be covered, by the order of the profile's keys; empty without a keyboard.

    Keys that only modify (shift, control, lock, repeat) are not pressed alone, local keys send nothing and are left out,
    and so is every state in which a key sends no code of its own (see profile/keyboard.py).
    """
    if profile.keyboard is None:
        return ()
    is_automatic = profile.keyboard.repeat == "automatic"
    coded = {}
    for name, modifiers, code in presses(profile.keyboard):
        coded.setdefault(name, []).append((modifiers, code))
    return tuple(press for key in profile.keyboard.keys for press in _of_key(key, coded.get(str(key.name), ()), is_automatic))


def coded_presses(profile):
    """Return the listed presses that send a code: those that any link can witness, also one that reports no break."""
    return tuple(press for press in listed_presses(profile) if not press.is_break)


def spoken(press):
    """Return what to press: `key "1 !" with SHIFT`."""
    held = f" with {' and '.join(modifier.upper() for modifier in press.modifiers)}" if press.modifiers else ""
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
    return Press(step.id, step.key, step.legend, step.modifiers, step.reply, step.title, may_repeat=step.may_repeat)


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
    return Press("+".join((f"press/{name}", *held)), name, str(key.legend), held, bytes(code), title, is_break, may_repeat)
