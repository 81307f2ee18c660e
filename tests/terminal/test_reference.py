"""The reference screen: codings of the standards, edges as the profile says, and the same screen however the bytes are cut."""

import dataclasses
import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from termprobe.profile.encode import encode
from termprobe.profile.load import load
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.terminal.actions import ACTIONS
from termprobe.terminal.reference import Reference
from termprobe.yamlvalues import Template

SINGLE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")


def shown(profile, *parts):
    reference = Reference(profile)
    for part in parts:
        reference.feed(part)
    return reference.screen()


def with_edge(profile, name, edge):
    commands = tuple(
        dataclasses.replace(one, edge=edge) if one.name == name else one for one in profile.commands
    )
    return dataclasses.replace(profile, commands=commands)


def with_printing(profile, **fields):
    return dataclasses.replace(
        profile,
        display=dataclasses.replace(
            profile.display, printing=dataclasses.replace(profile.display.printing, **fields)
        ),
    )


def with_coordinates(coding, offset=0, first=0, template=("row", "column")):
    commands = tuple(
        dataclasses.replace(one, bytes=Template((b"\x1b=", *template)))
        if one.name == "address"
        else one
        for one in SINGLE.commands
    )
    return dataclasses.replace(
        SINGLE,
        commands=commands,
        coordinates=dataclasses.replace(
            SINGLE.coordinates, coding=coding, offset=offset, first=first
        ),
    )


def variants():
    """Profiles that differ in every edge and every coding of coordinates."""
    yield from (SINGLE, ECMA)
    for name, word in (
        ("left", "left"),
        ("right", "right"),
        ("up", "up"),
        ("down", "down"),
        ("address", "address"),
    ):
        yield from (with_edge(SINGLE, name, edge) for edge in VOCABULARY[word].edges)
    for last_column, last_row in itertools.product(
        ("next-row", "pending", "overwrite"), ("scroll", "wrap", "stay")
    ):
        yield with_printing(SINGLE, last_column=last_column, last_row=last_row)
    for coding in ("binary", "offset", "decimal", "bcd"):
        yield with_coordinates(
            coding, 0x20 if coding == "offset" else 0, 1, ("column", b";", "row", b"Y")
        )


VARIANTS = list(variants())


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(range(len(VARIANTS))), st.binary(max_size=300), st.data())
def test_any_bytes_in_any_pieces_give_the_same_screen_and_never_raise(number, data, draw):
    profile = VARIANTS[number]
    cuts = sorted(draw.draw(st.lists(st.integers(0, len(data)), max_size=8)))
    pieces = [data[start:end] for start, end in zip([0, *cuts], [*cuts, len(data)])]
    whole, cut = shown(profile, data), shown(profile, *pieces)
    assert whole == cut == shown(profile, *(bytes([code]) for code in data))
    assert all(len(row) == 80 for row in whole.rows) and len(whole.rows) == 24
    assert 0 <= whole.cursor[0] < 24 and 0 <= whole.cursor[1] < 80


SEQUENCE = st.lists(
    st.sampled_from(
        [
            b"\x1b",
            b"[",
            b"1",
            b"24",
            b";",
            b"?",
            b"H",
            b"J",
            b"m",
            b"L",
            b"P",
            b"@",
            b"999999999999",
            b"!",
            b":",
            b" ",
            b"\x18",
            b"\x1a",
            b"]",
            b"\a",
            b"\\",
            b"A",
            b"\r",
            b"\n",
            b"text",
            b"\t",
            b"c",
            b"n",
        ]
    ),
    max_size=40,
).map(b"".join)


@settings(max_examples=300, deadline=None)
@given(SEQUENCE, st.integers(0, 200))
def test_broken_sequences_give_the_same_screen_however_they_are_cut(data, cut):
    assert shown(ECMA, data) == shown(ECMA, data[:cut], data[cut:])


def test_each_action_of_the_vocabulary_is_made_and_no_other():
    assert set(ACTIONS) == set(VOCABULARY)


@pytest.mark.parametrize(
    "name, edge, start, cursor",
    [
        ("left", "stay", (5, 0), (5, 0)),
        ("left", "wrap", (5, 0), (5, 79)),
        ("left", "previous-row", (5, 0), (4, 79)),
        ("left", "previous-row", (0, 0), (0, 0)),
        ("right", "stay", (5, 79), (5, 79)),
        ("right", "wrap", (5, 79), (5, 0)),
        ("right", "next-row", (5, 79), (6, 0)),
        ("up", "stay", (0, 7), (0, 7)),
        ("up", "wrap", (0, 7), (23, 7)),
        ("up", "scroll", (0, 7), (0, 7)),
        ("down", "scroll", (23, 7), (23, 7)),
        ("down", "stay", (23, 7), (23, 7)),
        ("down", "wrap", (23, 7), (0, 7)),
    ],
)
def test_cursor_at_the_edges(name, edge, start, cursor):
    profile = with_edge(SINGLE, name, edge)
    address = encode(profile, "address", row=start[0], column=start[1])
    assert shown(profile, address, encode(profile, name)).cursor == cursor


