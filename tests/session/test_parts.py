"""The pure parts of the session: texts that fit, marks, typed lines, step through, the loop's waveform, the table of keys."""

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from helpers.bench_plan import CORNERS, PROFILE, command, full_plan, look, plan, shown, step, text
from termprobe.link.base import LineFormat
from termprobe.notation import parse
from termprobe.session import keymap
from termprobe.session.draw import fit
from termprobe.session.react import dispatch, group_play, marked_cells, typed_lines, waveform
from termprobe.session.state import State
from termprobe.terminal.reference import Reference
from termprobe.observer.base import AS_EXPECTED, DIFFERS

LETTER = {"N": "none", "E": "even", "O": "odd", "M": "mark", "S": "space"}


def frame(name, speed_baud=9600):
    return LineFormat(speed_baud, int(name[0]), LETTER[name[1]], int(name[2]))


# Texts


@given(some.text(max_size=60), some.integers(0, 40))
def test_a_cut_text_is_never_wider_and_never_acts_on_the_console(words, columns):
    found = fit.cut(words, columns)
    assert fit.columns_of(found) <= columns
    assert all(character.isprintable() for character in found)
    assert fit.columns_of(fit.pad(words, columns)) == columns


@given(some.text(alphabet="ab 漢e\u0301\x1b\n", max_size=60), some.integers(2, 30))
def test_wrapped_lines_fit_and_lose_nothing_but_blanks(words, columns):
    found = fit.wrap(words, columns)
    assert all(fit.columns_of(line) <= columns for line in found)
    assert "".join("".join(found).split()) == "".join(fit.harmless(words).split())


# The loop for the scope

SQUARE = {
    "8N1": True,
    "7E1": True,
    "7S1": True,
    "7N1": False,
    "7O1": False,
    "7M1": False,
    "8E1": False,
    "8O1": False,
    "8N2": False,
}
"""Whether U (55h) back to back is a square wave at half the rate: common practice for 8N1; each other follows from the bits
0 1010101 0|parity 1 written out by hand: only where data and parity end low before the one stop bit does it alternate."""


@pytest.mark.parametrize("name", SQUARE)
def test_u_is_a_square_wave_at_half_the_rate_in_these_formats_alone(name):
    told = " ".join(waveform.waveform(waveform.Loop(b"U", frame(name))))
    assert ("half the bit rate" in told) == SQUARE[name]
    if SQUARE[name]:
        assert "4.8 kHz" in told


@pytest.mark.parametrize(
    "name, bits",
    [
        ("8N1", "0100000101"),  # A, 41h: start, 1000 0010 lowest first, stop
        ("7E1", "0100000101"),  # two ones in 41h: even parity is 0
        ("7O1", "0100000111"),
        ("8N2", "01000001011"),
    ],
)
def test_frame_bits_of_capital_a(name, bits):
    assert "".join(str(bit) for bit in waveform.frame_bits(0x41, frame(name))) == bits


def test_nul_and_del_make_one_pulse_a_character():
    assert (
        "A rectangular wave of 960 Hz: 937.5 us low, 104.2 us high."
        in waveform.waveform(waveform.Loop(b"\0", frame("8N1")))[0]
    )
    assert (
        "104.2 us low, 937.5 us high" in waveform.waveform(waveform.Loop(b"\xff", frame("8N1")))[0]
    )


def test_a_gap_is_told_with_the_time_of_a_whole_round():
    told = waveform.waveform(waveform.Loop(b"U", frame("8N1", 1000), gap_s=0.09))
    assert "1 character in 10 ms, then idle for 90 ms: again every 100 ms (10 Hz)." == told[0]


