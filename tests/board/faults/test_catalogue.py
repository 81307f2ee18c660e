"""The faults of the simulated board: their names, and what single ones do, worked out by hand."""

import dataclasses
import re

import pytest

from helpers.boards import PROFILE, at, faulty, page, rows_of, sent
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import blocks, catalogue, fault
from termprobe.errors import UsageError

CATALOGUE = catalogue(PROFILE)
BUS_KINDS = "stuck|swapped|bridged"
FORMS = (
    rf"(receiver-data|bank-[01]-data|glyph-address|transmitter-data|keyboard-code)/({BUS_KINDS})/[0-6](-[0-6])?(/(0|1|low|high))?",
    rf"(ram|bank-0|bank-1)-address/({BUS_KINDS})/\d\d?(-\d\d?)?(/(0|1|low|high))?",
    r"bank-select/stuck/0/[01]",
    r"row-counter/stuck/[0-4]/[01]",
    r"column-counter/stuck/[0-6]/[01]",
    r"decoder/(dead|also-written)/[a-z]+",
    r"decoder/(acts-as|swapped)/[a-z]+-[a-z]+",
    r"(margin|scroll|clear|home)/[a-z0-9-]+",
    r"address/(offset/[+-]1|[a-z-]+)",
    r"echo-gate/stuck-(open|closed)",
    r"parity/(inverted|fixed/[01])",
    r"baud/ratio/[0-9.]+",
    r"key-matrix/.+",
)
"""WHERE/KIND/LINES[/VALUE], block by block."""


# -- names -------------------------------------------------------------------------------------------------------------


def test_every_name_has_the_form_of_its_block_and_every_fault_can_be_found_by_it():
    for name, found in CATALOGUE.items():
        assert any(re.fullmatch(form, name) for form in FORMS), name
        assert (found.name, found.block) == (name, name.split("/")[0])


@pytest.mark.parametrize("where", blocks())
def test_a_fault_is_found_by_name_as_the_catalogue_has_it(where):
    names = [name for name in CATALOGUE if name.startswith(where + "/")][:3]
    for name in names:
        assert (fault(PROFILE, name).name, fault(PROFILE, name).title) == (
            name,
            CATALOGUE[name].title,
        )


def test_titles_are_plain_words_and_each_stands_once():
    titles = [found.title for found in CATALOGUE.values()]
    assert len(set(titles)) == len(titles)
    assert CATALOGUE["bank-1-data/stuck/0/1"].title == "data line 0 of RAM bank 1 always reads 1"
    assert CATALOGUE["decoder/acts-as/bell-return"].title == "the command bell is taken for return"
    assert (
        CATALOGUE["ram-address/bridged/0-7/high"].title
        == "address lines 0 and 7 of both RAM banks touch, and high wins"
    )


def test_titles_bear_the_labels_that_the_profile_gives():
    circuit = dataclasses.replace(PROFILE.circuit, labels={"bank-1-data": ("Q7 pin 4", "Q7 pin 5")})
    labelled = dataclasses.replace(PROFILE, circuit=circuit)
    assert (
        fault(labelled, "bank-1-data/stuck/0/1").title
        == "data line 0 (Q7 pin 4) of RAM bank 1 always reads 1"
    )
    assert (
        fault(labelled, "bank-1-data/swapped/1-2").title
        == "data lines 1 (Q7 pin 5) and 2 of RAM bank 1 are exchanged"
    )


@pytest.mark.parametrize(
    "bus, lines, count",
    [
        ("receiver-data", 7, 14 + 21 + 42),
        ("keyboard-code", 7, 77),
        ("ram-address", 11, 22 + 55 + 110),
        ("bank-1-address", 11, 187),
        ("bank-select", 1, 2),
        ("row-counter", 5, 10),
        ("column-counter", 7, 14),
    ],
)
def test_a_bus_of_n_lines_has_2n_stuck_and_where_lines_can_touch_n_over_2_swapped_and_twice_as_many_bridged(
    bus, lines, count
):
    names = [name for name in CATALOGUE if name.startswith(bus + "/")]
    assert len(names) == count
    assert sum("/stuck/" in name for name in names) == 2 * lines


def test_the_catalogue_holds_only_what_the_profile_has():
    assert not any(name.startswith("handshake-gate") for name in CATALOGUE)
    link = dataclasses.replace(PROFILE.link, parity="none", handshake="rts-cts")
    circuit = dataclasses.replace(PROFILE.circuit, echo_option="")
    names = catalogue(dataclasses.replace(PROFILE, link=link, circuit=circuit))
    assert "handshake-gate/ignored" in names and "echo-gate/stuck-open" not in names
    assert not any(name.startswith("parity") for name in names)


