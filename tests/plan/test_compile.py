"""Plans: the same every time, true to the reference, and a part of them is a plan too."""

import dataclasses
import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from termprobe.errors import FileError, UsageError
from termprobe.notation import parse as parse_notation
from termprobe.plan.choose import choose, choose_stages
from termprobe.plan.compile import compile_plan
from termprobe.plan.document import plan_document
from termprobe.plan.sending import fill_groups
from termprobe.plan.show import draw_screen, show_data, show_step
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load as load_script
from termprobe.script.load import parse
from termprobe.terminal.screen import Screen
from termprobe.terminal.reference import Reference

SINGLE, ECMA = load_profile("singlebyte-24x80"), load_profile("ecma48-24x80")


def plan_of(steps, profile=SINGLE):
    text = "id: try\ntitle: A try\nstages:\n  - id: first\n    title: First\n    steps:\n"
    return compile_plan(
        profile,
        parse(text + "".join(f"      - {step}\n" for step in steps), "try.yaml"),
        "try.yaml",
    )


def look(step_id, send, **fields):
    return json.dumps(
        {
            "id": step_id,
            "kind": "look",
            "title": step_id,
            "question": "Is it so?",
            "send": send,
            **fields,
        }
    )


@pytest.mark.parametrize("profile", [SINGLE, ECMA], ids=lambda profile: profile.id)
def test_a_plan_is_the_same_every_time(profile):
    script = load_script("acceptance")
    one, two = compile_plan(profile, script), compile_plan(profile, load_script("acceptance"))
    assert one == two and len(one.hash) == 64
    assert len({step.hash for step in one.steps}) == len(one.steps)
    assert json.dumps(plan_document(one)) == json.dumps(plan_document(two))


def test_what_a_look_sends_and_expects():
    step = plan_of(
        [look("ab", [{"text": "AB"}, {"command": "left", "times": 2}, {"text": "-"}])]
    ).steps[0]
    assert step.data == b"\x1aAB\x08\x08-"  # codes of the profile: SUB clears, BS goes left
    assert step.expected.rows[0].startswith("-B ") and step.expected.cursor == (0, 1)
    assert [group.label for group in step.groups] == ["clear", "text", "left x 2", "text"]


def test_negative_places_count_from_the_last():
    step = plan_of([look("corner", [{"command": "address", "at": [-2, -1]}, {"text": "X"}])]).steps[
        0
    ]
    assert step.data == b"\x1a\x1b=6oX"  # terminfo(5): row 22 + 20h is 36h, column 79 + 20h is 6Fh
    assert step.expected.rows[22][79] == "X"


def test_keep_goes_on_from_the_screen_before():
    first, second = plan_of(
        [look("one", [{"text": "AB"}]), look("two", [{"text": "CD"}], start="keep")]
    ).steps
    assert second.continues and second.data == b"CD" and second.expected.rows[0].startswith("ABCD")
    assert not first.continues


def test_an_undeclared_command_is_not_fitted_and_so_is_what_goes_on_from_it():
    first, second = plan_of(
        [look("one", [{"command": "insert-line"}]), look("two", [{"text": "CD"}], start="keep")]
    ).steps
    assert first.not_fitted == "profile singlebyte-24x80 declares no command insert-line"
    assert "not fitted" in second.not_fitted and not second.groups


def test_an_unknown_pattern_is_a_finding_with_line_and_nearest_word():
    with pytest.raises(FileError) as caught:
        plan_of([look("one", [{"pattern": "sold", "with": "*"}])])
    assert caught.value.findings[0].startswith("try.yaml:7:89: one: pattern must be one of solid, ")
    assert caught.value.findings[0].endswith('not "sold"; nearest is "solid"')


@pytest.mark.parametrize(
    "fragment",
    [
        {"pattern": "solid"},
        {"pattern": "rotating", "with": "x"},
        {"command": "address"},
        {"command": "home", "at": [1, 2]},
        {"command": "address", "at": [300, 2]},
    ],
)
def test_a_fragment_that_no_profile_can_send_is_a_finding(fragment):
    with pytest.raises(FileError, match="one: "):
        plan_of([look("one", [fragment])])


