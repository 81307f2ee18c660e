"""Probes: what each sends for one terminal and another, and what a sound one shows."""

import dataclasses

import pytest

from helpers.boards import changed
from helpers.scripts import ECMA, SINGLE, look, plan_of
from termprobe.errors import FileError
from termprobe.plan.probes import PROBES, UNRULED, probe_groups
from termprobe.plan.sending import NotFittedError
from termprobe.profile.model import Coordinates, Fill
from termprobe.terminal.reference import Reference


def sent(profile, name, row=0, column=0):
    return b"".join(group.data for group in probe_groups(profile, name, row, column))


def rows_shown(profile, name, row=0, column=0):
    reference = Reference(profile)
    reference.feed(sent(profile, name, row, column))
    return [text.rstrip() for text in reference.screen().rows]


@pytest.mark.parametrize("profile, count", [(SINGLE, 24), (ECMA, 20)])
def test_each_undeclared_code_stands_once_between_the_letters_of_its_key(profile, count):
    codes = [
        group.data[0]
        for group in probe_groups(profile, "undeclared-codes", 2, 10)
        if group.label.startswith("code ")
    ]
    pairs = " ".join(rows_shown(profile, "undeclared-codes", 2, 10)).split()
    assert len(codes) == len(set(codes)) == count
    assert pairs == [chr(code ^ 0x40) * 2 for code in codes]
    assert codes[codes.index(0x13) + 1] == 0x11  # DC3, then DC1: go on


def test_codes_whose_effect_the_standard_names_are_left_out_of_its_grammar_only():
    assert not set(UNRULED) & set(sent(ECMA, "undeclared-codes", 2, 10))
    in_codes = set(sent(SINGLE, "undeclared-codes", 2, 10))
    assert {0x05, 0x0E, 0x0F, 0x18} <= in_codes


def test_pairs_that_find_no_room_make_the_step_not_fitted():
    small = changed(SINGLE, display={"rows": 6, "columns": 40})
    with pytest.raises(NotFittedError, match="6 x 40 has no room for all that is tried here"):
        sent(small, "undeclared-codes", 2, 10)


def test_left_at_the_edge_is_tried_in_each_row():
    shown = rows_shown(SINGLE, "left-edge")
    assert shown == [chr(0x41 + row) for row in range(24)]
    assert rows_shown(changed(SINGLE, edges={"left": "previous-row"}), "left-edge") != shown


def test_rows_and_columns_off_the_screen_are_addressed_from_the_first_of_them_on():
    """Twice below: 1Fh is one below 20h, 10h is row 16 where five lines lose the borrow."""
    addresses = sent(SINGLE, "rows-off-screen", 13, 10).split(b"\x1b=")[2::2]
    assert [address[0] for address in addresses] == [*range(0x38, 0x40), 0x1F, 0x10]
    assert rows_shown(SINGLE, "rows-off-screen", 13, 10)[13] == " " * 10 + "ABCDEFGHIJ"
    addresses = sent(SINGLE, "columns-off-screen", 11, 10).split(b"\x1b=")[2::2]
    assert [address[1] for address in addresses] == [*range(0x70, 0x7F), 0x1F, 0x10]
    assert rows_shown(SINGLE, "columns-off-screen", 11, 10)[11] == " " * 10 + "ABCDEFGHIJKLMNOPQ"


def test_decimal_coordinates_have_none_below_and_are_held_at_the_edge():
    assert rows_shown(ECMA, "rows-off-screen", 13, 10)[23] == " " * 10 + "ABCDEFGH"
    assert rows_shown(ECMA, "columns-off-screen", 11, 10)[11] == "P".rjust(80)


def test_a_coding_that_ends_at_the_last_column_has_none_to_try():
    bcd = changed(SINGLE, coordinates=Coordinates("bcd"), display={"columns": 100})
    assert sent(bcd, "columns-off-screen") == b""


def test_the_fill_of_an_address_follows_one_off_the_screen_too():
    fill = Fill(b"\x00", 2, 9600)
    commands = tuple(dataclasses.replace(command, fill=fill) for command in SINGLE.commands)
    filled = dataclasses.replace(SINGLE, commands=commands)
    assert sent(filled, "rows-off-screen").count(b"\x00\x00") == 20


def test_the_tab_stops_of_power_up_are_set_again():
    reference = Reference(ECMA)
    reference.feed(b"\x1b[3g" + sent(ECMA, "tab-stops") + b"\r" + b"\tX" * 12)
    fresh = Reference(ECMA)
    fresh.feed(b"\tX" * 12)
    assert reference.screen().rows == fresh.screen().rows
    assert sent(changed(ECMA, display={"tab_stops": 0}), "tab-stops") == b""


@pytest.mark.parametrize("name", PROBES)
def test_a_terminal_without_the_commands_of_a_probe_has_a_step_that_is_not_fitted(name):
    bare = dataclasses.replace(SINGLE, commands=SINGLE.commands[:1])
    (step,) = plan_of(
        [look("try", [{"probe": name}])], dataclasses.replace(bare, fresh=("bell",))
    ).steps
    assert "declares no command" in step.not_fitted


def test_an_unknown_probe_is_named_with_the_nearest():
    with pytest.raises(FileError) as error:
        plan_of([look("try", [{"probe": "left-egde"}])])
    assert 'not "left-egde"; nearest is "left-edge"' in str(error.value)


def test_a_slope_is_straight_and_stays_on_the_screen():
    for profile, distance in ((SINGLE, 3), (changed(SINGLE, display={"columns": 40}), 1)):
        for row, text in enumerate(rows_shown(profile, "slope")):
            assert text == " " * distance * row + chr(0x41 + row)