@pytest.mark.parametrize(
    "name, words",
    [
        ("bank-1-data/stcuk/3/0", 'nearest is "bank-1-data/stuck/3/0"'),
        ("decoder/dead/claer", 'nearest is "decoder/dead/clear"'),
        ("nonsense\x1b", r'not "nonsense\\x1b"'),
        ("cell/stuck/24-0-0/1", "row 0 to 23"),
        ("cell/stuck/0-80-0/1", "column 0 to 79"),
        ("cell/stuck/0-0-7/1", "bit 0 to 6"),
        ("cell/stuck/0-0/1", "ROW-COLUMN-BIT"),
        ("baud/ratio/0", "from 0.01 to 100"),
        ("baud/ratio/x", "a number"),
        ("", 'not ""'),
    ],
)
def test_a_name_that_is_none_is_refused_with_what_it_must_be(name, words):
    with pytest.raises(UsageError, match=words):
        Board(PROFILE, [name])


# -- what single faults do, worked out by hand -------------------------------------------------------------------------


def test_a_stuck_data_line_of_one_bank_shows_in_every_second_row_and_blanks_too():
    """A space (20h) with bit 0 at 1 is an exclamation mark (21h): seen by builders as ! for blank."""
    rows = rows_of(faulty("bank-0-data/stuck/0/1"), b"HELLO\r\nHELLO")
    assert rows[0] == "IEMMO".ljust(80, "!")
    assert rows[1] == "HELLO"
    assert rows[2] == "!" * 80


def test_a_fault_of_a_bank_moves_with_the_scroll():
    board = faulty("bank-1-data/stuck/1/0")
    assert rows_of(board, b"\x1e" + b"bc\r\nbc")[:2] == ["bc", "`a"]
    assert rows_of(board, at(23, 0) + b"\n")[:1] == ["`a"]


def test_a_stuck_receiver_line_changes_commands_as_well_as_characters():
    """B (42h) with bit 0 at 1 is C, and 0Ah (down) is 0Bh (up)."""
    board = Board(PROFILE, ["receiver-data/stuck/0/1"])
    board.receive(b"\x1b=" + bytes([0x25, 0x21]) + b"B\n")
    assert board.screen().cursor == (4, 2)
    assert board.screen().rows[5][1] == "C"


def test_a_dead_decoder_line_leaves_the_coordinates_to_be_printed():
    assert rows_of(faulty("decoder/dead/address"), b"A\x1b=%0B")[0] == "A%0B"
    assert rows_of(faulty("decoder/dead/down"), b"A\nB")[0] == "AB"


def test_a_command_taken_for_another_one():
    board = faulty("decoder/acts-as/bell-return")
    assert rows_of(board, b"AB\x07C")[0] == "CB"
    assert board.screen().bells == 0
    assert rows_of(faulty("decoder/acts-as/bell-address"), b"A\x07!#B")[:2] == ["A", "   B"]
    swapped = faulty("decoder/swapped/left-down")
    assert rows_of(swapped, b"A\x08B\nC")[:2] == ["A", " C"]


def test_a_command_that_is_written_as_well():
    board = faulty("decoder/also-written/bell")
    assert rows_of(board, b"A\x07B")[0] == "A\u2407B"
    assert board.screen().bells == 1


def test_no_scroll():
    rows = rows_of(faulty("scroll/dead"), at(23, 0) + b"A\nB")
    assert (rows[22], rows[23]) == ("", "AB")
    rows = rows_of(faulty("scroll/line-not-cleared"), b"top" + at(23, 0) + b"A\r\nB")
    assert (rows[22], rows[23]) == ("A", "Bop")


def test_a_stuck_column_counter_output_writes_and_shows_the_cursor_elsewhere():
    board = faulty("column-counter/stuck/1/0")
    rows = rows_of(board, b"ABCDEFGH")
    assert rows[0] == "CD  GH"  # 0 1 0 1 4 5 4 5
    assert board.screen().cursor == (0, 8)
    board.receive(at(3, 2))
    assert board.screen().cursor == (3, 0)


def test_a_column_beyond_the_screen_is_stored_where_nobody_looks():
    board = faulty("column-counter/stuck/6/1")  # 15 becomes 79, 16 becomes 80
    assert rows_of(board, at(0, 15) + b"AB")[0] == "A".rjust(80)
    assert board.screen().cursor == (0, 64 + 17)


