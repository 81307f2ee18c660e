"""Scripts are read strictly: every mistake at once, with its place and what must be."""

import pytest

from termprobe.errors import FileError
from termprobe.script.load import load, parse, parse_recorded

GOOD = """
id: try
title: A try
cautions: {mains: Unplug it.}
stages:
  - id: first
    title: First
    steps:
      - {id: supply, kind: measure, title: Supply, unit: V, low: 4.75, high: 5.25, source: notes,
         caution: mains}
      - id: word
        kind: look
        title: Word
        question: Is it there?
        needs: [supply]
        send: [{text: AB}, {command: left, times: 2}, {pattern: solid, with: "*"}, {bytes: ESC 41h}]
"""


def test_the_same_text_is_read_once_whatever_its_name():
    script = parse(GOOD, "try.yaml")
    assert parse(GOOD, "a run file") is parse_recorded(GOOD, "another") is script


def findings(text):
    with pytest.raises(FileError) as caught:
        parse(text, "try.yaml")
    return caught.value.findings


def test_a_good_script_is_read_as_written():
    script = parse(GOOD, "try.yaml")
    step = script.stages[0].steps[1]
    assert (step.id, step.kind, step.needs) == ("word", "look", ("supply",))
    assert [
        fragment.text or fragment.command or fragment.pattern or fragment.bytes
        for fragment in step.send
    ] == ["AB", "left", "solid", b"\x1bA"]
    assert step.send[2].with_ == "*" and step.send[1].times == 2
    assert script.stages[0].steps[0].high == 5.25


@pytest.mark.parametrize(
    "old, new, finding",
    [
        ("id: word", "id: supply", 'id must be new, not "supply" again'),
        (
            "needs: [supply]",
            "needs: [suply]",
            'must need a stage or step that stands before it, not "suply"; nearest is "supply"',
        ),
        (
            "needs: [supply]",
            "covered_by: [supply]",
            "word must be without the key covered_by: which looks cover it is worked out",
        ),
        (
            "caution: mains",
            "caution: main",
            'caution of supply must be one of mains, not "main"; nearest is "mains"',
        ),
        (
            "kind: look",
            "kind: lok",
            "kind must be one of look, typed-back, reply, ask, measure, switch",
        ),
        (
            "question: Is it there?",
            "question: ''",
            "a step of kind look must have the key question, and word has none",
        ),
        ("low: 4.75, high: 5.25, ", "", "supply must have a limit, low or high or both"),
        ("low: 4.75", "low: 6", "low of supply must be at most high, not 6 against 5.25"),
        (
            "low: 4.75",
            "usual: {low: 6, high: 5}, low: 4.75",
            "low of supply must be at most high, not 6 against 5",
        ),
        (
            "low: 4.75",
            "ranges: [{low: 1, high: 2}], low: 4.75",
            "supply must have low and high, or ranges, and not both",
        ),
        ("low: 4.75, high: 5.25", "ranges: [{low: 1}]", "a range of supply must have low and high"),
        (
            "{text: AB}",
            "{text: AB, command: up}",
            "must have one of text, command, pattern, probe, bytes, not text and command",
        ),
        (
            "{text: AB}",
            "{times: 3}",
            "must have one of text, command, pattern, probe, bytes, not none",
        ),
        ("times: 2", "times: 0", "times in word must be 1 to 10000, not 0"),
        (
            "{text: AB}",
            "{text: AB, at: [1, 2]}",
            "at in word must be a row and a column of a command or a probe",
        ),
        ("{text: AB}", "{text: AB, short: yes}", "short in word must go with a command"),
        ("kind: look", "kind: look\n        short: yes", "short of word must go with kind reply"),
        ("{text: AB}", "{text: A, rows: 0}", "rows in word must be 1 to 99, not 0"),
        *(
            ("{text: AB}", wrong, "rows in word must go with a text of one character")
            for wrong in (
                "{text: AB, rows: 2}",
                "{text: A, rows: 2, times: 2}",
                "{bytes: 00, rows: 2}",
            )
        ),
        ("{text: AB}", "{text: AB, with: x}", "with in word must go with a pattern"),
        ("{text: AB}", "{text: AÄ}", "text in word must be printable ASCII, not hold '\\xc4'"),
        ("kind: look", "kind: look\n        glances: 0", "glances of word must be 1 to 100, not 0"),
        ("kind: look", "kind: look\n        start: none", "start of word must be fresh or keep"),
        ("send: [{text: AB}", "snd: [{text: AB}", 'not "snd"; nearest is "send"'),
    ],
)
def test_each_mistake_is_named_with_its_line(old, new, finding):
    assert old in GOOD
    found = findings(GOOD.replace(old, new))
    assert any(finding in line for line in found), found
    assert all(line.startswith("try.yaml:") and line.split(":")[1].isdigit() for line in found)


def test_a_word_that_no_key_could_send_is_a_mistake():
    text = (
        GOOD + "      - {id: back, kind: typed-back, title: Back, question: Type it., word: 'Ä'}\n"
    )
    assert any("word in back must be printable ASCII" in line for line in findings(text))


def test_all_mistakes_come_at_once():
    found = findings(
        GOOD.replace("id: word", "id: first")
        .replace("caution: mains", "caution: x")
        .replace("times: 2", "times: 0")
    )
    assert len(found) == 3


def test_a_mistake_hides_no_other_one_of_the_script():
    found = findings(
        GOOD.replace("kind: measure", "kind: mesure")
        .replace("high: 5.25", "high: 4")
        .replace("times: 2", "times: 0")
        .replace("needs: [supply]", "needs: [suply]")
    )
    assert [text.split(": ", 1)[1][:9] for text in found] == [
        "low of su",
        "kind must",
        "word must",
        "times in ",
    ], found


def test_the_script_of_an_old_run_file_may_say_what_covers_a_look():
    old = GOOD.replace("needs: [supply]", "covered_by: [supply]")
    (step,) = (step for step in parse_recorded(old, "run").stages[-1].steps if step.covered_by)
    assert (step.id, step.covered_by) == ("word", ("supply",))


def test_the_shipped_scripts_are_good_and_called_by_their_ids():
    assert load("acceptance").id == "acceptance"
    with pytest.raises(FileError, match='nearest is "acceptance"'):
        load("aceptance")


def test_every_limit_of_the_acceptance_script_names_its_source():
    measures = [
        step
        for stage in load("acceptance").stages
        for step in stage.steps
        if step.kind == "measure"
    ]
    assert len(measures) >= 6 and all(step.source for step in measures)


def test_steps_within_reach_of_danger_have_a_caution():
    script = load("acceptance")
    stages = {stage.id: stage for stage in script.stages}
    assert {
        stage_id: stages[stage_id].caution
        for stage_id in ("unpowered", "rails", "supply", "clock", "sync", "cable")
    } == {
        "unpowered": "mains",
        "rails": "polarity",
        "supply": "polarity",
        "clock": "tube",
        "sync": "tube",
        "cable": "serial",
    }


CHECK = "      - {id: x, kind: line-check, check: wiring, title: X, told_by: {key: WHO}}\n"


def test_what_tells_a_check_is_a_step_before_it():
    script = parse(GOOD + CHECK.replace("WHO", "supply"), "try.yaml")
    assert script.stages[0].steps[2].told_by == {"key": "supply"}


@pytest.mark.parametrize("who", ["suply", "x", "first"])
def test_no_other_step_and_no_stage_can_tell_a_check_anything(who):
    must = f'what tells x must be a step that stands before it, not "{who}"'
    assert any(must in finding for finding in findings(GOOD + CHECK.replace("WHO", who)))
