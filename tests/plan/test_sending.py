"""What a step sends: fragments of a script as groups of bytes."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.examples import examples
from helpers.scripts import ECMA, SINGLE
from termprobe.plan.sending import (
    NotFittedError,
    ScriptError,
    command_group,
    fill_groups,
    groups_of,
    text_group,
)
from termprobe.profile.model import Fill
from termprobe.script.model import Fragment
from termprobe.terminal.reference import Reference


def sent(**fields):
    return [(group.data, group.label) for group in groups_of(SINGLE, Fragment(**fields))]


@pytest.mark.parametrize(
    "fields, groups",
    [
        ({"text": "AB"}, [(b"AB", "text")]),
        ({"text": "AB", "times": 2}, [(b"ABAB", "text x 2")]),
        ({"text": "*", "rows": 2}, [(b"*" * 160, "text x 160")]),
        ({"bytes": b"\x00\xff"}, [(b"\x00\xff", "bytes")]),
        ({"command": "left", "times": 2}, [(b"\b\b", "left x 2")]),
        ({"command": "address", "at": (5, 10)}, [(b"\x1b=%*", "address 5, 10")]),
        ({"command": "address", "at": (-1, -1)}, [(b"\x1b=7o", "address 23, 79")]),
    ],
)
def test_each_fragment_is_a_group_of_bytes_with_a_label(fields, groups):
    assert sent(**fields) == groups


def test_a_pattern_is_a_group_for_each_row():
    groups = sent(pattern="solid", with_="*")
    assert groups[0] == (b"*" * 80, "solid *, row 0")
    assert groups[23] == (b"*" * 79, "solid *, row 23") and len(groups) == 24


def test_what_the_profile_lacks_is_not_fitted():
    with pytest.raises(NotFittedError, match="declares no command insert-line"):
        command_group(SINGLE, "insert-line")
    wide = dataclasses.replace(SINGLE, display=dataclasses.replace(SINGLE.display, columns=132))
    with pytest.raises(NotFittedError, match="cannot say it: column must fit in 7 data bits"):
        command_group(wide, "address", 0, 131)


@pytest.mark.parametrize(
    "fields, message",
    [
        ({"pattern": "sold", "with_": "*"}, 'not "sold"; nearest is "solid"'),
        ({"pattern": "solid", "with_": "AB"}, "with must be an argument that pattern solid"),
        ({"text": "A" * 100, "times": 2501}, "text must send at most 250,000 bytes, not 250,100"),
        ({"pattern": "rotating", "with_": "x"}, "with must be an argument that pattern rotating"),
        ({"command": "address"}, "must"),
        ({"command": "home", "at": (1, 2)}, "must"),
        ({"command": "address", "at": (300, 2)}, "must"),
    ],
)
def test_what_no_profile_could_send_is_an_error_of_the_script(fields, message):
    with pytest.raises(ScriptError, match=message):
        sent(**fields)


def with_clear(**fields):
    """Return the profile with other fields of its command clear."""
    clear = dataclasses.replace(SINGLE.command("clear"), **fields)
    others = [command for command in SINGLE.commands if command.name != "clear"]
    return dataclasses.replace(SINGLE, commands=(clear, *others))


def test_fill_characters_follow_where_the_speed_needs_them():
    profile = with_clear(fill=Fill(code=b"\x00", count=3, from_baud=2400), settle_ms=50.0)
    group = command_group(profile, "clear")
    assert group.data == b"\x1a\0\0\0" and group.settle_s == 0.05
    slow = dataclasses.replace(profile, link=dataclasses.replace(profile.link, speed_baud=1200))
    assert command_group(slow, "clear").data == b"\x1a"


def test_a_command_sent_several_times_settles_as_often():
    assert command_group(with_clear(settle_ms=50.0), "clear", count=3).settle_s == pytest.approx(
        0.15
    )


def with_command(profile, name, **fields):
    """Return the profile with other fields of one of its commands."""
    commands = [
        dataclasses.replace(command, **fields) if command.name == name else command
        for command in profile.commands
    ]
    return dataclasses.replace(profile, commands=tuple(commands))


def test_a_command_that_is_sent_once_with_a_count_settles_once():
    group = command_group(with_command(ECMA, "right", settle_ms=50.0), "right", count=3)
    assert (group.data, group.settle_s) == (b"\x1b[3C", 0.05)


def test_fill_characters_follow_from_the_very_speed_that_needs_them():
    speed_baud = SINGLE.link.speed_baud
    for from_baud, data in ((speed_baud, b"\x1a\0"), (speed_baud + 1, b"\x1a")):
        fill = Fill(code=b"\x00", count=1, from_baud=from_baud)
        assert command_group(with_clear(fill=fill), "clear").data == data


@pytest.mark.parametrize("slow", ["return", "down"])
def test_rows_wait_for_whichever_command_between_them_takes_longer(slow):
    profile = with_command(SINGLE, slow, settle_ms=50.0)
    first, last = fill_groups(profile, ["A", "B"], "rows")
    assert (first.data, first.settle_s, last.settle_s) == (b"A\r\n", 0.05, 0.0)


def test_text_is_sent_as_ascii():
    assert text_group("AB", 3).data == b"ABABAB"


@examples(40)
@given(
    st.sampled_from(["next-row", "pending", "overwrite"]),
    st.sampled_from(["scroll", "wrap", "stay"]),
    st.lists(
        st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), max_size=12),
        min_size=1,
        max_size=6,
    ),
)
def test_a_fill_gives_the_rows_whatever_the_margins_do(last_column, last_row, lines):
    columns = 12
    printing = dataclasses.replace(
        SINGLE.display.printing, last_column=last_column, last_row=last_row
    )
    display = dataclasses.replace(
        SINGLE.display, rows=len(lines), columns=columns, printing=printing
    )
    profile = dataclasses.replace(SINGLE, display=display)
    rows = [line.ljust(columns) for line in lines]
    reference = Reference(profile)
    reference.feed(b"".join(group.data for group in fill_groups(profile, rows, "rows")))
    shown = list(reference.screen().rows)
    if last_column == "next-row" and last_row != "stay":
        rows[-1] = rows[-1][:-1] + " "  # filling the last cell would scroll, or wrap to the top
    assert shown == rows


@pytest.mark.parametrize(
    "fields, data",
    [
        ({"command": "right"}, b"\x1b[C"),
        ({"command": "right", "times": 3}, b"\x1b[3C"),
        ({"command": "address", "at": (5, 0)}, b"\x1b[6H"),
        ({"command": "address", "at": (0, 5)}, b"\x1b[1;6H"),
        ({"command": "address", "at": (0, 0)}, b"\x1b[H"),
        ({"command": "plain"}, b"\x1b[m"),
        ({"command": "erase-to-start-of-line"}, b"\x1b[1K"),
        ({"command": "erase-to-end-of-line", "times": 2}, b"\x1b[K\x1b[K"),
        ({"command": "line-feed"}, b"\n"),
        ({"command": "index"}, b"\x1bD"),
    ],
)
def test_the_shortest_form_leaves_out_the_parameters_at_the_end_that_have_their_default(
    fields, data
):
    """ECMA-48 5.4.2: an empty parameter is the default; those at the end need no separator."""
    (group,) = groups_of(ECMA, Fragment(short=True, **fields))
    assert group.data == data


def test_other_grammars_have_no_shorter_form():
    (group,) = groups_of(SINGLE, Fragment(command="address", at=(0, 0), short=True))
    assert group.data == b"\x1b=  "
