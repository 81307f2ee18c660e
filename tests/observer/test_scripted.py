"""Answers from a file: read strictly against the plan, every finding at once."""

import pytest

from helpers.bench import look, plan
from helpers.bench_plan import step
from termprobe.errors import FileError
from termprobe.journal.records import AS_EXPECTED, DIFFERS, SKIPPED, UNSURE, Answer
from termprobe.observer import scripted

PLAN = plan(
    look("screen"),
    step("rail-5", "s", "measure", unit="V", low=4.75, high=5.25),
    step("clock", "s", "ask"),
    step("echo-on", "s", "switch", option="echo", position="on"),
)


def answers(text):
    observer = scripted.parse(text, "answers.yaml", PLAN)
    return {step.id: observer.answer(step) for step in PLAN.steps if observer.can_answer(step)}


def test_each_kind_takes_its_own_answers():
    assert answers("rail-5: 4900 mV\nclock: yes\necho-on: no\n") == {
        "rail-5": Answer(AS_EXPECTED, value=4.9),
        "clock": Answer(AS_EXPECTED),
        "echo-on": Answer(DIFFERS),
    }
    assert answers("rail-5: 5.3\nclock: unsure\n") == {
        "rail-5": Answer(DIFFERS, value=5.3),
        "clock": Answer(UNSURE),
    }
    assert answers("rail-5: skip\n")["rail-5"].word == SKIPPED


@pytest.mark.parametrize("typed", ["5,02", "5,02 V", "5.02V", "5.02 V", "5V02", "5020m"])
def test_a_reading_is_written_as_it_is_typed(typed):
    assert answers(f"rail-5: {typed}\n") == {"rail-5": Answer(AS_EXPECTED, value=5.02)}


def test_a_comma_that_may_mean_two_things_is_told_with_its_place():
    with pytest.raises(FileError) as caught:
        answers("rail-5: 5,020\n")
    assert caught.value.findings == (
        "answers.yaml:1:9: a reading must be 5.020 or 5020; '5,020' may mean either",
    )


def test_what_the_file_leaves_out_stays_unanswered():
    assert list(answers("clock: yes\n")) == ["clock"]


def test_every_finding_is_told_with_its_place():
    with pytest.raises(FileError) as caught:
        answers("rail-6: 5\nscreen: yes\nrail-5: five\nclock: yess\necho-on: yes\n")
    assert caught.value.findings == (
        "answers.yaml:1:1: an answer must be for a step of the plan, "
        'not "rail-6"; nearest is "rail-5"',
        "answers.yaml:2:1: an answer must be for a step of kind measure, ask, switch; "
        "screen is of kind look",
        "answers.yaml:3:9: a reading must be a number, with a point and its unit if you like "
        "(4.9 V), not 'five'",
        "answers.yaml:4:8: the answer must be one of yes, no, unsure, skip, "
        'not "yess"; nearest is "yes"',
    )


@pytest.mark.parametrize(
    "text", ["", "- a\n", "rail-5: 5\nrail-5: 5\n", "rail-5: {a: b}\n", "rail-5: [\n"]
)
def test_what_is_no_mapping_of_words_is_refused(text):
    with pytest.raises(FileError, match=r"answers.yaml:\d+:\d+: "):
        answers(text)


def test_a_missing_file_is_told(tmp_path):
    with pytest.raises(FileError, match="must be a readable file"):
        scripted.load_answers(tmp_path / "none.yaml", PLAN)


def test_a_file_is_read(tmp_path):
    (tmp_path / "a.yaml").write_text("clock: yes\n")
    assert scripted.load_answers(tmp_path / "a.yaml", PLAN).can_answer(PLAN.step("clock"))
