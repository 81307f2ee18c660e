"""Plans: the same every time, and true to the reference."""

import dataclasses
import json

import pytest

from helpers.scripts import ECMA, SINGLE, acceptance, look, plan_of
from termprobe.errors import FileError
from termprobe.plan.choose import plan_hash
from termprobe.plan.compile import compile_plan
from termprobe.plan.document import plan_document
from termprobe.plan.model import Ask, KeyPress, Measure, NoChords, NoPresses, Reply, Switch
from termprobe.plan.presses import chord_presses, coded_presses, codes_of
from termprobe.profile.model import Fill
from termprobe.script.load import parse, parse_recorded

AB = [{"text": "AB"}]


def one_step(*line, **fields):
    """Return the only step of a script whose step is this one."""
    (step,) = plan_of(line, **fields).steps
    return step


@pytest.mark.parametrize("profile", [SINGLE, ECMA], ids=lambda profile: profile.id)
def test_a_plan_is_the_same_every_time(profile):
    one, two = acceptance(profile), acceptance(dataclasses.replace(profile))
    assert one is not two and one == two and len(one.hash) == 64
    assert len({step.hash for step in one.steps}) == len(one.steps)
    assert json.dumps(plan_document(one)) == json.dumps(plan_document(two))


def test_the_same_profile_and_script_are_compiled_once_for_each_speed():
    script = parse(TWO_STAGES, "try.yaml")
    plan = compile_plan(SINGLE, script, "try.yaml")
    assert compile_plan(SINGLE, script, "a run file", SINGLE.link.speed_baud) is plan
    assert compile_plan(SINGLE, script, "try.yaml", 300) is not plan


def test_what_cannot_be_compiled_is_told_by_the_name_given_last():
    script = parse(TWO_STAGES.replace("text: A", "pattern: zigzag"), "try.yaml")
    for name in ("one.yaml", "two.yaml"):
        with pytest.raises(FileError, match=name):
            compile_plan(SINGLE, script, name)


def test_a_step_s_hash_changes_with_any_of_its_fields():
    one = one_step(look("one", AB))
    others = (
        look("other", AB),
        look("one", [{"text": "AC"}]),
        look("one", AB, title="Other"),
        look("one", AB, glances=2),
        look("one", AB, kind="ask"),
    )
    hashes = {one.hash, *(one_step(other).hash for other in others)}
    assert len(hashes) == 6 and one_step(look("one", AB)).hash == one.hash
    assert plan_of([look("one", AB)]).hash == plan_hash([one])


# -- screens ---------------------------------------------------------------------------------------


def test_what_a_look_sends_and_expects():
    step = one_step(look("ab", [*AB, {"command": "left", "times": 2}, {"text": "-"}]))
    assert step.data == b"\x1aAB\x08\x08-"  # codes of the profile: SUB clears, BS goes left
    assert step.expected.rows[0].startswith("-B ") and step.expected.cursor == (0, 1)
    assert [group.label for group in step.groups] == ["clear", "text", "left x 2", "text"]


def test_negative_cells_count_from_the_last():
    step = one_step(look("corner", [{"command": "address", "at": [-2, -1]}, {"text": "X"}]))
    # terminfo(5): row 22 + 20h is 36h, column 79 + 20h is 6Fh
    assert step.data == b"\x1a\x1b=6oX"
    assert step.expected.rows[22][79] == "X"


def test_keep_goes_on_from_the_screen_before():
    lines = [look("one", AB), look("two", [{"text": "CD"}], start="keep")]
    first, second = plan_of(lines).steps
    assert second.continues and second.data == b"CD"
    assert second.expected.rows[0].startswith("ABCD")
    assert not first.continues


def test_bells_count_for_the_step_that_rings_them():
    bell = [{"command": "bell"}]
    first, second = plan_of([look("one", bell), look("two", bell * 2, start="keep")]).steps
    assert (first.expected.bells, second.expected.bells) == (1, 2)


def test_a_reply_is_expected_of_the_step_that_asks_for_it_alone():
    line = {"kind": "reply", "title": "Status", "command": "report-status"}
    lines = [
        json.dumps(line | fields) for fields in ({"id": "one"}, {"id": "two", "start": "keep"})
    ]
    first, second = plan_of(lines, ECMA).steps
    assert second.continues and first.reply == second.reply == b"\x1b[0n"  # ECMA-48 8.3.35


def test_an_undeclared_command_is_not_fitted_and_so_is_what_goes_on_from_it():
    lines = [
        look("one", [{"command": "insert-line"}]),
        look("two", [{"text": "CD"}], start="keep"),
    ]
    first, second = plan_of(lines).steps
    assert first.not_fitted == "profile singlebyte-24x80 declares no command insert-line"
    assert "not fitted" in second.not_fitted and not second.groups
    assert not second.continues and second.expected is None


