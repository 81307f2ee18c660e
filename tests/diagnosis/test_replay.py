"""A run played once more shows what the board showed, whatever was sent before."""

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Reader, records_of
from termprobe.board.faults.catalogue import fault
from termprobe.diagnosis.answers import evidence_of
from termprobe.diagnosis.replay import replay, shown_as_wanted
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("word", [{"text": "HELLO"}]),
        look("more", [{"text": "AGAIN"}, {"command": "bell"}], start="keep"),
        look("stars", [{"pattern": "solid", "with": "*"}]),
    ]
)
NAMES = ["bank-0-data/stuck/3/0", "decoder/dead/clear", "decoder/dead/bell", "baud/ratio/2"]


def run_on(*names):
    records = records_of(SINGLE, PLAN, names, Reader())
    return records, evidence_of(PLAN, records, judge(PLAN, records))


@pytest.mark.parametrize("name", NAMES[:3])
def test_it_shows_the_very_screens(name):
    records, answers = run_on(name)
    shown = replay(SINGLE, PLAN, records, answers, fault(SINGLE, name))
    assert [one.codes for one in shown] == [one.codes for one in answers]
    assert [one.cursor for one in shown] == [one.cursor for one in answers]
    assert [one.bells for one in shown] == [one.bells for one in answers]


def test_a_good_board_shows_what_it_must():
    records, answers = run_on()
    for one, shown in zip(answers, replay(SINGLE, PLAN, records, answers), strict=True):
        assert not shown.against(one.wanted).picture
        assert not shown_as_wanted(one.wanted).against(one.wanted).picture


def test_a_line_with_another_speed_hears_other_bytes():
    records, answers = run_on()
    wrong = replay(SINGLE, PLAN, records, answers, fault(SINGLE, "baud/ratio/2"))
    by_one = replay(SINGLE, PLAN, records, answers, fault(SINGLE, "baud/ratio/2"), piece=1)
    assert wrong[2].codes != answers[2].codes and wrong[2].codes != by_one[2].codes
