"""Boards that are wrong in a small way: each fails a look of the acceptance script by characters.

A sound one passes them all. Here wrong boards are made that no fault of the catalogue describes;
test_acceptance.py has those of the catalogue.
"""

import dataclasses
import re

import pytest

from helpers.boards import changed, more
from helpers.scripts import ECMA, SINGLE, acceptance
from helpers.wrong_boards import (
    EFFECTS,
    ReferenceBoard,
    failed_looks,
    fails,
    losing,
    obeying,
    wrong_action,
    wrong_function,
    wrong_loading,
)
from termprobe.board.board import Board
from termprobe.board.functions import FUNCTIONS
from termprobe.terminal.actions import ACTIONS
from termprobe.terminal.decoded import Ignored
from termprobe.terminal.decoder import Decoder

PLAN, ECMA_PLAN = acceptance(), acceptance(ECMA)
CODES = PLAN.step("undeclared-codes")
UNDECLARED = [
    code for code in range(128) if Decoder(SINGLE).feed(bytes([code])) == [Ignored(bytes([code]))]
]
NOT_SEEN = {}
"""(code, effect) of the wrong boards that the look passes: why they cannot be seen."""


@pytest.mark.parametrize("board, plan", [(Board(SINGLE), PLAN), (ReferenceBoard(ECMA), ECMA_PLAN)])
def test_a_sound_board_passes_every_look_and_again_when_all_is_sent_once_more(board, plan):
    assert [failed_looks(board, plan) for _ in range(2)] == [[], []]


def test_one_look_shows_every_undeclared_code_that_has_an_effect():
    """24 codes by 8 effects. Nothing but these codes stands between two letters of the look."""
    assert len(UNDECLARED) == 24 and len(CODES.data) == 169
    boards = [(code, effect) for code in UNDECLARED for effect in EFFECTS]
    passed = {
        (code, effect) for code, effect in boards if not fails(obeying(SINGLE, code, effect), CODES)
    }
    assert passed == set(NOT_SEEN)
    assert len(boards) - len(passed) == 192


def test_rub_out_that_is_stored_as_a_blank_is_seen():
    told = changed(SINGLE, commands=[more("rub-out", (b"\x7f",), "ignore")])
    with wrong_function("ignore", lambda counters, command, codes: counters.store(b" ")):
        assert failed_looks(Board(told), PLAN) == ["chart-and-codes", "undeclared-codes"]


@pytest.mark.parametrize("shown", [b"\x07", b" "])
def test_a_bell_that_is_written_over_the_cell_of_the_cursor_is_seen(shown):
    """Where a character follows, it covers the mark."""

    def bell(counters, command, codes):
        counters.bells += 1
        counters.memory.write(counters.row, counters.column, shown)

    with wrong_function("bell", bell):
        assert "moves" in failed_looks(Board(SINGLE), PLAN)


def test_a_lead_in_that_takes_any_code_behind_it_is_seen():
    address = SINGLE.command("address")
    codings = tuple(
        dataclasses.replace(more("x", (bytes([0x1B, code]), "row", "column"), "address")).bytes
        for code in range(128)
    )
    loose = dataclasses.replace(address, also=codings)
    others = tuple(command for command in SINGLE.commands if command.name != "address")
    told = dataclasses.replace(SINGLE, commands=(*others, loose))
    assert "broken-sequence" in failed_looks(Board(told), PLAN)


def accepting(wrong):
    """Return what loads coordinates off the screen that are among `wrong`, as they are."""
    return lambda value, last: value if value in wrong and value > last else None


@pytest.mark.parametrize(
    "wrong",
    [{24}, {80}, range(24, 28), range(80, 96), *({row} for row in range(25, 32))],
    ids=str,
)
def test_a_row_or_column_beyond_the_last_that_is_taken_is_seen(wrong):
    with wrong_loading(accepting(wrong)):
        assert "edges-without-scroll" in failed_looks(Board(SINGLE), PLAN)


@pytest.mark.parametrize("values", [32, 64, 128])
def test_a_code_below_the_first_coordinate_that_is_taken_is_seen(values):
    """So many values the counter has: the subtraction goes round."""

    def loaded(value, last):
        if value >= 0:
            return None
        return min(value % values, 31 if last == 23 else 127)

    with wrong_loading(loaded):
        assert "edges-without-scroll" in failed_looks(Board(SINGLE), PLAN)


