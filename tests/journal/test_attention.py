"""Attention checks stand in the run file, apart from all answers."""

import pytest

from helpers.bench import HEADER, look, plan
from termprobe.clock import CrankedClock
from termprobe.journal.attention import AttentionChecked, AttentionWanted, is_measured
from termprobe.journal.file import Journal
from termprobe.journal.reading import read
from termprobe.journal.records import AS_EXPECTED, DIFFERS, DISPUTED, SKIPPED, UNSURE, Answer
from termprobe.verdict.judge import judge


def test_they_are_read_back_as_they_were_written_and_judge_nothing(tmp_path):
    path = tmp_path / "a.run.jsonl"
    journal = Journal.create(path, HEADER, CrankedClock())
    written = [
        journal.append(AttentionWanted(0.1, 7)),
        journal.append(AttentionChecked("a", Answer(DIFFERS, seen=("X",)))),
    ]
    journal.close()
    assert list(read(path).records) == written
    assert judge(plan(look("a")), written).steps[0].verdict == "unanswered"


@pytest.mark.parametrize(
    "word, caught, missed",
    [
        (DIFFERS, True, False),
        (DISPUTED, True, False),
        (AS_EXPECTED, False, True),
        (UNSURE, False, False),
        (SKIPPED, False, False),
    ],
)
def test_only_an_answer_that_decides_is_caught_or_missed(word, caught, missed):
    checked = AttentionChecked("a", Answer(word))
    assert (checked.is_caught, checked.is_missed) == (caught, missed)


def test_few_checks_measure_nothing():
    assert is_measured(7, 3) and not is_measured(6, 3)
