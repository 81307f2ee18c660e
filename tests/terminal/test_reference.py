"""The reference screen: edges and codings as the profile says, however the bytes are cut."""

import dataclasses
import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from termprobe.profile.encode import encode
from termprobe.profile.load import load
from termprobe.profile.vocabulary import VOCABULARY
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


@examples(300)
@given(st.sampled_from(range(len(VARIANTS))), st.binary(max_size=300), st.data())
def test_any_bytes_in_any_pieces_give_the_same_screen_and_never_raise(number, data, draw):
    profile = VARIANTS[number]
    cuts = sorted(draw.draw(st.lists(st.integers(0, len(data)), max_size=8)))
    pieces = [data[start:end] for start, end in zip([0, *cuts], [*cuts, len(data)], strict=True)]
    whole, cut = shown(profile, data), shown(profile, *pieces)
    assert whole == cut == shown(profile, *(bytes([code]) for code in data))
    assert all(len(row) == 80 for row in whole.rows) and len(whole.rows) == 24
    assert 0 <= whole.cursor[0] < 24 and 0 <= whole.cursor[1] < 80


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
    edge_row = {"down": 23, "up": 0}[name]
    screen = shown(
        profile,
        encode(profile, "address", row=22, column=0),
        b"X",
        encode(profile, "address", row=edge_row, column=0),
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


def test_numbers_of_several_digits_count_in_tens():
    profile = with_coordinates("decimal", template=("column", b"c", "row", b"Y"))
    assert shown(profile, b"\x1b=65c23Y").cursor == (23, 65)


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
    """Line `number` of RFC 864, data syntax: 72 of the ring of 95 printing characters, CR LF."""
    return bytes(0x20 + (number + index) % 95 for index in range(72)) + b"\r\n"


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
    """RFC 864: 72 characters a line, so that of 80 columns the last 8 stay blank.

    The last line feed scrolls one line off.
    """
    screen = shown(profile, b"".join(generator_line(number) for number in range(lines)))
    kept = [
        generator_line(number)[:72].decode().ljust(80)
        for number in range(max(0, lines - 23), lines)
    ]
    assert list(screen.rows) == kept + [" " * 80] * (24 - len(kept))
    assert screen.cursor == (min(lines, 23), 0)


def test_the_generator_without_line_ends_fills_every_cell():
    """RFC 864's ring over all 1920 cells.

    80 columns are no multiple of 95, so each row begins with another character.
    """
    data = bytes(0x20 + index % 95 for index in range(24 * 80))
    screen = shown(ECMA, data)
    assert "".join(screen.rows) == data.decode() and screen.cursor == (23, 79)
    assert shown(SINGLE, data).rows == (*screen.rows[1:], " " * 80)
