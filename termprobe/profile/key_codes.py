"""The code that each press of a key must send, formed by the keyboard's rules where the profile does not write it out."""

from typing import NamedTuple

SHIFT, CONTROL, LOCK = "shift", "control", "lock"
PLAIN = frozenset()
STATES = (PLAIN, frozenset({SHIFT}), frozenset({CONTROL}), frozenset({SHIFT, CONTROL}))


class Rule(NamedTuple):
    """For single codes `first` to `last`: `(code AND kept) XOR flipped` is sent; `kept` None sends nothing."""

    first: int
    last: int
    kept: int | None
    flipped: int = 0


# How SHIFT forms a code. A code that no rule names is sent as it is: SHIFT does not change it.
# Bit pairing: the two characters of a key differ in one bit of the code table (RFC 20, section 2): bit 4 in columns 2 and 3,
# bit 5 in columns 4 to 7. SHIFT with 0 would give the code of the space bar, so nothing is sent; the space bar with SHIFT
# sends a space.
BIT_PAIRED = (
    Rule(0x20, 0x20, 0x7F),
    Rule(0x30, 0x30, None),
    Rule(0x21, 0x3F, 0x7F, 0x10),
    Rule(0x40, 0x7F, 0x7F, 0x20),
)
# Typewriter pairing: as on the office typewriter of the United States; the pairs follow no bit. 2 @, 6 ^ and 8 * are
# published, the others are common practice.
TYPEWRITER_PAIRS = dict(zip(b"`1234567890-=[]\\;',./", b'~!@#$%^&*()_+{}|:"<>?', strict=True))
TYPEWRITER_PAIRED = (
    *(Rule(code, code, 0, shifted) for code, shifted in TYPEWRITER_PAIRS.items()),
    Rule(0x61, 0x7A, 0x5F),
)
SHIFT_RULES = {"bit": BIT_PAIRED, "typewriter": TYPEWRITER_PAIRED, "none": ()}

# How CONTROL forms a code. In RFC 20's table a control character stands 40h below the character of columns 4 and 5.
# `and-1Fh` forces bits 5 and 6 low, whatever the code. `xor-40h` inverts bit 6: right for columns 4 and 5 and for ? (DEL),
# small letters are taken for capitals, and the rest, which would give other characters, sends nothing.
CONTROL_RULES = {
    "and-1Fh": (Rule(0x20, 0x7F, 0x1F),),
    "xor-40h": (
        Rule(0x3F, 0x5F, 0x7F, 0x40),
        Rule(0x61, 0x7A, 0x5F, 0x40),
        Rule(0x20, 0x7F, None),
    ),
}


def code_of(keyboard, key, modifiers=PLAIN):
    """Return the bytes that `key`, a Key of `keyboard`, sends while `modifiers` are held, or None where it sends nothing.

    `modifiers` is a set of "shift", "control" and "lock". What the profile writes out comes before the rules; several
    bytes, and codes below 20h, are changed by no rule.
    """
    if key.role != "code":
        return None
    written = {SHIFT: key.shift, CONTROL: key.control}
    if {SHIFT, CONTROL} <= modifiers and key.shift_control is not None:
        return _written_out(key.shift_control)
    code = bytes(key.code)
    if SHIFT in modifiers or LOCK in modifiers and _is_locked(keyboard, code):
        code = _formed(code, written[SHIFT], SHIFT_RULES[keyboard.pairing])
    if keyboard.letters == "upper-only" and _is_letter(code):
        code = code.upper()
    if CONTROL in modifiers:
        code = _formed(
            code, None if SHIFT in modifiers else written[CONTROL], CONTROL_RULES[keyboard.control]
        )
    return code


def presses(keyboard):
    """Return (key name, modifiers, bytes) for every press that shows something new, in the order of the keyboard's keys.

    A key is pressed in each state whose code it sends in no state before: plain, SHIFT, CONTROL, both. With CONTROL only
    what RFC 20 gives a meaning (letters, and the characters of columns 4 and 5) or the profile writes out; the rest is a
    by-product of the gates.
    """
    found = []
    for key in keyboard.keys:
        sent = {None}
        for modifiers in STATES:
            code = code_of(keyboard, key, modifiers)
            if code not in sent and _is_meant(keyboard, key, modifiers):
                found.append((str(key.name), modifiers, code))
                sent.add(code)
    return tuple(found)


def _is_locked(keyboard, code):
    """Tell whether LOCK acts on `code`: all keys with a shift lock, letters with a capitals lock."""
    return keyboard.lock == "shift" or _is_letter(code)


def _is_letter(code):
    return code is not None and len(code) == 1 and code.isalpha()


def _formed(code, written, rules):
    if written is not None:
        return _written_out(written)
    if code is None or len(code) != 1:
        return code
    rule = next((rule for rule in rules if rule.first <= code[0] <= rule.last), None)
    if rule is None:
        return code
    return None if rule.kept is None else bytes([code[0] & rule.kept ^ rule.flipped])


def _written_out(code):
    return None if code == "none" else bytes(code)


def _is_meant(keyboard, key, modifiers):
    if CONTROL not in modifiers:
        return True
    if (key.shift_control if SHIFT in modifiers else key.control) is not None:
        return True
    base = code_of(keyboard, key, modifiers - {CONTROL})
    return _is_letter(base) or base is not None and len(base) == 1 and 0x40 <= base[0] <= 0x5F