def test_a_reply_is_what_the_reference_answers():
    """ECMA-48 8.3.14: CPR is CSI line ; column R, counted from 1."""
    plan = plan_of(
        [
            json.dumps(
                {
                    "id": "cpr",
                    "kind": "reply",
                    "title": "CPR",
                    "command": "report-cursor",
                    "send": [{"command": "address", "at": [23, 79]}],
                }
            )
        ],
        ECMA,
    )
    assert plan.steps[0].reply == b"\x1b[24;80R"


def test_fill_characters_follow_where_the_speed_needs_them():
    command = dataclasses.replace(
        SINGLE.command("clear"),
        fill=type("F", (), {"code": b"\x00", "count": 3, "from_baud": 2400})(),
        settle_ms=50.0,
    )
    commands = tuple(command if one.name == "clear" else one for one in SINGLE.commands)
    step = plan_of(
        [look("one", [{"text": "A"}])], dataclasses.replace(SINGLE, commands=commands)
    ).steps[0]
    assert step.groups[0].data == b"\x1a\0\0\0" and step.groups[0].settle_s == 0.05
    slow = dataclasses.replace(
        SINGLE, commands=commands, link=dataclasses.replace(SINGLE.link, speed_baud=1200)
    )
    assert plan_of([look("one", [{"text": "A"}])], slow).steps[0].groups[0].data == b"\x1a"


@settings(max_examples=40, deadline=None)
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
    profile = dataclasses.replace(
        SINGLE,
        display=dataclasses.replace(
            SINGLE.display, rows=len(lines), columns=columns, printing=printing
        ),
    )
    rows = [line.ljust(columns) for line in lines]
    reference = Reference(profile)
    reference.feed(b"".join(group.data for group in fill_groups(profile, rows, "rows")))
    shown = list(reference.screen().rows)
    if last_column == "next-row" and last_row != "stay":
        rows[-1] = rows[-1][:-1] + " "  # filling the last cell would scroll, or wrap to the top
    assert shown == rows


def word(text):
    return json.dumps(
        {"id": "word", "kind": "typed-back", "title": "word", "question": "Type it.", "word": text}
    )


def test_a_word_is_typed_back_only_where_screen_and_keyboard_have_its_characters():
    keys = tuple(key for key in SINGLE.keyboard.keys if key.name != "y")
    without_y = dataclasses.replace(
        SINGLE, keyboard=dataclasses.replace(SINGLE.keyboard, keys=keys)
    )
    printing = dataclasses.replace(SINGLE.display.printing, last=0x5F)
    capitals = dataclasses.replace(
        SINGLE, display=dataclasses.replace(SINGLE.display, printing=printing)
    )
    assert plan_of([word("yn")]).steps[0].typed == b"yn\r"
    assert (
        plan_of([word("yn")], without_y).steps[0].not_fitted
        == 'the keyboard of profile singlebyte-24x80 sends no "y"'
    )
    assert (
        plan_of([word("yn")], capitals).steps[0].not_fitted
        == 'profile singlebyte-24x80 shows no "y"'
    )
    assert plan_of([word("YN")], capitals).steps[0].not_fitted is None
    assert (
        plan_of([word("yn")], dataclasses.replace(SINGLE, keyboard=None)).steps[0].not_fitted
        is None
    )


def test_a_chosen_part_is_a_plan_and_brings_along_what_it_goes_on_from():
    plan = plan_of(
        [
            look("one", [{"text": "A"}]),
            look("two", [{"text": "B"}], start="keep", needs=["one"]),
            look("three", [{"text": "C"}], needs=["one"]),
        ]
    )
    assert [step.id for step in choose(plan, ["two"]).steps] == ["one", "two"]
    part = choose(plan, ["three"])
    assert (
        part.steps[0].needs == ()
        and part.steps[0].hash == plan.steps[2].hash
        and part.hash != plan.hash
    )
    with pytest.raises(UsageError, match='nearest is "first"'):
        choose_stages(plan, ["frst"])


