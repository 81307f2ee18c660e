"""The healthy wiring, and the profiles for which there is none."""

import dataclasses

import pytest

from helpers.boards import PROFILE, changed, more
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.wiring import BANK_CELLS, BUSES, Wiring, bank_cells, cell_of, wire
from termprobe.errors import UsageError
from termprobe.profile.load import load
from termprobe.profile.model import Coordinates

ECMA48 = load("ecma48-24x80")


@pytest.mark.parametrize(
    "profile, words",
    [
        (ECMA48, "section circuit and grammar codes"),
        (dataclasses.replace(PROFILE, circuit=None), "section circuit"),
        (
            dataclasses.replace(PROFILE, circuit=dataclasses.replace(PROFILE.circuit, banks=4)),
            "2 RAM banks, not 4",
        ),
        (changed(PROFILE, display={"columns": 132}), "128 columns, not 24 and 132"),
        (changed(PROFILE, coordinates=Coordinates("decimal")), "not decimal"),
        (changed(PROFILE, last=0xFE), "above 7Fh"),
        (
            changed(PROFILE, commands=(more("insert-line", (b"\x1bE",), "insert-line", "stay"),)),
            "insert-line",
        ),
        (
            changed(PROFILE, commands=(more("far", (b"\x1b[", "count", b"B"), "down", "stay"),)),
            "far",
        ),
    ],
)
def test_profiles_that_no_such_circuit_can_serve_are_refused(profile, words):
    with pytest.raises(UsageError, match=words):
        Board(profile)


def test_a_healthy_bus_maps_every_value_to_itself():
    wiring = wire(PROFILE)
    for where, bus in BUSES.items():
        assert (bus.where, wiring.buses[where]) == (where, tuple(range(1 << bus.lines)))


def test_a_healthy_decoder_obeys_every_command():
    wiring = wire(PROFILE)
    assert wiring.decoder == {name: name for name in wiring.decoder}
    assert set(wiring.decoder) == {command.name for command in PROFILE.commands}


def test_two_wirings_share_nothing_that_a_fault_edits():
    first, second = Wiring(), Wiring()
    catalogue(PROFILE)["bank-select/stuck/0/1"].apply(first)
    catalogue(PROFILE)["key-matrix/row-open/3"].apply(first)
    assert first != second == Wiring()


def test_every_cell_of_the_screen_is_a_cell_of_its_own_in_the_banks():
    cells = {cell_of(row & 1, row, column) for row in range(24) for column in range(80)}
    assert len(cells) == 24 * 80 and max(cells) < 2 * BANK_CELLS
    healthy = Wiring().buses
    for bank in (0, 1):
        own = range(bank * BANK_CELLS, (bank + 1) * BANK_CELLS)
        assert bank_cells(bank, healthy["ram-address"], healthy[f"bank-{bank}-address"]) == list(
            own
        )


def test_what_leaves_a_bus_is_led_through_one_change_after_another():
    wiring = Wiring()
    up = tuple((value + 1) % 128 for value in range(128))
    wiring.lead_through("receiver-data", up)
    assert wiring.buses["receiver-data"] == up
    wiring.lead_through("receiver-data", tuple(value & ~1 for value in range(128)))
    assert wiring.buses["receiver-data"][:3] == (0, 2, 2)
    assert Wiring().buses["receiver-data"] == tuple(range(128))
