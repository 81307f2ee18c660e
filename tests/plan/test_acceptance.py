"""The acceptance script tries all that a profile declares.

Its looks show every display fault that can be seen at all.
"""

import dataclasses
import functools
import itertools

import pytest

from helpers.scripts import ECMA, acceptance, asked, spared
from helpers.scripts import SINGLE as PROFILE
from termprobe import yamlfile
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.dots import BLOCKS as DOT_BLOCKS
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.journal.records import AS_EXPECTED, RETURNED, Answer, Answered
from termprobe.plan.compile import compile_plan
from termprobe.plan.covered import covering_in
from termprobe.plan.effort import effort
from termprobe.plan.model import Look
from termprobe.plan.sending import cell_of
from termprobe.profile.load import load as load_profile
from termprobe.runner.course import chain
from termprobe.script.load import load as load_script
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import differences
from termprobe.verdict.judge import judge


@functools.cache
def whole_plan():
    return spared("acceptance", "singlebyte-24x80")


@functools.cache
def looks_asked():
    """Return the looks asked on a good board; others show no more than these, and are spared."""
    return asked(whole_plan())


ELSEWHERE = (
    "keyboard-code",
    "transmitter-data",
    "key-matrix",
    "parity",
    "baud",
    "echo-gate",
    "handshake-gate",
    *DOT_BLOCKS,
)
"""Blocks that have no part in which characters are shown: the keyboard walk and the line tests look
at those, and at dots the test of coverage."""
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


def played_on(board):
    """Yield each look that is asked, once the board has been sent what a run would send for it."""
    on_screen = None
    for step in looks_asked():
        for part in chain(whole_plan(), step, on_screen):
            board.receive(part.data)
        on_screen = step.id
        yield step


def looks_that_show(name):
    """Yield the looks on which the fault is seen: cells, cursor, or the bell."""
    board = Board(PROFILE, [name])
    bells = board.screen().bells
    for step in played_on(board):
        screen, expected = board.screen(), step.expected
        cursor_and_bells = screen.cursor, screen.bells - bells
        is_same = cursor_and_bells == (expected.cursor, expected.bells)
        if not is_same or differences(expected.rows, screen.rows):
            yield step.id
        bells = screen.bells


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
    for step in played_on(board):
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
    "profile, looks",
    [
        (with_margins("pending", "wrap"), 38),
        (with_margins("overwrite", "scroll"), 38),
        (with_margins("next-row", "stay"), 38),
        (with_display(rows=16, columns=64), 38),
        (without("down"), 23),
        (without("address"), 20),
        (without("bell"), 34),
    ],
    ids=["pending", "overwrite", "stay", "16x64", "no-down", "no-address", "no-bell"],
)
def test_one_script_serves_boards_of_other_margins_sizes_and_commands(profile, looks):
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
    assert seen == looks


@pytest.mark.parametrize("fault", ["clear/no-home", "decoder/dead/down", "decoder/dead/address"])
def test_where_a_look_fails_that_covers_others_each_is_asked_by_itself(fault):
    board, records = Board(PROFILE, [fault]), []
    for step in played_on(board):
        seen = tuple(board.screen().rows)
        records.append(Answered(step.id, Answer(AS_EXPECTED, seen=seen, strength=RETURNED)))
    verdicts = {verdict.id: verdict.verdict for verdict in judge(whole_plan(), records).steps}
    failed = {step_id for step_id, word in verdicts.items() if word == "fail"}
    covered = covering_in(whole_plan()).items()
    asked_after_all = [look for look, by in covered if failed.intersection(by)]
    assert asked_after_all
    assert {verdicts[look] for look in asked_after_all} == {"unanswered"}


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
    stages = [stage.id for stage in whole_plan().stages]
    assert stages[:10] == [
        "unpowered",
        "rails",
        "supply",
        "clock",
        "sync",
        "alone",
        "adapter",
        "cable",
        "link",
        "characters",
    ]
    assert stages[-3:] == ["handshake", "duplex", "endurance"]


@pytest.mark.parametrize("cell", ["0-0", "0-79", "12-40", "23-0", "23-79"])
def test_each_bit_of_a_cell_is_shown_by_two_looks_the_last_cell_included(cell):
    """Filling the last cell scrolls, so that it can be seen two rows higher only."""
    for bit, value in itertools.product(range(7), (0, 1)):
        found = list(itertools.islice(looks_that_show(f"cell/stuck/{cell}-{bit}/{value}"), 2))
        assert len(found) == 2, (bit, value, found)


