"""The acceptance script tries all that a profile declares.

Its looks show every display fault that can be seen at all.
"""

import dataclasses
import itertools

import pytest

from helpers.scripts import SINGLE as PROFILE
from helpers.scripts import acceptance
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.journal.records import AS_EXPECTED, RETURNED, Answer, Answered
from termprobe.plan.effort import effort
from termprobe.plan.model import Look
from termprobe.profile.load import load as load_profile
from termprobe.terminal.screen import differences
from termprobe.verdict.judge import judge

PLAN = acceptance()
FITTED = {step.id for step in PLAN.steps if not step.not_fitted}
LOOKS = [
    step
    for step in PLAN.steps
    if isinstance(step, Look) and step.id in FITTED and not step.is_covered(FITTED)
]
"""The looks that are asked on a good board; the others are spared by looks that show the same."""
ELSEWHERE = (
    "keyboard-code",
    "transmitter-data",
    "key-matrix",
    "parity",
    "baud",
    "echo-gate",
    "handshake-gate",
)
"""Blocks that the display has no part in: the keyboard walk and the line tests look at those."""
INVISIBLE = {"decoder/also-written/clear"}
"""The code is stored and then blanked by the very function that it calls."""


def display_faults():
    for name in catalogue(PROFILE):
        where, kind = name.split("/")[:2]
        is_hidden = name in INVISIBLE or is_swapped_address(where, kind)
        if where not in ELSEWHERE and not is_hidden:
            yield name


def is_swapped_address(where, kind):
    """Tell lines of a RAM's own address bus exchanged: writing and reading go through them alike.

    See also the interconnect tests of the board.
    """
    return where.endswith("-address") and where != "glyph-address" and kind == "swapped"


def looks_that_show(name):
    """Yield the looks on which the fault is seen: cells, cursor, or the bell."""
    board = Board(PROFILE, [name])
    for step in LOOKS:
        bells = board.screen().bells
        board.receive(step.data)
        screen, expected = board.screen(), step.expected
        cursor_and_bells = screen.cursor, screen.bells - bells
        is_same = cursor_and_bells == (expected.cursor, expected.bells)
        if not is_same or differences(expected.rows, screen.rows):
            yield step.id


def test_every_display_fault_that_can_be_seen_is_shown_by_two_looks():
    faults = list(display_faults())
    seldom = {}
    for name in faults:
        looks = looks_that_show(name)
        found = [look for look in (next(looks, None), next(looks, None)) if look]
        if len(found) < 2:
            seldom[name] = found
    assert len(faults) > 800
    assert not seldom


def test_a_healthy_board_passes_every_look():
    board = Board(PROFILE)
    for step in LOOKS:
        board.receive(step.data)
        assert not differences(step.expected.rows, board.screen().rows), step.id


def without(name):
    return dataclasses.replace(
        PROFILE, commands=tuple(command for command in PROFILE.commands if command.name != name)
    )


def with_display(**fields):
    return dataclasses.replace(PROFILE, display=dataclasses.replace(PROFILE.display, **fields))


def with_margins(last_column, last_row):
    return with_display(
        printing=dataclasses.replace(
            PROFILE.display.printing, last_column=last_column, last_row=last_row
        )
    )


@pytest.mark.parametrize(
    "profile, looks, asked",
    [
        (with_margins("pending", "wrap"), 35, 20),
        (with_margins("overwrite", "scroll"), 35, 20),
        (with_margins("next-row", "stay"), 35, 20),
        (with_display(rows=16, columns=64), 35, 20),
        (without("down"), 21, 20),
        (without("address"), 21, 19),
        (without("bell"), 31, 27),
    ],
    ids=["pending", "overwrite", "stay", "16x64", "no-down", "no-address", "no-bell"],
)
def test_one_script_serves_boards_of_other_margins_sizes_and_commands(profile, looks, asked):
    """Screen and circuit are modelled apart from one another.

    That they agree is evidence for both.
    """
    board, seen, plan = Board(profile), 0, acceptance(profile)
    for step in plan.steps:
        board.receive(step.data)
        if isinstance(step, Look) and not step.not_fitted:
            seen += 1
            assert not differences(step.expected.rows, board.screen().rows), step.id
            assert board.screen().cursor == step.expected.cursor, step.id
    assert (seen, effort(plan.steps, 0.001).looks) == (looks, asked)