def test_a_drawing_has_rulers_the_cursor_and_no_character_that_acts():
    text = draw_screen(Screen(("A\x1bB", "   ", "xyz"), (1, 2), bells=1))
    assert text.splitlines() == [
        "   0",
        "   012",
        " 0|A?B|",
        " 1>   |",
        " 2|xyz|",
        "     ^ cursor: row 1, column 2",
        "   the bell sounds once",
    ]


def test_a_narrow_console_loses_the_frame_first_and_then_the_end_of_the_rows():
    rows = ("." * 79 + "E",) * 2
    assert draw_screen(Screen(rows, (0, 0)), 84).splitlines()[2] == f" 0>{rows[0]}|"
    assert draw_screen(Screen(rows, (0, 0)), 80).splitlines()[2:] == [
        *rows,
        "^ cursor: row 0, column 0",
    ]
    cut = draw_screen(Screen(rows, (0, 0)), 60).splitlines()
    assert cut[2] == "." * 59 + ">" and max(map(len, cut)) == 60


def test_long_repeats_are_folded():
    assert show_data(b"\x1a" + b"*" * 1919 + b"\r") == 'SUB "*" x 1919 CR'
    assert show_data(b"AB") == '"AB"'
    ramp = bytes(range(0x30, 0x60))
    assert show_data(ramp * 3 + b"0") == f'("{ramp.decode()}") x 3 "0"'


def unfolded(text):
    """Return the bytes that folded notation stands for."""
    groups = [[]]
    words = iter(re.findall(r'"[^"]*"|[()]|[^\s()"]+', text))
    for word in words:
        if word == "(":
            groups.append([])
        elif word == ")":
            last = b"".join(groups.pop())
            groups[-1].append(last)
        elif word == "x":
            groups[-1][-1] *= int(next(words))
        else:
            groups[-1].append(parse_notation(word))
    assert len(groups) == 1
    return b"".join(groups[0])


@pytest.mark.parametrize("columns", [60, 100])
@pytest.mark.parametrize(
    "step_id",
    ["codes-in-order", "code-chart", "rotating", "solid-55", "address-modulo", "scroll-round"],
)
def test_the_bytes_shown_of_a_step_are_those_that_it_sends(step_id, columns):
    step = load_plan().step(step_id)
    lines = show_step(step, columns).splitlines()
    first = next(number for number, line in enumerate(lines) if line.startswith("  sends "))
    last = next(number for number, line in enumerate(lines) if line.startswith("  looks for "))
    assert unfolded(" ".join(line[8:] for line in lines[first:last])) == step.data
    assert max(map(len, lines[first:last])) <= columns


@given(
    st.lists(
        st.tuples(
            st.one_of(st.binary(max_size=80), st.text("(x )9", max_size=80).map(str.encode)),
            st.integers(1, 12),
        ),
        max_size=5,
    )
)
def test_what_is_folded_stands_for_the_same_bytes(parts):
    data = b"".join(part * count for part, count in parts)
    assert unfolded(show_data(data)) == data


def test_the_cursor_and_renditions_are_told_below_the_screen():
    rows = (" " * 40,) * 2
    assert draw_screen(Screen(rows, (1, 39))).splitlines()[
        -1
    ] == "               cursor: row 1, column 39 ^".rjust(43)
    drawn = draw_screen(Screen(rows, (0, 0), {(0, 3): "b", (0, 4): "br", (1, 0): "b"})).splitlines()
    assert drawn[-3:] == [
        "   bold: row 0, columns 3 to 4",
        "   bold: row 1, column 0",
        "   reverse: row 0, column 4",
    ]


def test_a_shown_step_names_bytes_question_limits_and_source():
    text = show_step(load_plan().step("supply-5v"), 80)
    assert (
        "must read 4.75 to 5.25 V" in text
        and "recommended operating conditions" in text
        and "CAUTION" in text
    )


def load_plan():
    return compile_plan(SINGLE, load_script("acceptance"))