def test_a_question_without_bytes_expects_no_screen():
    asked = json.dumps({"id": "lamp", "kind": "ask", "title": "Lamp", "question": "Is it lit?"})
    step = one_step(asked)
    assert isinstance(step, Ask) and step.expected is None and step.data == b""


def test_an_unknown_pattern_is_a_finding_with_line_and_nearest_word():
    with pytest.raises(FileError) as caught:
        plan_of([look("one", [{"pattern": "sold", "with": "*"}])])
    (finding,) = caught.value.findings
    assert finding.startswith("try.yaml:7:89: one: pattern must be one of solid, ")
    assert finding.endswith('not "sold"; nearest is "solid"')


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


def test_all_findings_are_told_at_once():
    with pytest.raises(FileError) as caught:
        plan_of([look("one", [{"pattern": "x"}]), look("two", [{"command": "address"}])])
    assert [finding.split(": ")[1] for finding in caught.value.findings] == ["one", "two"]


def test_fill_characters_follow_where_the_speed_needs_them():
    clear = dataclasses.replace(
        SINGLE.command("clear"),
        fill=Fill(code=b"\x00", count=3, from_baud=2400),
        settle_ms=50.0,
    )
    others = tuple(command for command in SINGLE.commands if command.name != "clear")
    profile = dataclasses.replace(SINGLE, commands=(clear, *others))
    group = one_step(look("one", AB), profile=profile).groups[0]
    assert group.data == b"\x1a\0\0\0" and group.settle_s == 0.05
    link = dataclasses.replace(SINGLE.link, speed_baud=1200)
    slow = dataclasses.replace(profile, link=link)
    assert one_step(look("one", AB), profile=slow).groups[0].data == b"\x1a"


# -- other kinds -----------------------------------------------------------------------------------


def reply(command):
    fields = {"id": "cpr", "kind": "reply", "title": "CPR", "command": command}
    return json.dumps(fields | {"send": [{"command": "address", "at": [23, 79]}]})


def test_a_reply_is_what_the_reference_answers():
    """ECMA-48 8.3.14: CPR is CSI line ; column R, counted from 1."""
    step = one_step(reply("report-cursor"), profile=ECMA)
    assert isinstance(step, Reply) and step.reply == b"\x1b[24;80R"


def test_a_reply_that_differs_from_model_to_model_is_known_by_its_form():
    step = one_step(reply("identify"), profile=ECMA)
    assert (step.form, step.wanted) == ((b"\x1b[", b"c"), 'ESC "[" parameters "c"')
    assert step.allows(step.reply)
    assert one_step(reply("report-status"), profile=ECMA).form is None


def test_a_command_without_a_reply_is_not_fitted():
    assert one_step(reply("home")).not_fitted == "profile singlebyte-24x80 gives home no reply"


def test_a_reading_keeps_its_limits_and_where_they_come_from():
    fields = {"unit": "V", "low": 4.75, "high": 5.25, "source": "TTL data", "stop_if": "it smokes"}
    step = one_step(json.dumps({"id": "rail", "kind": "measure", "title": "Rail"} | fields))
    assert isinstance(step, Measure) and step.limits == "5 V \u00b1 5 %"
    assert (step.source, step.stop_if) == ("TTL data", "it smokes")


def switch(option, position):
    fields = {"id": "s", "kind": "switch", "title": "Switch", "question": "Set it."}
    return json.dumps(fields | {"option": option, "position": position})


def test_a_switch_needs_an_option_that_the_profile_has():
    step = one_step(switch("duplex", "half"))
    assert isinstance(step, Switch) and (step.option, step.position) == ("duplex", "half")
    for option, position in (("duplex", "sideways"), ("speed", "half")):
        missing = f"profile singlebyte-24x80 has no option {option} with a position {position}"
        assert one_step(switch(option, position)).not_fitted == missing


def test_where_a_script_moves_an_option_every_other_step_has_it_at_its_normal_position():
    lines = [look("a", AB), look("b", AB, settings={"duplex": "half"}), switch("duplex", "half")]
    steps = {step.id: step for step in plan_of(lines).steps}
    assert steps["a"].settings == (("duplex", "full"),)
    assert steps["b"].settings == (("duplex", "half"),) and steps["s"].settings == ()
    assert one_step(look("a", AB)).settings == ()


def word(text):
    fields = {"id": "word", "kind": "typed-back", "title": "word", "question": "Type it."}
    return json.dumps(fields | {"word": text})


def with_keyboard(keyboard):
    return dataclasses.replace(SINGLE, keyboard=keyboard)


