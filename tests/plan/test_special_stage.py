"""The stage of special functions, on simulated boards of an invented terminal that has them."""

import functools

import pytest

from helpers.scripts import ECMA, SINGLE, acceptance
from helpers.special import SHAPES, special, with_fields
from termprobe.board.board import Board
from termprobe.plan.model import Ask, LineCheck, Look, Reply, TypedBack
from termprobe.plan.show import show_step
from termprobe.profile.load import load
from termprobe.terminal.screen import differences

STAGE = "special"
OF_ANY_KEYBOARD = {
    "break-ready",
    "break-comes",
    "break-sent",
    "break-trace",
    "repeat-ready",
    "key-repeats",
    "local-ready",
    "local-keys",
}


FIELDS = {
    "graphics",
    "protected",
    "protected-erased",
    "unprotected",
    "printer-port",
    "printer-trace",
}
"""What no circuit is simulated of."""
CLICKS = {"click-on", "click-off"}


@functools.cache
def all_steps():
    return acceptance(special()).of_stage(STAGE)


def steps():
    return [step for step in all_steps() if not step.not_fitted]


def wrong_on(*faults):
    """Return the ids of the steps that a board with `faults` does not do as it must.

    All are sent in order, options set as each wants them; what is typed back is typed on it.
    """
    board, wrong = Board(special(), faults), []
    for step in steps():
        for option, position in step.settings:
            board.set_option(option, position)
        board.take_sent()
        board.receive(step.data)
        if isinstance(step, TypedBack):
            board.type(step.typed.decode())
        sent = b"".join(data for _, data in board.take_sent())
        if not is_right(step, board, sent):
            wrong.append(step.id)
    return wrong


def is_right(step, board, sent):
    match step:
        case Look() | Ask() if step.expected:
            screen = board.screen()
            is_same = not differences(step.expected.rows, screen.rows)
            return is_same and screen.cursor == step.expected.cursor
        case Reply():
            return step.allows(sent)
        case TypedBack():
            return sent == step.typed
        case LineCheck(check="nothing-comes"):
            return not sent
    return True


def test_all_that_the_terminal_has_is_fitted():
    assert {step.id for step in all_steps() if step.not_fitted} == FIELDS | CLICKS
    assert len([step for step in steps() if isinstance(step, Reply)]) == 6


def test_a_good_board_does_all_as_it_must():
    assert wrong_on() == []


def test_the_bytes_that_must_come_back():
    by_id = {step.id: step for step in steps()}
    assert by_id["answerback"].reply == b"CLUB 24\r"
    # address: column 9 and row 3, each with 30h added, after GS
    assert by_id["answerback-cursor"].reply == b"CLUB 24\r\x1d93\r"
    assert by_id["send-line"].reply == b"   THIS LINE ALONE\r"
    assert by_id["send-line-to-cursor"].reply == b"   TO HERE\r"
    middle = b"\r" * 4 + b"        MIDDLE" + b"\r" * 19
    assert by_id["send-screen"].reply == b"FIRST" + middle + b"LAST\x04"
    assert by_id["send-to-cursor"].reply == b"FIRST".ljust(40) + b"\r        TO HERE\x04"


@pytest.mark.parametrize(
    "fault, step_id",
    [
        ("decoder/dead/enquire", "answerback"),
        ("decoder/also-written/enquire", "answerback-cursor"),
        ("decoder/dead/send-line", "send-line"),
        ("decoder/acts-as/send-line-send-screen", "send-line"),
        ("transmitter-data/stuck/0/1", "answerback"),
        ("bank-0-data/stuck/0/0", "answerback-trace"),
        ("clear/bank-0-skipped", "send-screen"),
    ],
)
def test_a_fault_is_shown(fault, step_id):
    assert step_id in wrong_on(fault)


def test_what_dark_rows_keep_is_lost_where_the_whole_screen_is_cleared(monkeypatch):
    monkeypatch.setattr(Board, "_show_as", lambda board, option: None)
    wrong = wrong_on()
    assert {"rows-half", "rows-half-written", "rows-all-again"} <= set(wrong)
    assert "open-codes-german" in wrong and "open-codes-ascii" not in wrong


@pytest.mark.parametrize("profile", [SINGLE, ECMA], ids=lambda profile: profile.id)
def test_a_terminal_without_them_is_not_asked(profile):
    fitted = {step.id for step in acceptance(profile).of_stage(STAGE) if not step.not_fitted}
    if profile.command("report-cursor"):
        fitted.remove("report-trace")
    assert fitted <= OF_ANY_KEYBOARD


def rows_of(step):
    """Return the rows that are not blank, by their numbers."""
    rows = enumerate(step.expected.rows)
    return {number: row.rstrip() for number, row in rows if row.strip()}


@pytest.mark.parametrize("edge, row", [("skip", "    KEPTabEN"), ("stay", "    KEPTOPEN")])
def test_what_protected_cells_must_show(edge, row):
    plan = acceptance(with_fields(edge))
    assert rows_of(plan.step("protected")) == {1: row}
    assert rows_of(plan.step("protected-erased")) == {0: "    KEPT"}
    assert rows_of(plan.step("unprotected")) == {0: "NEWT"}


def test_what_the_graphics_set_the_printer_and_dim_must_show():
    plan = acceptance(with_fields())
    usual = "`abcdefghijklmnopqrstuvwxyz{|}~"
    shapes = SHAPES + usual[len(SHAPES) :]
    assert rows_of(plan.step("graphics")) == {0: shapes, 2: usual}
    assert rows_of(plan.step("printer-trace")) == {0: "BEFORE PRINTED BEHIND"}
    assert plan.step("dim").expected.renditions == {(0, 6): "d", (0, 7): "d", (0, 8): "d"}
    assert "dim: row 0, columns 6 to 8" in show_step(plan.step("dim"))
    assert not FIELDS & {step.id for step in plan.steps if step.not_fitted}


def test_keyclick_is_asked_of_a_terminal_with_that_switch():
    plan = acceptance(load("club-16x64"))
    assert [dict(plan.step(name).settings)["keyclick"] for name in ("click-on", "click-off")] == [
        "on",
        "off",
    ]