@pytest.mark.parametrize(
    "name, edge, row",
    [("down", "scroll", 21), ("down", "stay", 22), ("up", "scroll", 22), ("up", "stay", 22)],
)
def test_only_scrolling_moves_what_is_shown(name, edge, row):
    profile = with_edge(SINGLE, name, edge)
    place = 23 if name == "down" else 0
    screen = shown(
        profile,
        encode(profile, "address", row=22, column=0),
        b"X",
        encode(profile, "address", row=place, column=0),
        encode(profile, name),
    )
    assert screen.rows[row if name == "down" else (23 if edge == "scroll" else 22)][0] == "X"


@pytest.mark.parametrize(
    "last_column, last_row, row_22, row_23, cursor",
    [
        ("next-row", "scroll", " AB", "", (23, 0)),
        ("next-row", "wrap", "", " AB", (0, 0)),
        ("pending", "scroll", "", " AB", (23, 79)),
        ("overwrite", "scroll", "", " AB", (23, 79)),
    ],
)
def test_the_last_cell(last_column, last_row, row_22, row_23, cursor):
    profile = with_printing(SINGLE, last_column=last_column, last_row=last_row)
    screen = shown(profile, encode(profile, "address", row=23, column=78), b"AB")
    assert (screen.rows[22].strip(), screen.rows[23].strip(), screen.cursor) == (
        row_22.strip(),
        row_23.strip(),
        cursor,
    )


def test_pending_wrap_waits_for_the_next_character_and_is_left_by_any_move():
    """Common practice of terminals that defer the wrap: the cursor stays in the last column until a character comes."""
    address = encode(ECMA, "address", row=5, column=79)
    assert shown(ECMA, address, b"A").cursor == (5, 79)
    assert shown(ECMA, address, b"AB").rows[6][0] == "B"
    assert shown(ECMA, address, b"A\bB").rows[5][78:] == "BA"
    assert shown(ECMA, address, b"A\x1b[5;80HB").rows[4][79] == "B"


@pytest.mark.parametrize(
    "data, cursor",
    [
        (b"\x1b[5;10H", (4, 9)),
        (b"\x1b[H", (0, 0)),
        (b"\x1b[;10H", (0, 9)),
        (b"\x1b[5H", (4, 0)),
        (b"\x1b[5;10f", (4, 9)),  # 8.3.21, 8.3.63
        (b"\x1b[5;10H\x1b[A", (3, 9)),
        (b"\x1b[5;10H\x1b[2B", (6, 9)),
        (b"\x1b[5;10H\x1b[3C", (4, 12)),
        (b"\x1b[5;10H\x1b[004D", (4, 5)),
        (b"\x1b[999;999H", (23, 79)),
        (b"\x1b[5;10H\x1bE", (5, 0)),
        (b"\x1b[5;10H\x1bM", (3, 9)),
        (b"\x1b[5;10H\x1bD", (5, 9)),  # 8.3.86, 8.3.104
        (b"\x1b[5;1\r0H", (4, 9)),
        (b"\x1b[5;\x1810H", (0, 3)),
        (b"\x1b[5\x1b[7;1H", (6, 0)),
    ],
)
def test_codings_of_ecma_48(data, cursor):
    """ECMA-48, 5th edition, 5.4 and the clauses named; a control character inside a sequence is common practice."""
    assert shown(ECMA, data).cursor == cursor


@pytest.mark.parametrize(
    "data, row",
    [
        (b"\x1b[K", "ABCD      "),
        (b"\x1b[0K", "ABCD      "),
        (b"\x1b[1K", "     FGHIJ"),
        (b"\x1b[2K", "          "),  # 8.3.41
        (b"\x1b[2@", "ABCD  EFGHIJ"),
        (b"\x1b[2P", "ABCDGHIJ"),  # 8.3.64, 8.3.26
    ],
)
def test_erase_insert_and_delete_in_a_line(data, row):
    assert shown(ECMA, b"ABCDEFGHIJ\x1b[1;5H" + data).rows[0].rstrip() == row.rstrip()


@pytest.mark.parametrize(
    "data, first_cells, cursor",
    [
        (b"\x1b[L", "A BC", (1, 0)),
        (b"\x1b[M", "AC", (1, 0)),
        (b"\x1b[J", "AB", (1, 1)),
        (b"\x1b[1J", "  C", (1, 1)),
        (b"\x1b[2J", "", (1, 1)),
    ],
)
def test_erase_insert_and_delete_lines(data, first_cells, cursor):
    """ECMA-48 8.3.39, 8.3.67 and 8.3.32: IL and DL go to the line home position, ED leaves the cursor."""
    screen = shown(ECMA, b"A\r\nB\r\nC\x1b[2;2H" + data)
    assert "".join(row[0] for row in screen.rows).rstrip() == first_cells
    assert screen.cursor == cursor


