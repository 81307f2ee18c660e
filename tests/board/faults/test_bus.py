"""Faults of buses and counters: their numbers, their titles, and what single ones do."""

import dataclasses

import pytest

from helpers.boards import PROFILE, at, faulty, rows_of, sent
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue, fault

CATALOGUE = catalogue(PROFILE)


def test_titles_bear_the_labels_that_the_profile_gives():
    circuit = dataclasses.replace(PROFILE.circuit, labels={"bank-1-data": ("Q7 pin 4", "Q7 pin 5")})
    labelled = dataclasses.replace(PROFILE, circuit=circuit)
    assert (
        fault(labelled, "bank-1-data/stuck/0/1").title
        == "data line 0 (Q7 pin 4) of RAM bank 1 is stuck at 1"
    )
    assert (
        fault(labelled, "bank-1-data/swapped/1-2").title
        == "data lines 1 (Q7 pin 5) and 2 of RAM bank 1 are swapped"
    )


@pytest.mark.parametrize(
    "bus, lines, count",
    [
        ("receiver-data", 7, 14 + 21 + 42),
        ("keyboard-code", 7, 77),
        ("ram-address", 11, 22 + 55 + 110),
        ("bank-1-address", 11, 187),
        ("bank-select", 1, 2),
        ("row-counter", 5, 10 + 2),
        ("column-counter", 7, 14 + 6),
    ],
)
def test_a_bus_of_n_lines_has_2n_stuck_n_over_2_swapped_and_twice_as_many_bridged(
    bus, lines, count
):
    names = [name for name in CATALOGUE if name.startswith(bus + "/")]
    assert len(names) == count
    assert sum("/stuck/" in name for name in names) == 2 * lines


def test_a_stuck_data_line_of_one_bank_shows_in_every_second_row_and_blanks_too():
    """A space (20h) with bit 0 at 1 is an exclamation mark (21h): builders see ! for blank."""
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


def cursor_after(fault_name, data):
    board = faulty(fault_name)
    board.receive(data)
    return board.screen().cursor


@pytest.mark.parametrize(
    "fault_name, start, sent_codes, cursor",
    [
        ("column-counter/carry-lost/4", (3, 15), b"\x0c", (3, 0)),
        ("column-counter/carry-lost/5", (3, 15), b"\x0c", (3, 16)),
        ("column-counter/carry-lost/5", (3, 31), b"\x0c", (3, 0)),
        ("column-counter/carry-lost/6", (3, 63), b"\x0c", (3, 0)),
        ("column-counter/borrow-lost/4", (3, 16), b"\b", (3, 31)),
        ("column-counter/borrow-lost/4", (3, 64), b"\b", (3, 79)),
        ("column-counter/borrow-lost/5", (3, 32), b"\b", (3, 63)),
        ("column-counter/borrow-lost/6", (3, 64), b"\b", (3, 127)),
        ("row-counter/carry-lost/4", (15, 3), b"\n", (0, 3)),
        ("row-counter/borrow-lost/4", (16, 3), b"\v", (31, 3)),
    ],
)
def test_a_count_whose_carry_or_borrow_is_lost_leaves_the_lines_above_as_they_were(
    fault_name, start, sent_codes, cursor
):
    """A counter of four bits says to the next when it goes over, by a line of its own."""
    assert cursor_after(fault_name, at(*start) + sent_codes) == cursor


def test_a_carry_is_lost_whatever_counts_and_a_borrow_only_where_it_counts_down():
    assert rows_of(faulty("column-counter/carry-lost/4"), b"ABCDEFGHIJKLMNOPQR")[0] == (
        "QRCDEFGHIJKLMNOP"
    )
    assert rows_of(faulty("row-counter/carry-lost/4"), at(15, 79) + b"AB")[0] == "B"
    assert rows_of(faulty("column-counter/borrow-lost/4"), b"A" * 20)[0] == "A" * 20


def test_a_column_counted_beyond_the_screen_is_stored_unseen_and_then_meets_the_margin():
    board = faulty("column-counter/borrow-lost/6")
    assert rows_of(board, at(3, 64) + b"\bAB")[3:5] == ["", "B"]
    board.receive(at(3, 64) + b"\b\x1a" + b"C")
    assert board.screen().rows[0].rstrip() == "C"


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


def test_several_faults_at_once():
    rows = rows_of(faulty("bank-0-data/stuck/0/1", "decoder/dead/return"), b"AB\rC")
    assert rows[0] == "ACC".ljust(80, "!")
    # the later one sits nearer the output
    board = faulty("decoder/acts-as/bell-return", "decoder/dead/return")
    assert rows_of(board, b"A\x07B\rC")[0] == "ABC"
    board = faulty("bank-0-data/stuck/0/1", "bank-0-data/swapped/0-1")
    assert rows_of(board, b"@")[0] == "B".ljust(80, '"')


def test_keys_pass_their_code_lines_and_the_transmitter():
    """Bit 3 at 1: 1 (31h) comes as 9 (39h), Q (51h) as Y (59h), a comma (2Ch) as it is."""
    for bus in ("keyboard-code", "transmitter-data"):
        board = faulty(f"{bus}/stuck/3/1")
        board.type("1Q,")
        assert sent(board) == b"9Y,"
        assert rows_of(board, b"1Q")[0] == "1Q"