@pytest.mark.parametrize("row", range(24))
@pytest.mark.parametrize("rows_up", [0, 1])
def test_left_at_column_0_that_wraps_in_one_row_is_seen(row, rows_up):
    """To the end of the same row, or of the row above."""
    sound = FUNCTIONS["left"]

    def left(counters, command, codes):
        if counters.cursor == (row, 0):
            counters.row, counters.column = (row - rows_up) % 24, counters.last_column
        else:
            sound(counters, command, codes)

    with wrong_function("left", left):
        assert "edges-without-scroll" in failed_looks(Board(SINGLE), PLAN)


@pytest.mark.parametrize(
    "action, line",
    [
        *(("left", line) for line in (4, 5, 6)),
        *(("right", line) for line in (4, 5, 6)),
        ("up", 4),
        ("down", 4),
    ],
)
def test_one_command_that_loses_a_carry_or_borrow_is_seen(action, line):
    """Though all that is written counts on as it should."""
    sound = FUNCTIONS[action]

    def lossy(counters, command, codes):
        kept = counters._rows, counters._columns
        counters._rows, counters._columns = (losing(counting, line) for counting in kept)
        sound(counters, command, codes)
        counters._rows, counters._columns = kept

    with wrong_function(action, lossy):
        assert "moves" in failed_looks(Board(SINGLE), PLAN)


SHORT_FORMS = {
    "J": rb"\x1b\[J",
    "K": rb"\x1b\[K",
    "g": rb"\x1b\[g",
    "A": rb"\x1b\[A",
    "B": rb"\x1b\[B",
    "C": rb"\x1b\[C",
    "D": rb"\x1b\[D",
    "row alone": rb"\x1b\[[0-9]+H",
}


@pytest.mark.parametrize("form", SHORT_FORMS)
def test_a_command_that_is_not_obeyed_without_its_parameter_is_seen(form):
    board = ReferenceBoard(ECMA, lambda data: re.sub(SHORT_FORMS[form], b"", data))
    assert failed_looks(board, ECMA_PLAN)


def test_the_forms_of_a_rendition_and_of_a_reply_without_a_parameter_are_sent_too():
    sent = {step.id: step.data for step in ECMA_PLAN.steps}
    assert b"\x1b[m" in sent["underline"] and b"\x1b[0m PLAIN" in sent["bold"]
    assert sent["identify-short"].endswith(b"\x1b[c")
    assert ECMA_PLAN.step("identify-short").reply == ECMA_PLAN.step("identify").reply


@pytest.mark.parametrize("action", ["up", "down", "left", "right"])
def test_a_count_beyond_the_margin_that_wraps_is_seen(action):
    """Though a single step at the margin stays, as it should."""
    sound = ACTIONS[action]

    def wrong(screen, decoded, profile):
        if decoded.count > 1:
            wrapping = dataclasses.replace(decoded.command, edge="wrap")
            decoded = dataclasses.replace(decoded, command=wrapping)
        sound(screen, decoded, profile)

    with wrong_action(action, wrong):
        assert failed_looks(ReferenceBoard(ECMA), ECMA_PLAN)


@pytest.mark.parametrize("command", ["insert-line", "delete-line"])
def test_inserting_and_deleting_rows_that_keep_the_column_is_seen(command):
    board = ReferenceBoard(changed(ECMA, edges={command: "stay"}))
    assert failed_looks(board, ECMA_PLAN) == [command]


def test_half_duplex_is_tried_where_the_terminal_has_it():
    """Eyes answer; a board whose echo gate is stuck open shows nothing then."""
    asked = PLAN.step("half-duplex")
    assert asked.kind == "ask" and ("duplex", "half") in asked.settings
    assert ECMA_PLAN.step("half-duplex").not_fitted
    seen = []
    for faults in ([], ["echo-gate/stuck-open"]):
        board = Board(SINGLE, faults)
        board.receive(b"\x1a")
        board.set_option("duplex", "half")
        board.type("AB")
        seen.append(board.screen().rows[0].rstrip())
    assert seen == ["AB", ""]
