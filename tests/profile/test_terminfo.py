"""The codes of the shipped profiles against the terminfo data base (packages ncurses-base and ncurses-term, read by infocmp).

Where an entry differs from the profile the difference stands here with its reason; an unlisted difference fails, and so
does a listed one that is none.
"""

import functools
import re
import subprocess

import pytest

from termprobe.profile.encode import encode
from termprobe.profile.key_codes import code_of
from termprobe.profile.load import load

FAMILY = (
    "ampex80 f100 f200 falco kaypro kt7 mt70 osborne osexec qvt101 qvt102 soroc120 "
    "tvi910 tvi910+ tvi912 tvi912b tvi925 tvi950 wy30 wy50 xerox820 zen30"
).split()
COMMANDS = {
    "bel": "bell",
    "cub1": "left",
    "cud1": "down",
    "cuu1": "up",
    "cuf1": "right",
    "cr": "return",
    "clear": "clear",
    "home": "home",
    "ind": "down",
}
KEYS = {"kcub1": "left", "kcud1": "down", "kcuu1": "up", "kcuf1": "right", "khome": "home"}

CLEARED_OTHERWISE = (
    "clears by a lead-in sequence; its SUB may clear too, but the entry does not use it"
)
LINE_FEED_APART = (
    "has SYN to move down without scrolling, and keeps LF for scrolling (ind) and the next line"
)
KEY_APART = "its key for down sends SYN, so that the host can tell it from LINE FEED"
PREFIXED_KEYS = "its cursor keys send SOH, a letter and CR"
DIFFERENCES = {
    **{
        (name, "clear"): (b"\x1b*", CLEARED_OTHERWISE)
        for name in ("soroc120", "tvi950", "zen30", "falco", "ampex80")
    },
    **{(name, "clear"): (b"\x1b+", CLEARED_OTHERWISE) for name in ("wy30", "wy50")},
    **{(name, "cud1"): (b"\x16", LINE_FEED_APART) for name in ("tvi925", "f200", "kt7")},
    **{
        (name, "kcud1"): (b"\x16", KEY_APART)
        for name in ("tvi925", "tvi950", "f100", "f200", "kt7")
    },
    **{
        ("mt70", f"k{key}"): (b"\x01" + letter + b"\r", PREFIXED_KEYS)
        for key, letter in (
            ("cub1", b"L"),
            ("cud1", b"K"),
            ("cuu1", b"J"),
            ("cuf1", b"M"),
            ("home", b"N"),
        )
    },
    ("tvi910", "home"): (
        b"\x1b=\x01\x01",
        "homes by an address; with 20h added to it, 01h is no coordinate, yet its home key sends RS",
    ),
}


