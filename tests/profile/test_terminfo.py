"""The codes of the shipped profiles against the terminfo data base.

It is that of the packages ncurses-base and ncurses-term, read by infocmp. The family of a profile
is found by its size and by how its entries address a cell, never by name. What an entry has in
another way than the profile stands here by its bytes and by how often it does, with the reason; an
unlisted difference fails, and so does a listed one that is none.
"""

import collections
import re
import subprocess

import pytest

from helpers.terminfo import entries, unescaped
from termprobe.plan.reply_form import ReplyForm
from termprobe.profile.encode import encode
from termprobe.profile.key_codes import code_of
from termprobe.profile.load import load

SINGLE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")
SIZE = {"lines": 24, "cols": 80}
SINGLE_FAMILY = {"cup": b"\x1b=%p1%' '%+%c%p2%' '%+%c"}
ECMA_FAMILY = {"cup": b"\x1b[%i%p1%d;%p2%dH"}

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
    "el": "erase-to-end-of-line",
    "ed": "erase-to-end-of-display",
}
KEYS = {"kcub1": "left", "kcud1": "down", "kcuu1": "up", "kcuf1": "right", "khome": "home"}

DIFFERENCES = {
    "clears by a lead-in; its SUB may clear too, but the entry does not use it": {
        "clear": {
            b"\x1b*": 29,
            b"\x1b*0": 1,
            b"\x1b*1": 1,
            b"\x1b+": 29,
            b"\x1b+\x1e": 2,
            b"\x1b;": 8,
            b"\x1bL": 1,
            b"\x1bH\x1bJ": 1,
        }
    },
    "has SYN to move down without scrolling, and keeps LF for scrolling (ind)": {
        "cud1": {b"\x16": 17},
        "kcud1": {b"\x16": 26},
    },
    "erases by ESC and a small letter": {
        "ed": {b"\x1by": 53, b"\x1bk": 1},
        "el": {b"\x1bt": 28},
    },
    "erases by ESC and another letter": {
        "ed": {b"\x1bJ": 3},
        "el": {b"\x1bK": 4, b"\x1bL": 1},
    },
    "erases, then takes back a rendition": {
        "el": {b"\x1bT\x1bG0\x08": 1, b"\x1bT\x1bG0\x08\x1bg0": 1}
    },
    "clears or erases by a code of its own": {
        "clear": {b"\x04": 1},
        "ed": {b"\x0f": 1, b"\x11": 1, b"\x17": 1, b"\x1f": 2},
        "el": {b"\x0e": 1, b"\x18": 3},
    },
    "homes by a lead-in; its RS may home too, but the entry does not use it": {
        "home": {b"\x1b{": 6, b"\x1bH": 2, b"\x1c\x1a": 1},
        "khome": {b"\x1b{": 1, b"\x1bH": 1},
    },
    "homes by an address; with 20h added to it, 01h is no coordinate": {
        "home": {b"\x1b=\x01\x01": 1}
    },
    "moves by ESC and a letter": {
        "cud1": {b"\x1bB": 1},
        "cuu1": {b"\x1bA": 1, b"\x1bI": 1},
        "cuf1": {b"\x1bC": 1},
        "kcub1": {b"\x1bD": 1},
        "kcud1": {b"\x1bB": 1},
        "kcuu1": {b"\x1bA": 1},
        "kcuf1": {b"\x1bC": 1},
    },
    "moves by control sequences": {
        "cud1": {b"\x1b[B": 1},
        "cuu1": {b"\x1b[A": 1},
        "cuf1": {b"\x1b[C": 1},
        "kcub1": {b"\x1b[D": 1},
        "kcud1": {b"\x1b[B": 1},
        "kcuu1": {b"\x1b[A": 1},
        "kcuf1": {b"\x1b[C": 1},
        "khome": {b"\x1b[H": 1},
    },
    "its cursor keys send SOH, a letter and CR": {
        "kcub1": {b"\x01L\r": 1},
        "kcud1": {b"\x01K\r": 1},
        "kcuu1": {b"\x01J\r": 1},
        "kcuf1": {b"\x01M\r": 1},
        "khome": {b"\x01N\r": 1},
    },
    "its cursor keys send codes of their own": {
        "kcud1": {b"\x0b": 2},
        "kcuu1": {b"\x1a": 2},
        "kcuf1": {b"\x18": 2},
    },
    "rings by ESC K, twice": {"bel": {b"\x1bK\x1bK": 8}},
}
"""Why an entry of the single-byte family is not as the profile: capability -> its bytes -> in how
many entries.
"""
SAME = {
    "bel": 100,
    "cub1": 132,
    "cud1": 110,
    "cuu1": 130,
    "cuf1": 130,
    "cr": 121,
    "clear": 61,
    "home": 111,
    "ind": 116,
    "el": 90,
    "ed": 66,
    "kcub1": 119,
    "kcud1": 92,
    "kcuu1": 118,
    "kcuf1": 117,
    "khome": 96,
}
"""In how many entries of the single-byte family a capability is as in the profile."""


