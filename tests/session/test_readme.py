"""The screens in README.md are what the session draws, row for row."""

import dataclasses

from helpers.paths import ROOT
from helpers.scripts import spared
from termprobe.journal.records import AS_EXPECTED, Answer, Answered, Heard
from termprobe.link.base import LineFormat, Received
from termprobe.plan.choose import choose
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.runner.course import course_of
from termprobe.script.load import load as load_script
from termprobe.session.draw.console_rows import draw_console
from termprobe.session.state import State

PROFILE = load_profile("club-16x64")
LINE = LineFormat(4800, 7, "odd", 1)
CUT = "..."
README = (ROOT / "README.md").read_text(encoding="utf-8")


def state(plan, records=(), **changes):
    made = State(course_of(plan, records), PROFILE, LINE, "board 0007", "sim:", is_practice=True)
    return dataclasses.replace(made, **changes)


def answered(key, data):
    """Return the record of a press that sent `data`."""
    heard = Heard(4800, 7, (Received(0.1, data),))
    return Answered(f"press/{key}", Answer(AS_EXPECTED, data=data, heard=heard))


def rows_of(made, columns, rows):
    return ["".join(text for _, text in row).rstrip() for row in draw_console(made, columns, rows)]


def captures():
    """Return the two screens of README.md as lists of rows."""
    blocks = README.split("## What the session shows", 1)[1].split("\n\n")
    return [
        [row[4:] for row in block.splitlines()]
        for block in blocks
        if block.startswith("     PRACTICE")
    ]


def assert_shown(capture, drawn):
    """Assert that the rows of `capture` are those drawn, with gaps only where it says so."""
    at, is_gap = 0, False
    for row in capture:
        if row == CUT:
            is_gap = True
            continue
        found = drawn.index(row, at)
        assert is_gap or found == at, f"{drawn[at]!r} is missing before {row!r}"
        at, is_gap = found + 1, False
    assert at == len(drawn)


def test_the_look_is_drawn_as_shown():
    assert_shown(
        captures()[0],
        rows_of(
            state(spared("acceptance", "club-16x64"), mode="look", step_id="places"),
            80,
            24,
        ),
    )


def test_the_walk_over_the_keyboard_is_drawn_as_shown():
    pressed = [
        ("grave", b"`"),
        ("grave+shift", b"|"),
        ("1", b"1"),
        ("1+shift", b"!"),
        ("2", b"0"),
        ("2+shift", b"@"),
        ("2+control+shift", b"\x00"),
        ("3", b"1"),
        ("3+shift", b"!"),
        ("4", b"4"),
        ("4+shift", b"$"),
        ("5", b"5"),
        ("5+shift", b"%"),
    ]
    records = [answered(key, data) for key, data in pressed]
    plan = compile_plan(PROFILE, load_script("keyboard"))
    made = state(
        choose(plan, [step.id for step in plan.of_stage("keyboard")]),
        records,
        mode="pressing",
        step_id="press/6",
        came=b"".join(data for _, data in pressed),
        looks_s=(0.15,) * 10,
        link="sim:keyboard-code/stuck/1/0",
    )
    assert_shown(captures()[1], rows_of(made, 80, 24))


def test_the_readme_has_one_example_terminal_throughout():
    assert "singlebyte-24x80" not in README and "club-16x64" in README
