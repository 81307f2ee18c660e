"""Plans drawn as text: bytes in the notation, the screen with rulers."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look
from helpers.bench_plan import step
from helpers.scripts import acceptance
from termprobe.notation import parse as parse_notation
from termprobe.plan.show import draw_screen, show_data, show_step
from termprobe.terminal.screen import Screen


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


def test_rulers_count_columns_by_tens_and_bells_are_counted():
    text = draw_screen(Screen((" " * 22,), None, bells=3)).splitlines()
    assert text[:2] == ["   0         1         2", "   0123456789012345678901"]
    assert text[-1] == "   the bell sounds 3 times"


def test_a_narrow_console_loses_the_frame_first_and_then_the_end_of_the_rows():
    rows = ("." * 79 + "E",) * 2
    screen = Screen(rows, (0, 0))
    assert draw_screen(screen, 84).splitlines()[2] == f" 0>{rows[0]}|"
    assert draw_screen(screen, 80).splitlines()[2:] == [*rows, "^ cursor: row 0, column 0"]
    cut = draw_screen(screen, 60).splitlines()
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
    ["undeclared-codes", "code-chart", "rotating", "solid-55", "address-modulo", "scroll-round"],
)
def test_the_bytes_shown_of_a_step_are_those_that_it_sends(step_id, columns):
    asked = acceptance().step(step_id)
    lines = show_step(asked, columns).splitlines()
    first = next(number for number, line in enumerate(lines) if line.startswith("  sends "))
    last = next(number for number, line in enumerate(lines) if line.startswith("  asks "))
    assert unfolded(" ".join(line[8:] for line in lines[first:last])) == asked.data
    assert max(map(len, lines[first:last])) <= columns


PIECES = st.one_of(st.binary(max_size=80), st.text("(x )9", max_size=80).map(str.encode))


@given(st.lists(st.tuples(PIECES, st.integers(1, 12)), max_size=5))
def test_what_is_folded_stands_for_the_same_bytes(parts):
    data = b"".join(part * count for part, count in parts)
    assert unfolded(show_data(data)) == data


def test_the_cursor_and_renditions_are_told_below_the_screen():
    rows = (" " * 40,) * 2
    last = draw_screen(Screen(rows, (1, 39))).splitlines()[-1]
    assert last == "               cursor: row 1, column 39 ^".rjust(43)
    words = "cursor: row 1, column 24"
    beside = draw_screen(Screen(rows, (1, len(words)))).splitlines()[-1]
    assert beside == "   " + " " * len(words) + f"^ {words}", "it wants a blank before the mark"
    drawn = draw_screen(Screen(rows, (0, 0), {(0, 3): "b", (0, 4): "br", (1, 0): "b"}))
    assert drawn.splitlines()[-3:] == [
        "   bold: row 0, columns 3 to 4",
        "   bold: row 1, column 0",
        "   reverse: row 0, column 4",
    ]


def test_a_shown_step_names_bytes_question_limits_and_source():
    text = show_step(acceptance().step("supply-5v"), 80)
    assert "must read 4.75 to 5.25 V, that is 5 V \u00b1 5 %" in text
    assert "recommended" in text and "CAUTION" in text


@pytest.mark.parametrize(
    "kind, fields, line",
    [
        ("switch", {"option": "duplex", "position": "half"}, "  sets duplex to half"),
        ("typed-back", {"word": "#.4FY"}, "  typed back #.4FY"),
        ("reply", {"reply": b"\x1b[0n"}, '  comes back ESC "[0n"'),
        ("press", {"code": b"\x01"}, "  comes back SOH"),
        ("measure", {"low": 3.0, "unit": "V"}, "  must read at least 3 V"),
        ("ask", {"stop_if": "it smokes"}, "  switch off if it smokes"),
    ],
)
def test_what_answers_a_step_is_shown(kind, fields, line):
    assert line in show_step(step("a", "s", kind, **fields)).splitlines()


def test_what_must_be_so_before_a_step_is_shown():
    asked = look("c", needs=("a", "b"), covered_by=("d",), caution="mains", settings=(("x", "y"),))
    assert show_step(asked).splitlines()[1:5] == [
        "  needs a, b",
        "  not asked where all of these passed: d",
        "  CAUTION mains",
        "  with x y",
    ]


def test_of_a_step_that_is_not_fitted_only_the_reason_is_shown():
    text = show_step(step("a", "s", "chords", not_fitted="no diodes"))
    assert text == "a (chords): Do a\n  not fitted: no diodes"
