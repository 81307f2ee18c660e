"""Which cells the lines of a board open, by formulas."""

from hypothesis import given
from hypothesis import strategies as st

from helpers.scripts import SINGLE
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.memory_map import opened_banks
from termprobe.board.wiring import BANK_CELLS, Wiring, cell_of, wire

ROWS, COLUMNS = SINGLE.display.rows, SINGLE.display.columns
CELLS = list(range(2 * BANK_CELLS))
ADDRESSES = sorted(name for name in catalogue(SINGLE) if "address/" in name)


def opened(wiring):
    return opened_banks(wiring, ROWS, COLUMNS)


def test_a_good_board_opens_a_cell_of_its_own_for_each_row_and_column():
    banks = opened(Wiring())
    rows = {row: at for bank in banks.values() for row, at in bank.rows.items()}
    assert sorted(rows) == list(range(ROWS))
    for row, at in rows.items():
        assert at.shown == [cell_of(row & 1, row, column) for column in range(COLUMNS)]
        assert at.is_shown_in_order and at.is_written_in_order
        assert list(at.read(CELLS)) == at.shown == at.written[:COLUMNS]


def test_where_the_select_line_is_stuck_one_bank_opens_all_rows():
    wiring = wire(SINGLE)
    catalogue(SINGLE)["bank-select/stuck/0/1"].apply(wiring)
    (bank,) = opened(wiring)
    assert bank == 1 and sorted(opened(wiring)[1].rows) == list(range(ROWS))


@given(st.sampled_from(ADDRESSES))
def test_each_row_reads_what_it_says_and_no_cell_that_is_never_reached(name):
    wiring = wire(SINGLE)
    catalogue(SINGLE)[name].apply(wiring)
    for number, bank in opened(wiring).items():
        for at in bank.rows.values():
            assert list(at.read(CELLS)) == at.shown
            assert all(bank.reached[cell - number * BANK_CELLS] for cell in at.shown)
            assert at.is_shown_in_order == (at.shown == list(range(at.shown[0], at.shown[-1] + 1)))


def test_a_stuck_line_halves_the_cells_that_are_reached():
    wiring = wire(SINGLE)
    catalogue(SINGLE)["bank-0-address/stuck/4/0"].apply(wiring)
    banks = opened(wiring)
    assert sum(banks[0].reached) == BANK_CELLS // 2 and sum(banks[1].reached) == BANK_CELLS
    assert banks[1] is opened(Wiring())[1], "boards share a bank that is wired alike"
