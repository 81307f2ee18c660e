"""Run files of format 1 give the verdicts that they gave when they were written.

They can be gone on with.
"""

import json
import shutil

import pytest

from helpers.paths import RUN_FILES
from termprobe.cli.recorded import load_run
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.reading import read
from termprobe.journal.records import Answer, Answered, Noted, Resumed
from termprobe.journal.upgrade import upgraded
from termprobe.verdict.judge import judge

NAMES = sorted(path.name.removesuffix(".run.jsonl") for path in RUN_FILES.glob("*.run.jsonl"))


def test_there_are_run_files_of_format_1():
    assert NAMES == ["addressing", "keys-quick", "session"]
    assert {read(RUN_FILES / f"{name}.run.jsonl").header.format for name in NAMES} == {1}


@pytest.mark.parametrize("name", NAMES)
def test_a_run_file_of_format_1_gives_the_verdicts_that_it_gave_then(name):
    run = load_run(RUN_FILES / f"{name}.run.jsonl")
    then = json.loads((RUN_FILES / f"{name}.verdicts.json").read_text(encoding="utf-8"))
    found = judge(run.plan, run.recording.records)
    assert found.verdict == then["verdict"]
    assert {step.id: step.verdict for step in found.steps} == then["steps"]
    assert {step.id: len(step.differs) for step in found.steps if step.differs} == then["differs"]


def test_it_can_be_gone_on_with_in_the_new_format(tmp_path):
    path = shutil.copy(RUN_FILES / "session.run.jsonl", tmp_path / "a.run.jsonl")
    journal = Journal.reopen(path, CrankedClock())
    journal.append(Answered("last", Answer("as-expected", observer="builder")))
    journal.close()
    recording = read(path)
    resumed = [record for record in recording.records if isinstance(record, Resumed)]
    assert [record.format for record in resumed] == [1, 2]
    assert recording.records[-1].answer.word == "as-expected"
    assert [record.text for record in recording.records if isinstance(record, Noted)] == [
        "the lamp flickers"
    ]


def test_a_script_says_covered_by_where_it_said_settled_by():
    header = {"kind": "header", "format": 1, "script_text": "  - {id: x, settled_by: [y]}\n"}
    assert upgraded(header)["script_text"] == "  - {id: x, covered_by: [y]}\n"
    assert upgraded(header | {"format": 2})["script_text"] == header["script_text"]


def test_an_answer_is_a_record_of_its_own():
    then = {"kind": "answer", "seq": 5, "step": "a", "hash": "f", "witness": "eyes", "strength": 1}
    then |= {"word": "differs", "seen": None, "value": 0.0, "note": ""}
    assert upgraded(then) == {
        "kind": "answer",
        "seq": 5,
        "step": "a",
        "answer": {
            "word": "differs",
            "value": 0.0,
            "note": "",
            "strength": 1,
            "observer": "eyes",
        },
    }


def test_what_is_of_today_stays_as_it_is():
    now = {"kind": "answer", "step": "a", "hash": "f", "answer": {"word": "differs"}}
    assert upgraded(now) is now
