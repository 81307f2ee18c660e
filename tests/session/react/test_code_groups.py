"""A step played code by code: nothing is lost, each control code is a group with its name."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from helpers.bench_plan import PROFILE
from helpers.examples import examples
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import Group
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script
from termprobe.session.react.code_groups import code_groups

ANSI = load_profile("ecma48-24x80")


def pieces(data, profile=PROFILE, label="bytes"):
    return [(one.data, one.label) for one in code_groups(profile, [Group(data, label)])]


def test_each_control_code_is_a_group_of_its_own_with_its_name_and_code():
    assert pieces(b"AB\n\n\x08C") == [
        (b"AB", "text"),
        (b"\n", "down 0A"),
        (b"\n", "down 0A"),
        (b"\x08", "left 08"),
        (b"C", "text"),
    ]


def test_a_sequence_is_one_group_with_where_it_goes():
    assert pieces(b"\x1b=\x25\x2aA") == [
        (b"\x1b=\x25\x2a", "address 5, 10 1B 3D 25 2A"),
        (b"A", "text"),
    ]
    assert pieces(b"\x1b[3B", ANSI) == [(b"\x1b[3B", "down 3 1B 5B 33 42")]


def test_a_code_that_means_nothing_is_named_too():
    assert pieces(b"A\x05B\x7f") == [
        (b"A", "text"),
        (b"\x05", "ENQ 05, no command"),
        (b"B", "text"),
        (b"\x7f", "DEL 7F, no command"),
    ]


def test_text_keeps_the_name_of_its_pattern():
    assert pieces(b"AAAA", label="row-tags, row 0") == [(b"AAAA", "row-tags, row 0")]


def test_what_is_begun_and_not_ended_is_sent_too():
    assert pieces(b"A\x1b=") == [(b"A", "text"), (b"\x1b=", 'ESC "=" 1B 3D, begun')]


def test_the_pause_stays_behind_the_last_code_and_each_command_has_its_own():
    clear, *rest = code_groups(PROFILE, [Group(b"\x1aA", "bytes", 0.5)])
    assert clear.settle_s == PROFILE.command("clear").settle_ms / 1000
    assert rest[-1].settle_s == 0.5


@pytest.mark.parametrize("profile", [PROFILE, ANSI])
@examples(80)
@given(some.lists(some.binary(max_size=40), max_size=4))
def test_nothing_is_lost_or_added(profile, datas):
    found = code_groups(profile, [Group(data, "bytes") for data in datas])
    assert b"".join(group.data for group in found) == b"".join(datas)
    assert all(group.data and group.label for group in found)


@pytest.mark.parametrize("profile_id", ["singlebyte-24x80", "ecma48-24x80"])
def test_no_shipped_step_plays_two_control_codes_at_once(profile_id):
    profile = load_profile(profile_id)
    plan = compile_plan(profile, load_script("acceptance"))
    for step in plan.steps:
        for group in code_groups(profile, step.groups):
            controls = [code for code in group.data if code < 0x20 or code == 0x7F]
            assert len(controls) <= 1 or group.data[0] == 0x1B, (step.id, group)
