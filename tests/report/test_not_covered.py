"""What a run leaves out that its terminal has, worked out of profile, plan and records."""

import dataclasses

from termprobe.journal.records import LinkUsed, OptionSet
from termprobe.journal.spans import LinkSpan
from termprobe.plan.choose import choose_stages
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.report.not_covered import not_covered
from termprobe.script.load import load as load_script

PROFILE = load("singlebyte-24x80")
PLAN = compile_plan(PROFILE, load_script("acceptance"))
SPEEDS = "other speeds (110, 300, 600, 1200, 2400, 4800, 19200 baud)"


def span(line_format="9600 baud 7E1", steps=("a",)):
    return LinkSpan(LinkUsed("/dev/ttyUSB0", line_format), "", "", steps)


def test_a_whole_acceptance_names_line_options_and_what_no_step_tries():
    moved = [OptionSet("line", "local"), OptionSet("line", "on-line")]
    assert not_covered(PROFILE, PLAN, moved, [span()]) == (
        "at 9600 baud 7E1 only",
        "options not moved: duplex (full)",
        f"not tried: {SPEEDS}, handshake",
    )


def test_every_line_over_which_steps_were_answered_counts():
    told = not_covered(PROFILE, PLAN, [], [span(), span("300 baud 7E1"), span("x", ())])
    assert told[0] == "at 9600 baud 7E1 and 300 baud 7E1 only" and " 300," not in told[-1]


def test_options_and_positions_that_were_never_taken_are_named():
    three = dataclasses.replace(PROFILE.options[0], positions=("on-line", "local", "test"))
    profile = dataclasses.replace(PROFILE, options=(three, *PROFILE.options[1:]))
    told = not_covered(profile, PLAN, [OptionSet("line", "local")], [])
    assert told[0] == "options not moved: duplex (full)" and "not tried: line at test," in told[1]
    moved = [OptionSet("line", "local"), OptionSet("duplex", "half")]
    assert "options" not in "".join(not_covered(PROFILE, PLAN, moved, []))


def test_commands_that_no_step_sends_and_an_unused_keyboard_are_named():
    fields = choose_stages(PLAN, ["fields"])
    (*_, last) = not_covered(PROFILE, fields, [], [span()])
    assert "commands that no step sends (bell, " in last and last.endswith("keys of the keyboard")


def test_a_handshake_of_the_profile_is_named():
    other = load("ecma48-24x80")
    plan = compile_plan(other, load_script("acceptance"))
    assert "handshake (xon-xoff)" in not_covered(other, plan, [], [])[-1]
