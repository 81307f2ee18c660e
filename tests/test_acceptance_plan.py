"""The acceptance script tries all that a profile declares, and its looks show every display fault that can be seen at all."""

import pytest

from termprobe.board.board import Board
from termprobe.board.faults import catalogue
from termprobe.plan.compile import compile_plan
from termprobe.plan.show import estimate
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script
from termprobe.terminal.picture import differences

PROFILE = load_profile("singlebyte-24x80")
PLAN = compile_plan(PROFILE, load_script("acceptance"))
LOOKS = [step for step in PLAN.steps if step.kind == "look" and not step.not_fitted]
ELSEWHERE = ("keyboard-code", "transmitter-data", "key-matrix", "parity", "baud", "echo-gate", "handshake-gate")
"""Blocks that the display has no part in: the keyboard walk and the line tests look at those."""
INVISIBLE = {"decoder/also-written/clear"}
"""The code is stored and then blanked by the very function that it calls. Lines of a RAM's own address bus exchanged: writing
and reading go through them alike (see also the interconnect tests of the board)."""


def display_faults():
    for name in catalogue(PROFILE):
        where, kind = name.split("/")[:2]
        if where not in ELSEWHERE and name not in INVISIBLE and not (where.endswith("-address") and where != "glyph-address" and kind == "swapped"):
            yield name


def looks_that_show(name):
    """Yield the looks on which the fault is seen: cells, cursor, or the bell."""
    board = Board(PROFILE, [name])
    for step in LOOKS:
        bells = board.glass().bells
        board.receive(step.data)
        glass = board.glass()
        if differences(step.expected.rows, glass.rows) or (glass.cursor, glass.bells - bells) != (step.expected.cursor, step.expected.bells):
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
        assert not differences(step.expected.rows, board.glass().rows), step.id


@pytest.mark.parametrize("profile_id", ["singlebyte-24x80", "ecma48-24x80"])
def test_every_command_of_a_profile_is_sent_by_a_step(profile_id):
    profile = load_profile(profile_id)
    plan = compile_plan(profile, load_script("acceptance"))
    labels = {group.label.split(" ")[0] for step in plan.steps for group in step.groups}
    assert {str(command.name) for command in profile.commands} <= labels


def test_the_stages_follow_the_order_of_bring_up():
    stages = [stage.id for stage in PLAN.stages]
    assert stages[:9] == ["unpowered", "rails", "supply", "clock", "sync", "alone", "cable", "link", "characters"]


def test_display_stages_are_sent_in_less_than_a_minute_at_9600_baud():
    sending_s, looks, _ = estimate(PLAN, 10 / 9600)
    assert sending_s < 60 and looks == len(LOOKS)


