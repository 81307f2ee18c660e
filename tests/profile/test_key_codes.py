"""Key codes: by rule, by exception, and against a code table and a keyboard published elsewhere."""

import pathlib
import re

import pytest

from helpers.profiles import keyboard
from termprobe.notation import CONTROL_NAMES, show_code
from termprobe.profile.key_codes import TYPEWRITER_PAIRS, code_of, presses
from termprobe.profile.load import load
from termprobe.profile.model import Key

SHIFT, CONTROL, BOTH, LOCK = (
    frozenset({"shift"}),
    frozenset({"control"}),
    frozenset({"shift", "control"}),
    frozenset({"lock"}),
)

# RFC 20 section 2, the code table: columns 0 to 7, each from row 0 to row 15.
CODE_TABLE = (
    "NUL SOH STX ETX EOT ENQ ACK BEL BS HT LF VT FF CR SO SI",
    "DLE DC1 DC2 DC3 DC4 NAK SYN ETB CAN EM SUB ESC FS GS RS US",
    "SP ! \" # $ % & ' ( ) * + , - . /",
    "0 1 2 3 4 5 6 7 8 9 : ; < = > ?",
    "@ A B C D E F G H I J K L M N O",
    "P Q R S T U V W X Y Z [ \\ ] ^ _",
    "` a b c d e f g h i j k l m n o",
    "p q r s t u v w x y z { | } ~ DEL",
)
CODES = {
    name: 16 * column + row
    for column, names in enumerate(CODE_TABLE)
    for row, name in enumerate(names.split())
}


def sent(code, modifiers=frozenset(), exceptions=None, **rules):
    """Return what a key with the unshifted `code` sends; `code` is text or bytes."""
    code = code.encode() if isinstance(code, str) else code
    key = Key(name="k", legend="k", row=0, offset=0, code=code, **(exceptions or {}))
    return code_of(keyboard(key, **rules), key, modifiers)


def test_names_of_the_code_table_are_those_of_the_notation():
    assert len(CODES) == 128
    assert tuple(CODE_TABLE[0].split() + CODE_TABLE[1].split()) == tuple(CONTROL_NAMES)
    assert [show_code(CODES[name]) for name in ("SP", "DEL", "A", "~")] == [
        "SP",
        "DEL",
        '"A"',
        '"~"',
    ]


# Columns 2 and 3 of RFC 20's table, paired row by row.
@pytest.mark.parametrize(
    "plain, shifted",
    [*zip("123456789:;", "!\"#$%&'()*+", strict=True), *zip(",-./", "<=>?", strict=True)],
)
def test_bit_pairs_of_columns_2_and_3_stand_in_the_same_row(plain, shifted):
    assert abs(CODES[plain] - CODES[shifted]) == 0x10
    assert sent(plain, SHIFT) == shifted.encode()
    assert sent(shifted, SHIFT) == plain.encode()


@pytest.mark.parametrize(
    "plain, shifted",
    [
        ("a", "A"),
        ("z", "Z"),
        ("@", "`"),
        ("[", "{"),
        ("\\", "|"),
        ("]", "}"),
        ("^", "~"),
        ("\x7f", "_"),
    ],
)
def test_bit_pairs_of_columns_4_to_7_stand_in_the_same_row(plain, shifted):
    assert sent(plain, SHIFT) == shifted.encode()


def test_bit_pairing_keeps_shift_from_sending_what_no_keycap_shows():
    assert sent("0", SHIFT) is None  # 0 XOR 10h is the code of the space bar
    assert sent(" ", SHIFT) == b" "
    assert sent("\r", SHIFT) == b"\r"
    assert sent(b"\x1b[A", SHIFT) == b"\x1b[A"


@pytest.mark.parametrize("name", [name for name in CODES if 0x40 <= CODES[name] <= 0x5F])
def test_control_sends_the_character_two_columns_of_four_to_the_left(name):
    for rule in ("and-1Fh", "xor-40h"):
        assert sent(name, CONTROL, control=rule) == bytes(
            [CODES[name] - 0x40]
        )  # RFC 20 section 2: columns 4 and 5 over 0 and 1


@pytest.mark.parametrize(
    "code, forced, inverted",
    [  # the keys that tell the two circuits apart: arithmetic
        ("@", 0x00, 0x00),
        ("_", 0x1F, 0x1F),
        ("a", 0x01, 0x01),
        ("z", 0x1A, 0x1A),
        ("?", 0x1F, 0x7F),
        ("2", 0x12, None),
        (" ", 0x00, None),
        ("`", 0x00, None),
        ("{", 0x1B, None),
        ("\r", 0x0D, 0x0D),
    ],
)
def test_control_by_forcing_bits_and_by_inverting_one(code, forced, inverted):
    assert sent(code, CONTROL, control="and-1Fh") == bytes([forced])
    assert sent(code, CONTROL, control="xor-40h") == (
        None if inverted is None else bytes([inverted])
    )