def test_strings_of_the_data_base_are_read_rightly():
    assert unescaped(r"\E=%p1\032$<50>^^^K\s\n\\") == b"\x1b=%p1\x1a\x1e\x0b \n\\"


def family(properties):
    """Return name -> capabilities of the entries of 24 x 80 that have these properties."""
    wanted = SIZE | properties
    return {name: entry for name, entry in entries().items() if wanted.items() <= entry.items()}


def had(properties, capability):
    """Return what entries of a family have there -> how many have it."""
    return collections.Counter(
        entry[capability] for entry in family(properties).values() if capability in entry
    )


def codes_of_single():
    """Return capability -> what the single-byte profile has there."""
    keyboard = SINGLE.keyboard
    codes = {capability: encode(SINGLE, name) for capability, name in COMMANDS.items()}
    return codes | {name: code_of(keyboard, keyboard.key(key)) for name, key in KEYS.items()}


@pytest.mark.parametrize("capability", codes_of_single())
def test_codes_of_the_single_byte_profile_are_those_of_its_family(capability):
    ours = codes_of_single()[capability]
    found = had(SINGLE_FAMILY, capability)
    listed = [of.get(capability, {}) for of in DIFFERENCES.values()]
    differing = {code: count for part in listed for code, count in part.items()}
    assert found == {ours: SAME[capability], **differing}
    assert ours == found.most_common(1)[0][0], "the profile has what most of its family has"


def test_the_family_is_a_wide_one():
    assert len(family(SINGLE_FAMILY)) == 134
    assert sum(SAME.values()) == 1709


def test_size_and_margin_of_the_single_byte_profile_are_those_of_its_family():
    """By terminfo(5) am goes on in the next line, and xenl ignores a line feed after that."""
    display = SINGLE.display
    assert {"lines": display.rows, "cols": display.columns} == SIZE
    assert display.printing.last_column == "next-row"
    assert had(SINGLE_FAMILY, "am")[True] == 128 and had(SINGLE_FAMILY, "xenl")[True] == 12


def address_by_tput(name, row, column):
    done = subprocess.run(
        ["tput", "-T", name, "cup", str(row), str(column)], capture_output=True, check=True
    )
    return done.stdout.rstrip(b"\0")


@pytest.mark.parametrize("profile, properties", [(SINGLE, SINGLE_FAMILY), (ECMA, ECMA_FAMILY)])
def test_addresses_of_a_profile_are_those_of_its_family(profile, properties):
    """They have the same cup, so a few of them speak for all."""
    for name in list(family(properties))[::40]:
        for row, column in ((0, 0), (4, 9), (23, 79), (0, 79), (9, 9)):
            assert encode(profile, "address", row, column) == address_by_tput(name, row, column)