def test_renditions_are_kept_for_each_cell():
    """ECMA-48 8.3.117: 1 bold, 4 underlined, 5 blinking, 7 negative, 0 default."""
    screen = shown(ECMA, b"a\x1b[1mb\x1b[4;7mc\x1b[0;5md\x1b[me")
    assert screen.renditions == {(0, 1): "b", (0, 2): "bur", (0, 3): "k"}


def test_replies():
    """ECMA-48 8.3.35, 8.3.14 and 8.3.24."""
    assert shown(ECMA, b"\x1b[24;80H\x1b[6n").replies == b"\x1b[24;80R"
    assert shown(ECMA, b"\x1b[5n").replies == b"\x1b[0n"
    assert shown(ECMA, b"\x1b[c").replies == b"\x1b[?1;2c"


@pytest.mark.parametrize(
    "data",
    [
        b"\x1b[?5A",
        b"\x1b[!p",
        b"\x1b]0;title\a",
        b"\x1bPq\x1b\\",
        b"\x1b(B",
        b"\x1b[1;2;3;4J",
        b"\x1b[<1m",
        b"\x85",
        b"\x01\x05\x7f",
    ],
)
def test_what_the_profile_does_not_declare_leaves_no_trace(data):
    assert shown(ECMA, data + b"X").rows[0].rstrip() == "X"


@pytest.mark.parametrize(
    "profile, data",
    [
        (with_coordinates("offset", 0x20), b"\x1b=\x24\x29"),
        (with_coordinates("binary"), b"\x1b=\x04\x09"),
        (with_coordinates("bcd"), b"\x1b=\x04\x09"),
        (with_coordinates("offset", 0x20, template=("column", "row")), b"\x1b=\x29\x24"),
        (with_coordinates("decimal", template=("column", b"c", "row", b"Y")), b"\x1b=9c4Y"),
    ],
    ids=["offset", "binary", "bcd", "column first", "decimal text"],
)
def test_every_coding_of_coordinates(profile, data):
    """terminfo(5), parameterized strings: entries of the data base have each of these codings."""
    assert shown(profile, data).cursor == (4, 9)
    assert encode(profile, "address", row=4, column=9) == data


@pytest.mark.parametrize("edge, cursor", [("keep", (2, 9)), ("clamp", (23, 9))])
def test_a_coordinate_out_of_range(edge, cursor):
    assert shown(with_edge(SINGLE, "address", edge), b"\x1b=\x22\x25\x1b=\x7e\x29").cursor == cursor


def test_seven_data_bits_leave_the_eighth_out():
    assert shown(SINGLE, bytes([0x80 | ord("A")])).rows[0][0] == "A"


def test_what_means_nothing_is_counted():
    reference = Reference(SINGLE)
    reference.feed(b"\x01\x01\x05")
    assert reference.ignored == {b"\x01": 2, b"\x05": 1}


def generator_line(number):
    """Line `number` of the pattern of RFC 864, data syntax: 72 of the ring of 95 printing characters, then CR LF."""
    return bytes(0x20 + (number + place) % 95 for place in range(72)) + b"\r\n"


@pytest.mark.parametrize(
    "number, first, last",
    [
        (0, " ", "g"),
        (1, "!", "h"),
        (23, "7", "~"),
        (24, "8", " "),
        (71, "g", "O"),
        (93, "}", "e"),
        (94, "~", "f"),
        (95, " ", "g"),
    ],
)
def test_the_lines_of_rfc_864_are_made_right(number, first, last):
    """RFC 864, data syntax, taken in the order of ASCII from the space on."""
    line = generator_line(number).decode()
    assert (line[0], line[71], line[72:]) == (first, last, "\r\n")


@pytest.mark.parametrize("profile", [SINGLE, ECMA], ids=["singlebyte-24x80", "ecma48-24x80"])
@pytest.mark.parametrize("lines", [1, 23, 24, 95, 190])
def test_rows_of_rfc_864_stand_at_the_left_and_scroll(profile, lines):
    """RFC 864: 72 characters a line, so that of 80 columns the last 8 stay blank; the last line feed scrolls one line off."""
    screen = shown(profile, b"".join(generator_line(number) for number in range(lines)))
    kept = [
        generator_line(number)[:72].decode().ljust(80)
        for number in range(max(0, lines - 23), lines)
    ]
    assert list(screen.rows) == kept + [" " * 80] * (24 - len(kept))
    assert screen.cursor == (min(lines, 23), 0)


def test_the_generator_without_line_ends_fills_every_cell():
    """RFC 864's ring over all 1920 cells: 80 columns are no multiple of 95, so each row begins with another character."""
    data = bytes(0x20 + place % 95 for place in range(24 * 80))
    screen = shown(ECMA, data)
    assert "".join(screen.rows) == data.decode() and screen.cursor == (23, 79)
    assert shown(SINGLE, data).rows == (*screen.rows[1:], " " * 80)