def test_what_covers_a_look_sends_every_command_that_it_sends():
    """So that what is spared on a good board has been tried all the same."""

    def commands(step):
        return {group.label.split(" ")[0] for group in step.groups}

    covered = [(step, PLAN.step(by)) for step in PLAN.steps for by in step.covering(FITTED)]
    covered = [(step, by) for step, by in covered if step.id in FITTED]
    assert len(covered) == 15
    for step, by in covered:
        is_known = step.id == "address-modulo-scrolled"
        assert commands(step) <= commands(by) or is_known, (step.id, by.id)


@pytest.mark.parametrize(
    "fault, failed",
    [
        ("decoder/dead/left", "moves"),
        ("decoder/dead/clear", "moves"),
        ("decoder/dead/address", "places"),
    ],
)
def test_where_a_look_at_many_things_fails_each_is_asked_by_itself(fault, failed):
    board, records = Board(PROFILE, [fault]), []
    for step in LOOKS:
        board.receive(step.data)
        seen = tuple(board.screen().rows)
        records.append(Answered(step.id, Answer(AS_EXPECTED, seen=seen, strength=RETURNED)))
    verdicts = {verdict.id: verdict for verdict in judge(PLAN, records).steps}
    assert verdicts[failed].verdict == "fail"
    for step in PLAN.steps:
        if isinstance(step, Look) and step.covered_by == (failed,):
            assert verdicts[step.id].verdict == "unanswered", step.id


def test_a_place_that_the_coding_cannot_say_is_not_fitted():
    """An offset of 20h leaves seven data bits 96 columns."""
    step = acceptance(with_display(columns=132)).step("places")
    assert step.not_fitted.startswith(
        "profile singlebyte-24x80 cannot say it: column must fit in 7 data bits, not be 131"
    )


@pytest.mark.parametrize("profile_id", ["singlebyte-24x80", "ecma48-24x80"])
def test_every_command_of_a_profile_is_sent_by_a_step(profile_id):
    profile = load_profile(profile_id)
    plan = acceptance(profile)
    labels = {group.label.split(" ")[0] for step in plan.steps for group in step.groups}
    assert {str(command.name) for command in profile.commands} <= labels


def test_the_stages_follow_the_order_of_bring_up():
    stages = [stage.id for stage in PLAN.stages]
    assert stages[:9] == [
        "unpowered",
        "rails",
        "supply",
        "clock",
        "sync",
        "alone",
        "cable",
        "link",
        "characters",
    ]


@pytest.mark.parametrize("cell", ["0-0", "0-79", "12-40", "23-0", "23-79"])
def test_each_bit_of_a_cell_is_shown_by_two_looks_the_last_cell_included(cell):
    """Filling the last cell scrolls, so that it can be seen two rows higher only."""
    for bit, value in itertools.product(range(7), (0, 1)):
        found = list(itertools.islice(looks_that_show(f"cell/stuck/{cell}-{bit}/{value}"), 2))
        assert len(found) == 2, (bit, value, found)


def test_what_a_good_board_costs_its_builder():
    """At 9600 baud; the looking is an estimate.

    Every look more is asked of every builder for every board.
    """
    cost = effort(LOOKS, 10 / 9600)
    assert cost.looks == 20 and cost.sending_s < 28 and cost.looking_s < 68


def test_all_codes_are_sent_in_order_and_the_printing_ones_stay():
    """RFC 20 section 2: columns 0 and 1 control, SP to ~ print, DEL is no graphic."""
    step = PLAN.step("codes-in-order")
    assert b"".join(group.data for group in step.groups[1:]) == bytes(range(128))
    assert "".join(step.expected.rows).rstrip() == bytes(range(0x20, 0x7F)).decode()


def test_the_word_typed_back_is_one_that_tells_every_line_fault_apart():
    """That it does is proven in diagnosis/test_cover.py, over all faults of a seven-line bus."""
    assert PLAN.step("typed-bits").word == "#.4FY"