@functools.cache
def entry(name):
    """Return the capabilities of a terminfo entry: True for flags, int for numbers, bytes without padding for strings."""
    done = subprocess.run(
        ["infocmp", "-1", "-x", name], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, (
        f"needs the terminfo entry {name} (package ncurses-term): {done.stderr}"
    )
    found = {}
    for line in done.stdout.split("\n"):
        match = re.fullmatch(r"\t(\w+)(?:#(\w+)|=(.*))?,", line)
        if match:
            capability, number, text = match.groups()
            found[capability] = (
                int(number, 0) if number else True if text is None else unescaped(text)
            )
    return found


def unescaped(text):
    """Return the bytes of a terminfo string (terminfo(5), Types of Capabilities), without its padding."""
    named = {
        "E": 27,
        "e": 27,
        "n": 10,
        "l": 10,
        "r": 13,
        "t": 9,
        "b": 8,
        "f": 12,
        "s": 32,
        "0": 0x80,
    }
    found = bytearray()
    for octal, letter, control, plain in re.findall(
        r"\\([0-7]{3})|\\(.)|\^(.)|(.)", re.sub(r"\$<[^>]*>", "", text)
    ):
        found.append(
            int(octal, 8)
            if octal
            else named.get(letter, ord(letter))
            if letter
            else ord(control) ^ 0x40
            if control
            else ord(plain)
        )
    return bytes(found)


def test_strings_of_the_data_base_are_read_rightly():
    assert unescaped(r"\E=%p1\032$<50>^^^K\s\n\\") == b"\x1b=%p1\x1a\x1e\x0b \n\\"


def test_codes_of_the_single_byte_profile_are_those_of_its_family():
    profile = load("singlebyte-24x80")
    keyboard = profile.keyboard
    ours = {capability: encode(profile, name) for capability, name in COMMANDS.items()}
    ours |= {capability: code_of(keyboard, keyboard.key(name)) for capability, name in KEYS.items()}
    differences, compared = {}, 0
    for name in FAMILY:
        for capability, code in ours.items():
            theirs = entry(name).get(capability, code)
            compared += capability in entry(name)
            if theirs != code:
                differences[name, capability] = theirs
    assert differences == {place: code for place, (code, _) in DIFFERENCES.items()}
    assert compared > 250


@pytest.mark.parametrize("name", FAMILY)
def test_size_and_margin_of_the_single_byte_profile_are_those_of_its_family(name):
    display = load("singlebyte-24x80").display
    found = entry(name)
    assert (found["lines"], found["cols"]) == (display.rows, display.columns)
    assert (
        found["am"] and display.printing.last_column == "next-row"
    )  # terminfo(5): am goes on in the next line
    assert ("xenl" in found) == (
        name == "tvi950"
    )  # the one entry whose next line feed after that is swallowed


def address_by_tput(name, row, column):
    done = subprocess.run(
        ["tput", "-T", name, "cup", str(row), str(column)], capture_output=True, check=True
    )
    return done.stdout.rstrip(b"\0")


@pytest.mark.parametrize("name", FAMILY)
def test_addresses_of_the_single_byte_profile_are_those_of_its_family(name):
    profile = load("singlebyte-24x80")
    for row, column in ((0, 0), (4, 9), (23, 79), (12, 40), (0, 79), (23, 0)):
        assert encode(profile, "address", row, column) == address_by_tput(name, row, column)


@pytest.mark.parametrize("name", ["vt100", "ansi"])
def test_addresses_of_the_ecma_48_profile_are_those_of_the_data_base(name):
    profile = load("ecma48-24x80")
    for row, column in ((0, 0), (4, 9), (23, 79), (9, 9), (10, 99)):
        assert encode(profile, "address", row, column) == address_by_tput(name, row, column)


ECMA_48_COMMANDS = {
    "vt100": {
        "bel": "bell",
        "cr": "return",
        "cub1": "backspace",
        "cud1": "line-feed",
        "cuu1": "up",
        "cuf1": "right",
        "home": "home",
        "ind": "line-feed",
        "ri": "reverse-index",
        "ht": "tab",
        "hts": "tab-set",
        "tbc": "tab-clear-all",
        "el1": "erase-to-start-of-line",
        "ed": "erase-to-end-of-display",
        "el": "erase-to-end-of-line",
        "bold": "bold",
        "smul": "underline",
        "blink": "blink",
        "rev": "reverse",
    },
    "ansi": {
        "cub1": "left",
        "cud1": "down",
        "cuu1": "up",
        "cuf1": "right",
        "home": "home",
        "dch1": "delete-character",
        "dl1": "delete-line",
        "il1": "insert-line",
        "hts": "tab-set",
        "u7": "report-cursor",
        "u9": "identify",
    },
}
DEFAULT_LEFT_OUT = "the entry leaves the default parameter out"


@pytest.mark.parametrize("name", ECMA_48_COMMANDS)
def test_codes_of_the_ecma_48_profile_are_those_of_the_data_base(name):
    profile = load("ecma48-24x80")
    for capability, command in ECMA_48_COMMANDS[name].items():
        theirs = entry(name)[capability]
        ours = encode(profile, command)
        forms = (
            {ours, re.sub(rb"(?<=\x1b\[)[01](?=[A-Za-z]$)", b"", ours)}
            if ours[-1:] in b"ABCDJKLMPc"
            else {ours}
        )
        assert theirs in forms, f"{capability}: {DEFAULT_LEFT_OUT}, else the same"


def test_cursor_and_function_keys_of_the_ecma_48_profile_are_those_of_the_data_base():
    keyboard = load("ecma48-24x80").keyboard
    for capability, key in KEYS.items():
        assert code_of(keyboard, keyboard.key(key)) == entry("ansi")[capability]
    for number in (1, 2, 3, 4):
        assert code_of(keyboard, keyboard.key(f"f{number}")) == entry("vt100")[f"kf{number}"]
    assert code_of(keyboard, keyboard.key("back-space")) == entry("vt100")["kbs"]
    # The cursor keys of entry vt100 are those of its application mode, which smkx switches on: SS3 in the place of CSI.
    assert entry("vt100")["smkx"].startswith(b"\x1b[?1h")
    for capability in ("kcub1", "kcud1", "kcuu1", "kcuf1"):
        assert entry("vt100")[capability] == entry("ansi")[capability].replace(b"[", b"O")