def test_control_acts_on_the_shifted_code():
    assert sent("2", BOTH, pairing="typewriter") == b"\x00"  # 2 @
    assert sent("6", BOTH, pairing="typewriter") == b"\x1e"  # 6 ^
    assert sent("0", BOTH) is None


def test_letters_can_be_capitals_only():
    assert sent("a", letters="upper-only") == b"A" == sent("a", SHIFT, letters="upper-only")
    assert sent("a", CONTROL, letters="upper-only") == b"\x01"
    assert sent(b"\x1b[a", letters="upper-only") == b"\x1b[a"


def test_lock_gives_capitals_or_shifts_every_key():
    assert (sent("a", LOCK), sent("1", LOCK)) == (b"A", b"1")
    assert (sent("a", LOCK, lock="shift"), sent("1", LOCK, lock="shift")) == (b"A", b"!")


def test_what_is_written_out_comes_before_the_rules():
    exceptions = {"shift": b"\\", "control": "none", "shift_control": b"\x1c"}
    assert sent("l", SHIFT, exceptions) == b"\\"
    assert sent("l", CONTROL, exceptions) is None
    assert sent("l", BOTH, exceptions) == b"\x1c"
    assert sent("l", BOTH, {"shift": b"\\"}) == b"\x1c"
    assert sent("l", SHIFT, pairing="none") == b"l"


@pytest.mark.parametrize("role", ["shift", "control", "lock", "repeat", "break", "local"])
def test_keys_with_another_role_send_nothing(role):
    key = Key(name="k", legend="k", row=0, offset=0, role=role)
    assert code_of(keyboard(key), key) is None
    assert presses(keyboard(key)) == ()


def test_typewriter_pairs_are_those_of_the_us_layout_of_x11():
    """The layout `us` of xkb-data, section `basic`: another hand's table of the same typewriter."""
    text = pathlib.Path("/usr/share/X11/xkb/symbols/us").read_text(encoding="utf-8")
    basic = text.split('xkb_symbols "basic"')[1].split("\n};")[0]
    characters = {
        "grave": "`",
        "asciitilde": "~",
        "exclam": "!",
        "at": "@",
        "numbersign": "#",
        "dollar": "$",
        "percent": "%",
        "asciicircum": "^",
        "ampersand": "&",
        "asterisk": "*",
        "parenleft": "(",
        "parenright": ")",
        "minus": "-",
        "underscore": "_",
        "equal": "=",
        "plus": "+",
        "bracketleft": "[",
        "braceleft": "{",
        "bracketright": "]",
        "braceright": "}",
        "backslash": "\\",
        "bar": "|",
        "semicolon": ";",
        "colon": ":",
        "apostrophe": "'",
        "quotedbl": '"',
        "comma": ",",
        "less": "<",
        "period": ".",
        "greater": ">",
        "slash": "/",
        "question": "?",
    }
    pairs = {}
    for plain, shifted in re.findall(r"\[\s*(\w+),\s*(\w+)\s*\]", basic):
        pairs[characters.get(plain, plain)] = characters.get(shifted, shifted)
    assert len(pairs) == 47
    for plain, shifted in pairs.items():
        assert sent(plain, SHIFT, pairing="typewriter") == shifted.encode(), plain
    assert {chr(code) for code in TYPEWRITER_PAIRS} == {
        plain for plain in pairs if not plain.isalpha()
    }


@pytest.mark.parametrize("name", ["singlebyte-24x80", "ecma48-24x80"])
def test_every_code_can_be_sent_by_a_press_that_is_asked_for(name):
    single = {code[0] for _, _, code in presses(load(name).keyboard) if len(code) == 1}
    assert single == set(range(128))


@pytest.mark.parametrize("name", ["singlebyte-24x80", "ecma48-24x80"])
def test_presses_agree_with_the_legends_and_keep_the_keys_order(name):
    board = load(name).keyboard
    order = [key.name for key in board.keys]
    asked = presses(board)
    assert [order.index(key) for key, _, _ in asked] == sorted(
        order.index(key) for key, _, _ in asked
    )
    assert len({(key, modifiers) for key, modifiers, _ in asked}) == len(asked)
    codes = {(key, modifiers): code for key, modifiers, code in asked}
    for key in board.keys:
        first, _, shifted = key.legend.partition(" ")
        if len(first) == 1:
            letter = first.isalpha()
            assert codes[key.name, frozenset()] == (first.lower() if letter else first).encode()
            assert codes.get((key.name, SHIFT)) == ((first if letter else shifted).encode() or None)


@pytest.mark.parametrize("name", ["singlebyte-24x80", "ecma48-24x80"])
def test_matrix_of_the_shipped_keyboards_holds_each_code_key_once(name):
    board = load(name).keyboard
    crossings = [key.matrix for key in board.keys if key.role == "code"]
    assert all(len(crossing) == 2 for crossing in crossings) and len(set(crossings)) == len(
        crossings
    )
    assert {row for row, _ in crossings} == set(range(board.rows))
    assert {column for _, column in crossings} == set(range(board.columns))
