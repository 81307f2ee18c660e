"""The codings of commands: their form, their slots, and that they differ."""

import re

import pytest

from helpers.mistakes import SHIPPED, changed, findings_of, one_finding


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        (
            'bytes: ESC "=" row column',
            'bytes: ESC "=" row colum',
            'a slot of address must be row or column, not "colum"; nearest is "column"',
        ),
        (
            'bytes: ESC "=" row column',
            'bytes: ESC "=" row row',
            "each slot of address must stand once, not row again",
        ),
        ("bytes: BEL", 'bytes: ESC "b" row', "a slot of bell must be left out"),
        (
            'bytes: ESC "=" row column',
            "bytes: row column",
            "bytes of address must start with a code, not a slot",
        ),
        ("bytes: BEL", "bytes: ''", "bytes of bell must be 1 to 32"),
        ("bytes: BEL", "bytes: 87h", "bytes of bell must fit in 7 data bits"),
        ("bytes: BEL", "bytes: 80h", "bytes of bell must fit in 7 data bits"),
        (
            "bytes: BEL",
            "bytes: BEL\n    also: [CR]",
            "bytes of return must differ, from the start, from those of bell",
        ),
    ],
)
def test_one_mistake_gives_one_finding(old, new, part):
    assert part in one_finding(old, new)


def without_coordinates(profile):
    """Return a shipped profile's text without the section of coordinates."""
    text, count = re.subn(r"^coordinates:\n(?: .*\n)+", "", SHIPPED[profile], flags=re.M)
    assert count == 1
    return text


@pytest.mark.parametrize(
    ("profile", "names"),
    [
        ("singlebyte-24x80", ["address"]),
        ("ecma48-24x80", ["address", "address-hvp", "report-cursor"]),
    ],
)
def test_slots_must_be_explained(profile, names):
    found = findings_of(without_coordinates(profile))
    must = 'must be explained: the profile must have the key "coordinates"'
    assert [finding.split(": ", 1)[1] for finding in found] == [
        f"a slot of {name} {must}" for name in names
    ]


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        (
            'bytes: ESC "[0J"',
            'bytes: ESC "[" count "J"',
            "a slot of erase-to-end-of-display must be left out",
        ),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "[" count "B"',
            "bytes of down must differ, from the start, from those of up",
        ),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "[" count "0"',
            "a slot of up must be followed by something other than a digit",
        ),
        (
            'bytes: ESC "[1m"',
            'bytes: ESC "[0m"',
            "bytes of bold must differ, from the start, from those of plain",
        ),
        ('bytes: ESC "D"', 'bytes: ESC "["', "bytes of index must be one control sequence"),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "[x" count "A"',
            "bytes of up must be one control sequence",
        ),
        (
            'bytes: ESC "[" count "A"',
            'bytes: ESC "#" count',
            "a slot of up must be followed by something other than a digit",
        ),
        (
            "coding: decimal\n  first: 1",
            "coding: binary\n  first: 1",
            "coding must be decimal, for the control sequence of up",
        ),
        (
            'reply: ESC "[" row ";" column "R"',
            'reply: ESC "[" count "R"',
            "a slot of report-cursor must be row or column or parameters or text or line or "
            'line-to-cursor or screen or screen-to-cursor, not "count"',
        ),
    ],
)
def test_one_mistake_in_control_sequences_gives_one_finding(old, new, part):
    found = findings_of(changed(old, new, "ecma48-24x80"))
    assert found and part in found[0], "\n".join(found)


def test_a_slot_of_one_byte_can_be_taken_for_the_start_of_a_control_sequence():
    """The bytes ESC "[" "0" "H" would be both."""
    taken = """commands:
  - {name: goto, bytes: ESC row column, action: address, edge: keep, source: made up}
"""
    text = changed("commands:\n", taken, "ecma48-24x80").replace(
        "coding: decimal", "coding: binary"
    )
    found = findings_of(text)
    assert any("must differ, from the start, from those of goto" in finding for finding in found)