ECMA_CAPABILITIES = {
    "bel": ("bell", 425, 430),
    "cr": ("return", 443, 444),
    "cub1": ("backspace", 408, 451),
    "cud1": ("line-feed", 349, 452),
    "cuu1": ("up", 404, 450),
    "cuf1": ("right", 439, 450),
    "home": ("home", 432, 441),
    "ind": ("line-feed", 360, 441),
    "ri": ("reverse-index", 404, 418),
    "nel": ("next-line", 150, 202),
    "ht": ("tab", 418, 420),
    "hts": ("tab-set", 369, 374),
    "tbc": ("tab-clear-all", 367, 372),
    "el1": ("erase-to-start-of-line", 324, 324),
    "ed": ("erase-to-end-of-display", 438, 448),
    "el": ("erase-to-end-of-line", 440, 450),
    "bold": ("bold", 375, 410),
    "smul": ("underline", 408, 431),
    "blink": ("blink", 351, 370),
    "rev": ("reverse", 411, 430),
    "dch1": ("delete-character", 368, 378),
    "dl1": ("delete-line", 405, 413),
    "il1": ("insert-line", 402, 412),
    "ich1": ("insert-character", 85, 94),
    "u7": ("report-cursor", 332, 332),
    "u9": ("identify", 233, 318),
}
"""Capability: the command of the profile, in how many entries its bytes stand there, of how many
that have the capability. The others have a private form, or codes of another family.
"""


def forms(coding):
    """Return `coding`, and what it is where the default parameter is left out."""
    return {coding, re.sub(rb"(?<=\x1b\[)[01](?=[A-Za-z@]$)", b"", coding)}


@pytest.mark.parametrize("capability", ECMA_CAPABILITIES)
def test_codes_of_the_ecma_48_profile_are_those_of_its_family(capability):
    command, same, count = ECMA_CAPABILITIES[capability]
    found = had(ECMA_FAMILY, capability)
    ours = forms(encode(ECMA, command))
    assert sum(found[form] for form in ours) == same
    assert sum(found.values()) == count and found.most_common(1)[0][0] in ours


def test_cursor_and_function_keys_of_the_ecma_48_profile_are_those_of_its_family():
    """Cursor keys of other entries are those of application mode: SS3 in the place of CSI."""
    keyboard = ECMA.keyboard
    for capability, key in KEYS.items():
        code = code_of(keyboard, keyboard.key(key))
        found = had(ECMA_FAMILY, capability)
        applied = code.replace(b"[", b"O")
        assert found[code] > 100 and found[code] + found[applied] > 190, capability
    for number in (1, 2, 3, 4):
        code = code_of(keyboard, keyboard.key(f"f{number}"))
        assert had(ECMA_FAMILY, f"kf{number}").most_common(1)[0][0] == code
    assert had(ECMA_FAMILY, "kbs")[code_of(keyboard, keyboard.key("back-space"))] == 195


def test_the_form_of_a_report_is_what_entries_say_of_it():
    """Capability u8 is a pattern where it names no one answer: any digits between these bytes."""
    found = had(ECMA_FAMILY, "u8")
    pattern = b"\x1b[?%[;0123456789]c"
    form = ReplyForm(b"\x1b[", b"c")
    answers = {answer: count for answer, count in found.items() if answer.endswith(b"c")}
    assert found.most_common(1)[0] == (pattern, 184)
    assert all(form.allows(answer) for answer in answers if answer != pattern)
    assert form.allows(pattern.replace(b"%[;0123456789]", b"0;1"))


def test_no_entry_has_the_codes_of_the_invented_terminal():
    """One of them may be found elsewhere by chance, two are not."""
    club = load("club-16x64")
    own = {
        cap: encode(club, COMMANDS[cap]) for cap in ("cub1", "cuu1", "cuf1", "clear", "home", "el")
    }
    for entry in entries().values():
        same = [cap for cap, code in own.items() if entry.get(cap) == code]
        is_addressed = b"\x1d" in (entry.get("cup") or b"")
        assert len(same) + is_addressed < 2
