"""The code that each press of a key must send.

It is formed by the keyboard's rules where the profile does not write it out.
"""

from typing import NamedTuple

from termprobe.profile.model import Key, Keyboard

SHIFT, CONTROL, LOCK = "shift", "control", "lock"
ShiftState = frozenset[str]
"""The modifiers that are held or set: some of SHIFT, CONTROL and LOCK."""
PLAIN: ShiftState = frozenset()
SHIFT_STATES = (PLAIN, frozenset({SHIFT}), frozenset({CONTROL}), frozenset({SHIFT, CONTROL}))


class Rule(NamedTuple):
    """For the codes `first` to `last`: `(code AND kept) XOR flipped` is sent."""

    first: int
    last: int
    kept: int | None
    """None sends nothing."""
    flipped: int = 0

    def form(self, code: int) -> bytes | None:
        """Return what is sent for `code`, or None."""
        if self.kept is None:
            return None
        return bytes([code & self.kept ^ self.flipped])


# How SHIFT forms a code. A code that no rule names is sent as it is: SHIFT does not change it.
# Bit pairing: the two characters of a key differ in one bit of the code table (RFC 20, section 2):
# bit 4 in columns 2 and 3, bit 5 in columns 4 to 7. SHIFT with 0 would give the code of the space
# bar, so nothing is sent; the space bar with SHIFT sends a space.
BIT_PAIRED = (
    Rule(0x20, 0x20, 0x7F),
    Rule(0x30, 0x30, None),
    Rule(0x21, 0x3F, 0x7F, 0x10),
    Rule(0x40, 0x7F, 0x7F, 0x20),
)
# Typewriter pairing: as on the office typewriter of the United States; the pairs follow no bit.
# 2 @, 6 ^ and 8 * are published, the others are common practice.
TYPEWRITER_PAIRS = dict(zip(b"`1234567890-=[]\\;',./", b'~!@#$%^&*()_+{}|:"<>?', strict=True))
TYPEWRITER_PAIRED = (
    *(Rule(code, code, 0, shifted) for code, shifted in TYPEWRITER_PAIRS.items()),
    Rule(0x61, 0x7A, 0x5F),
)
SHIFT_RULES: dict[str, tuple[Rule, ...]] = {
    "bit": BIT_PAIRED,
    "typewriter": TYPEWRITER_PAIRED,
    "none": (),
}
"""Word for `pairing`: the rules, of which the first that fits holds."""

# How CONTROL forms a code. In RFC 20's table a control character stands 40h below the character of
# columns 4 and 5. `and-1Fh` forces bits 5 and 6 low, whatever the code. `xor-40h` inverts bit 6:
# right for columns 4 and 5 and for ? (DEL), small letters are taken for capitals, and the rest,
# which would give other characters, sends nothing.
CONTROL_RULES: dict[str, tuple[Rule, ...]] = {
    "and-1Fh": (Rule(0x20, 0x7F, 0x1F),),
    "xor-40h": (
        Rule(0x3F, 0x5F, 0x7F, 0x40),
        Rule(0x61, 0x7A, 0x5F, 0x40),
        Rule(0x20, 0x7F, None),
    ),
}
"""Word for `control`: the rules, of which the first that fits holds."""


class KeyCode(NamedTuple):
    """What one key sends in one state."""

    key: str
    """The name of the key."""
    modifiers: ShiftState
    code: bytes


def code_of(keyboard: Keyboard, key: Key, modifiers: ShiftState = PLAIN) -> bytes | None:
    """Return the bytes that `key` sends while `modifiers` are held, or None where it sends nothing.

    What the profile writes out comes before the rules; several bytes, and codes below 20h, are
    changed by no rule.
    """
    if key.role != "code" or key.code is None:
        return None
    if {SHIFT, CONTROL} <= modifiers and key.shift_control is not None:
        return _written_out(key.shift_control)
    code = _shifted(keyboard, key, bytes(key.code), modifiers)
    if code is not None and keyboard.letters == "upper-only" and _is_letter(code):
        code = code.upper()
    if CONTROL not in modifiers:
        return code
    if key.control is not None and SHIFT not in modifiers:
        return _written_out(key.control)
    return _formed(code, CONTROL_RULES[keyboard.control])


def presses(keyboard: Keyboard) -> tuple[KeyCode, ...]:
    """Return a KeyCode for every press that shows something new, in the order of the keys.

    A key is pressed in each state whose code it sends in no state before: plain, SHIFT, CONTROL,
    both. With CONTROL only what RFC 20 gives a meaning (letters, and the characters of columns 4
    and 5) or the profile writes out; the rest is a by-product of the gates.
    """
    found = []
    for key in keyboard.keys:
        sent = set()
        for modifiers in SHIFT_STATES:
            code = code_of(keyboard, key, modifiers)
            if code is None or code in sent or not _is_meant(keyboard, key, modifiers):
                continue
            found.append(KeyCode(str(key.name), modifiers, code))
            sent.add(code)
    return tuple(found)


def _shifted(keyboard: Keyboard, key: Key, code: bytes, modifiers: ShiftState) -> bytes | None:
    """Return what SHIFT, or LOCK where it acts on `code`, makes of the plain `code` of `key`."""
    is_locked = LOCK in modifiers and (keyboard.lock == "shift" or _is_letter(code))
    if SHIFT not in modifiers and not is_locked:
        return code
    if key.shift is not None:
        return _written_out(key.shift)
    return _formed(code, SHIFT_RULES[keyboard.pairing])


def _is_letter(code: bytes) -> bool:
    return len(code) == 1 and code.isalpha()


def _written_out(code: bytes | str) -> bytes | None:
    """Return the bytes that the profile writes out, or None for the word `none`."""
    if isinstance(code, str):
        return None
    return bytes(code)


def _formed(code: bytes | None, rules: tuple[Rule, ...]) -> bytes | None:
    if code is None or len(code) != 1:
        return code
    for rule in rules:
        if rule.first <= code[0] <= rule.last:
            return rule.form(code[0])
    return code


def _is_meant(keyboard: Keyboard, key: Key, modifiers: ShiftState) -> bool:
    """Tell whether a press is more than a by-product of the gates."""
    if CONTROL not in modifiers:
        return True
    written = key.control
    if SHIFT in modifiers:
        written = key.shift_control
    if written is not None:
        return True
    base = code_of(keyboard, key, modifiers - {CONTROL})
    return base is not None and len(base) == 1 and (base.isalpha() or 0x40 <= base[0] <= 0x5F)