def test_a_word_is_typed_back_only_where_screen_and_keyboard_have_its_characters():
    keys = tuple(key for key in SINGLE.keyboard.keys if key.name != "y")
    without_y = with_keyboard(dataclasses.replace(SINGLE.keyboard, keys=keys))
    printing = dataclasses.replace(SINGLE.display.printing, last=0x5F)
    display = dataclasses.replace(SINGLE.display, printing=printing)
    capitals = dataclasses.replace(SINGLE, display=display)
    assert one_step(word("yn")).typed == b"yn\r"
    no_key = 'the keyboard of profile singlebyte-24x80 sends no "y"'
    assert one_step(word("yn"), profile=without_y).not_fitted == no_key
    no_glyph = 'profile singlebyte-24x80 shows no "y"'
    assert one_step(word("yn"), profile=capitals).not_fitted == no_glyph
    assert one_step(word("YN"), profile=capitals).not_fitted is None
    assert one_step(word("yn"), profile=with_keyboard(None)).not_fitted is None


def test_a_word_is_shown_on_a_fresh_screen():
    step = one_step(word("yn"))
    assert step.data == b"\x1ayn" and step.expected.rows[0].startswith("yn ")


# -- presses ---------------------------------------------------------------------------------------

KEYS = json.dumps({"id": "all-keys", "kind": "keys", "title": "Keys", "question": "Press it."})
CHORDS = json.dumps({"id": "diodes", "kind": "chords", "title": "Diodes", "question": "Hold."})


def test_keys_stand_for_a_step_for_each_press():
    plan = plan_of([KEYS])
    presses = coded_presses(SINGLE)
    assert [step.press for step in plan.steps] == list(presses)
    assert {type(step) for step in plan.steps} == {KeyPress}
    first = plan.steps[0]
    assert (first.id, first.title) == (presses[0].id, presses[0].title)
    assert (first.question, first.stage) == ("Press it.", "first")
    assert plan.key_codes == codes_of(presses)


def test_chords_stand_for_a_step_for_each_chord():
    assert [step.press for step in plan_of([CHORDS], ECMA).steps] == list(chord_presses(ECMA))


@pytest.mark.parametrize(
    "line, profile, kind, lacks",
    [
        (KEYS, with_keyboard(None), NoPresses, "no keyboard"),
        (CHORDS, SINGLE, NoChords, "no keyboard with diodes"),
    ],
)
def test_where_there_is_nothing_to_press_one_step_says_so(line, profile, kind, lacks):
    step = one_step(line, profile=profile)
    assert type(step) is kind
    assert step.not_fitted == f"profile singlebyte-24x80 describes {lacks}"


def test_what_needs_the_keys_needs_every_press():
    plan = plan_of([KEYS, look("after", AB, needs=["all-keys"])])
    assert plan.step("after").needs == tuple(press.id for press in coded_presses(SINGLE))


# -- stages ----------------------------------------------------------------------------------------

TWO_STAGES = """
id: try
title: A try
cautions: {mains: Mains are in reach., hot: The tube is hot.}
stages:
  - id: one
    title: One
    caution: mains
    steps:
      - {id: a, kind: ask, title: A, question: Q}
      - {id: b, kind: ask, title: B, question: Q, needs: [a], caution: hot}
  - id: two
    title: Two
    needs: [one]
    steps:
      - {id: c, kind: look, title: C, question: Q, send: [{text: A}]}
      - {id: d, kind: look, title: D, question: Q, send: [{text: A}]}
"""


def test_stages_hand_their_needs_and_cautions_to_their_steps():
    plan = compile_plan(SINGLE, parse(TWO_STAGES, "try.yaml"))
    assert [(stage.id, stage.caution) for stage in plan.stages] == [
        ("one", "Mains are in reach."),
        ("two", None),
    ]
    cautions = {step.id: step.caution for step in plan.steps}
    assert (cautions["a"], cautions["b"]) == ("Mains are in reach.", "The tube is hot.")
    assert cautions["c"] is None
    assert plan.step("b").needs == ("a",)
    assert plan.step("c").needs == plan.step("d").needs == ("a", "b")


def test_what_an_old_script_says_of_covering_counts_for_the_hash_and_for_nothing_else():
    old = TWO_STAGES[: TWO_STAGES.rindex("}")] + ", covered_by: [c]}\n"
    before = compile_plan(SINGLE, parse_recorded(old, "run")).step("d")
    now = compile_plan(SINGLE, parse(TWO_STAGES, "try.yaml")).step("d")
    assert before.covered_by == now.covered_by == ()
    assert before.hash != now.hash and dataclasses.replace(before, hash=now.hash) == now