@pytest.mark.parametrize(
    "profile_id, looks, sending_s, looking_s",
    [("singlebyte-24x80", 12, 18, 48), ("club-16x64", 10, 17, 43)],
)
def test_what_a_good_board_costs_its_builder(profile_id, looks, sending_s, looking_s):
    """At 9600 baud; the looking is an estimate.

    Every look more is asked of every builder for every board. Looks at what options do come on top.
    """
    every = asked(spared("acceptance", profile_id))
    of_display = [look for look in every if look.stage != "special"]
    cost = effort(of_display, 10 / 9600)
    assert cost.looks == looks and cost.sending_s < sending_s and cost.looking_s < looking_s


@pytest.mark.parametrize("profile_id", yamlfile.shipped_ids("profiles"))
@pytest.mark.parametrize("step_id, character", [("solid-2a", "*"), ("solid-55", "U")])
def test_solid_fields_leave_no_cell_but_the_last_as_their_questions_say(
    profile_id, step_id, character
):
    plan = compile_plan(load_profile(profile_id), load_script("acceptance"))
    shown = "".join(plan.step(step_id).expected.rows)
    assert set(shown[:-1]) == {character} and shown[-1] in (character, " ")


PRINTING = {chr(code) for code in range(0x20, 0x7F)}
"""RFC 20 section 2: SP to ~ print, DEL is no graphic."""


@pytest.mark.parametrize("profile_id", ["singlebyte-24x80", "ecma48-24x80"])
@pytest.mark.parametrize("script_id", yamlfile.shipped_ids("scripts"))
def test_all_printing_characters_are_shown_by_the_looks_of_each_script(profile_id, script_id):
    plan = compile_plan(load_profile(profile_id), load_script(script_id))
    looks = [step for step in plan.steps if isinstance(step, Look) and not step.not_fitted]
    shown = [set("".join(look.expected.rows)) for look in looks]
    assert not looks or any(characters >= PRINTING for characters in shown)


@pytest.mark.parametrize("handshake", ["none", "xon-xoff"])
def test_no_step_leaves_a_sound_board_told_to_stop_sending(handshake):
    link = dataclasses.replace(PROFILE.link, handshake=handshake)
    profile = dataclasses.replace(PROFILE, link=link)
    board, clock = Board(profile), CrankedClock()
    line = SimLink(board, clock)
    for step in acceptance(profile).steps:
        line.write(step.data)
        board.type("y")
        heard = b"".join(received.data for received in line.read(0))
        assert heard == b"y", step.id


def state_of(reference):
    """Return what of a terminal outlives a clear: where tabs go, and how text is shown."""
    reference.feed(b"\x1b[2J\x1b[H" + b"X\t" * 12)
    return dataclasses.replace(reference.screen(), bells=0, replies=b"")


def test_each_step_leaves_the_terminal_as_it_found_it():
    """So that a second run on the same powered board sees what the first one saw."""
    found, changing = state_of(Reference(ECMA)), []
    for step in acceptance(ECMA).steps:
        reference = Reference(ECMA)
        reference.feed(step.data)
        if state_of(reference) != found:
            changing.append(step.id)
    assert not changing


def test_the_word_typed_back_is_one_that_tells_every_line_fault_apart():
    """That it does is proven in diagnosis/test_cover.py, over all faults of a seven-line bus."""
    assert whole_plan().step("typed-bits").word == "#.4FY"


@pytest.mark.parametrize("profile_id", yamlfile.shipped_ids("profiles"))
@pytest.mark.parametrize("script_id", yamlfile.shipped_ids("scripts"))
def test_only_probes_address_what_is_off_the_screen(profile_id, script_id):
    """So that a question speaks of what is drawn, on a screen of any size."""
    profile = load_profile(profile_id)
    rows, columns = profile.display.rows, profile.display.columns
    for stage in load_script(script_id).stages:
        for step in stage.steps:
            for fragment in step.send:
                row, column = cell_of(profile, fragment)
                assert 0 <= (row or 0) < rows and 0 <= (column or 0) < columns, step.id