def test_a_stuck_row_counter_output():
    assert rows_of(faulty("row-counter/stuck/0/0"), b"A\nB")[:2] == ["AB", ""]


def test_a_stuck_shared_address_line_shows_each_cell_twice():
    rows = rows_of(faulty("ram-address/stuck/0/0"), b"ABCD")
    assert rows[0] == "BBDD"
    assert rows_of(faulty("ram-address/stuck/0/1"), b"ABCD")[0] == rows[0]
    rows = rows_of(faulty("ram-address/stuck/7/1"), at(4, 0) + b"4" + at(6, 0) + b"6")
    assert rows[4:7] == ["6", "", "6"]
    rows = rows_of(
        faulty("bank-1-address/stuck/7/1"), at(4, 0) + b"4" + at(6, 0) + b"6" + at(5, 0) + b"5"
    )
    assert rows[4:8] == ["4", "5", "6", "5"]


def test_a_stuck_bank_select_shows_each_row_twice():
    for level in "01":
        assert rows_of(faulty(f"bank-select/stuck/0/{level}"), b"even\r\nodd")[:3] == [
            "oddn",
            "oddn",
            "",
        ]


def test_clear_that_skips_a_bank_leaves_every_second_row():
    board = faulty("clear/bank-1-skipped")
    board.receive(page(lambda row, column: 0x58))
    assert rows_of(board, b"\x1a")[:3] == ["", "X" * 80, ""]


def test_parts_of_clear_home_address_and_margin():
    assert faulty("clear/no-home").screen().cursor != (0, 0)
    for name, cursor in (("home/row-kept", (5, 0)), ("home/column-kept", (0, 9))):
        board = faulty(name)
        board.receive(at(5, 9) + b"\x1e")
        assert board.screen().cursor == cursor
    for name, cursor in (
        ("address/row-ignored", (0, 9)),
        ("address/column-ignored", (5, 0)),
        ("address/exchanged", (9, 5)),
        ("address/offset/+1", (6, 10)),
        ("address/offset/-1", (4, 8)),
    ):
        board = faulty(name)
        board.receive(at(5, 9))
        assert board.screen().cursor == cursor, name
    for name, cursor in (
        ("margin/no-wrap", (0, 79)),
        ("margin/column-kept", (1, 79)),
        ("margin/row-kept", (0, 0)),
    ):
        board = faulty(name)
        board.receive(b"x" * 80)
        assert board.screen().cursor == cursor, name


def test_one_stuck_bit_of_one_cell_stays_in_its_place_in_the_ram():
    board = faulty("cell/stuck/12-40-3/1")
    assert rows_of(board, b"")[12] == " " * 40 + "("  # 20h with bit 3
    assert rows_of(board, at(12, 40) + b"0")[12].strip() == "8"
    assert rows_of(board, at(23, 0) + b"\n")[11].strip() == "8"
    rows = rows_of(board, b"\x1a")
    assert (rows[12], {*rows}) == (" " * 40 + "(", {"", rows[12]})
    both = faulty("cell/stuck/12-40-3/1", "cell/stuck/12-40-5/0")
    assert both.screen().rows[12][40] == "\u2408"


def test_several_faults_at_once():
    rows = rows_of(faulty("bank-0-data/stuck/0/1", "decoder/dead/return"), b"AB\rC")
    assert rows[0] == "ACC".ljust(80, "!")
    board = faulty(
        "decoder/acts-as/bell-return", "decoder/dead/return"
    )  # the later one sits nearer the output
    assert rows_of(board, b"A\x07B\rC")[0] == "ABC"
    board = faulty("bank-0-data/stuck/0/1", "bank-0-data/swapped/0-1")
    assert rows_of(board, b"@")[0] == "B".ljust(80, '"')


def test_keys_pass_their_code_lines_and_the_transmitter():
    """Bit 3 of the keyboard code at 1: 1 (31h) comes as 9 (39h), Q (51h) as Y (59h), a comma (2Ch) as it is."""
    for bus in ("keyboard-code", "transmitter-data"):
        board = faulty(f"{bus}/stuck/3/1")
        board.type("1Q,")
        assert sent(board) == b"9Y,"
        assert rows_of(board, b"1Q")[0] == "1Q"


def test_the_echo_gate():
    board = faulty("echo-gate/stuck-closed")
    board.type("A")
    assert board.screen().rows[0].strip() == "A"
    board = faulty("echo-gate/stuck-open")
    board.set_option("duplex", "half")
    board.type("A")
    assert board.screen().rows[0].strip() == ""
    assert sent(board) == b"A"