@given(some.binary(min_size=1, max_size=6), some.sampled_from(sorted(SQUARE)))
def test_the_told_period_repeats_to_the_bits_that_are_sent(data, name):
    bits = waveform.line_bits(data, frame(name))
    size = waveform.period_bits(bits)
    assert bits[:size] * (len(bits) // size) == bits
    assert sum(count for _, count in waveform.runs_of(bits[:size])) == size
    levels = [level for level, _ in waveform.runs_of(bits[:size])]
    assert levels == [0, 1] * (len(levels) // 2), "begins with the falling edge, ends high"


# Marks


def test_marks_of_cells_rows_and_columns_are_told_in_words():
    screen = shown((command("clear"), text("HELLO")))
    found = marked_cells.toggled({}, [(0, 1), (0, 2), (0, 4)])
    assert marked_cells.in_words(found) == "row 0 columns 1-2, 4"
    assert (
        marked_cells.in_words(marked_cells.toggled(found, marked_cells.row_cells(screen, 3)))
        == "row 0 columns 1-2, 4; row 3 columns 0-79"
    )
    assert marked_cells.toggled(found, [(0, 1), (0, 2), (0, 4)]) == {}
    assert len(marked_cells.column_cells(screen, 79)) == 24


def test_typed_characters_stand_in_the_rows_seen_and_marked_ones_are_unknown():
    screen = shown((command("clear"), text("HELLO")))
    found = marked_cells.typed(marked_cells.toggled({}, [(5, 5)]), screen, (0, 0), "HALLO")
    seen = marked_cells.seen_rows(screen, found)
    assert seen[0].rstrip() == "HALLO" and seen[5][5] == marked_cells.UNKNOWN
    assert set(found) == {(0, 1), (5, 5)}
    assert marked_cells.seen_rows(screen, {}) is None


@given(
    some.dictionaries(
        some.tuples(some.integers(0, 23), some.integers(0, 79)),
        some.just(marked_cells.UNKNOWN),
        max_size=30,
    )
)
def test_rows_seen_differ_exactly_where_marked(found):
    from termprobe.terminal.screen import differences

    screen = shown((command("clear"), text("HELLO")))
    seen = marked_cells.seen_rows(screen, found) or screen.rows
    assert {(row, column) for row, column, _, _ in differences(screen.rows, seen)} == set(found)


# Lines


def measured(typed):
    state = State(full_plan(), PROFILE, frame("7E1"), mode="measure", step_id="supply-5v")
    return typed_lines.accept(
        dataclasses.replace(typed_lines.open_line(state, "reading"), text=typed)
    )


@pytest.mark.parametrize(
    "typed, value, word",
    [
        ("5.04", 5.04, AS_EXPECTED),
        ("5040 mV", 5.04, AS_EXPECTED),
        ("4.75V", 4.75, AS_EXPECTED),
        ("5.26", 5.26, DIFFERS),
        ("-5", -5.0, DIFFERS),
    ],
)
def test_a_reading_is_taken_with_its_unit_and_judged(typed, value, word):
    state, (record,) = measured(typed)
    assert (record.answer.value, record.answer.word) == (value, word)
    assert ("OUTSIDE" in state.notice) == (word == DIFFERS)


@pytest.mark.parametrize("typed", ["", "five", "5 A", "5 V V"])
def test_what_is_no_reading_is_refused_with_a_reason_and_stays_typed(typed):
    state, requests = measured(typed)
    assert (
        requests == ()
        and state.mode == "line"
        and state.text == typed
        and "must be" in state.notice
    )


def accepted(purpose, typed):
    state = State(
        full_plan(),
        PROFILE,
        frame("7E1"),
        mode="wave",
        step_id="hello",
        loop=waveform.Loop(b"U", frame("7E1")),
    )
    return typed_lines.accept(
        dataclasses.replace(typed_lines.open_line(state, purpose), text=typed)
    )[0]


def test_bytes_gap_and_speed_of_the_loop_are_typed():
    assert accepted("wave-bytes", 'ESC "=" 20h').loop.data == b"\x1b= "
    assert accepted("wave-gap", "5 ms").loop.gap_s == 0.005
    assert accepted("wave-speed", "1200 8N1").loop.format == frame("8N1", 1200)
    assert accepted("wave-speed", "110").loop.format == frame("7E1", 110)


@pytest.mark.parametrize(
    "purpose, typed",
    [
        ("wave-bytes", ""),
        ("wave-bytes", "esc"),
        ("wave-gap", "-1"),
        ("wave-gap", "99"),
        ("wave-speed", "0"),
        ("wave-speed", "fast"),
        ("wave-speed", "1200 9X3"),
    ],
)
def test_what_the_loop_cannot_do_is_refused(purpose, typed):
    state = accepted(purpose, typed)
    assert state.mode == "line" and "must" in state.notice


def test_a_reason_must_be_given_for_disputing_and_skipping():
    for purpose in ("dispute", "skip"):
        state, requests = typed_lines.accept(
            typed_lines.open_line(
                State(full_plan(), PROFILE, frame("7E1"), mode="look", step_id="hello"), purpose
            )
        )
        assert requests == () and "must be told" in state.notice


# Step through


def played():
    made = full_plan()
    return group_play.play_of(made, made.step("more"), lambda: Reference(PROFILE))


def test_playing_forward_gives_the_screen_of_a_straight_run():
    found, sent = played(), b""
    while found.sent < len(found.groups):
        found, groups = group_play.forward(found)
        sent += b"".join(group.data for group in groups)
    straight = Reference(PROFILE)
    straight.feed(sent)
    assert found.screen.rows == straight.screen().rows == full_plan().step("more").expected.rows
    assert sent == full_plan().step("hello").data + full_plan().step("more").data, (
        "a step that goes on begins with the one before"
    )


@settings(max_examples=60)
@given(
    some.lists(
        some.sampled_from(
            (group_play.forward, group_play.back, group_play.to_mark, group_play.restart)
        ),
        max_size=20,
    ),
    some.integers(0, 5),
)
def test_after_any_walk_the_board_has_been_sent_what_the_screen_needs(walk, mark):
    """Whatever was sent since the screen was last fresh must give the screen that is shown."""
    found = group_play.set_mark(played(), mark)
    reference, is_known = Reference(PROFILE), False
    for go in walk:
        found, groups = go(found)
        for group in groups:
            reference.feed(group.data)
            is_known = is_known or group.label == "clear"
        if is_known and found.sent:
            assert (
                found.screen.rows == reference.screen().rows
                and found.screen.cursor == reference.screen().cursor
            )


def test_running_to_the_mark_stops_there_then_goes_to_the_end():
    found, groups = group_play.to_mark(group_play.set_mark(played(), 2))
    assert (found.sent, len(groups)) == (2, 2)
    found, groups = group_play.to_mark(found)
    assert found.sent == len(found.groups)
    assert (
        group_play.set_mark(found, found.sent).mark == found.sent
        and group_play.set_mark(group_play.set_mark(found, 1), 1).mark is None
    )


# The table of keys


def test_every_key_does_one_thing_in_a_mode_and_every_action_is_there():
    for name, mode in keymap.MODES.items():
        keys = [key for entry in mode.keys for key in entry.keys]
        assert len(keys) == len(set(keys)), name
        if name != "waving":
            assert {entry.action for entry in mode.keys} <= set(dispatch.ACTIONS), name
            assert "c-c" in keys, f"{name} cannot be interrupted"
        assert "escape" not in keys, (
            "a lone Esc takes time to be told from a key that begins with it"
        )
    used = {entry.action for mode in keymap.MODES.values() for entry in mode.keys}
    assert used - {""} == set(dispatch.ACTIONS)


def test_the_notation_of_the_loop_is_read_back():
    assert parse(typed_lines.wave_text(waveform.Loop(b'\x1b="\x80', frame("8N1")))) == b'\x1b="\x80'


def test_plan_of_the_tests_is_sound():
    made = plan(look("corners", "screen", *CORNERS), step("lamp", "end", "ask"))
    assert made.step("corners").expected.rows[0][79] == "B" and made.step("lamp").expected is None
