"""Looks that were marked are played again once for each picture, not once for each fault."""

import pytest

from helpers.dictionaries import of_acceptance
from helpers.scripts import SINGLE, acceptance
from helpers.virtual_builders import Eyes, looks_to_play, records_of
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.model import block_of
from termprobe.diagnosis import diagnose, marked_looks, run_boards
from termprobe.diagnosis.accounts import Account, score
from termprobe.diagnosis.causes import cause_of
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.marked_looks import MarkedLooks
from termprobe.journal.records import DIFFERS, EYES, Answer, Answered
from termprobe.verdict.judge import judge

FAULT = "bank-0-data/stuck/1/0"
PLAN = acceptance()
LOOKS = [look for look in looks_to_play(PLAN) if look.id in ("solid-2a", "row-tags")]


def marked():
    """Return the records of a run in which the first cell of the first look was marked."""
    rows = PLAN.step("solid-2a").expected.rows
    seen = ("(" + rows[0][1:], *rows[1:])
    records = records_of(SINGLE, PLAN, [FAULT], Eyes(1), LOOKS)
    return [
        Answered("solid-2a", Answer(DIFFERS, seen=seen, strength=EYES))
        if isinstance(one, Answered) and one.step == "solid-2a"
        else one
        for one in records
    ]


def test_what_shows_the_same_is_played_once(monkeypatch):
    played, replay = [], marked_looks.replay
    monkeypatch.setattr(marked_looks, "replay", lambda *told: played.append(1) or replay(*told))
    records = marked()
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    found = all_accounts(case, case.of_nothing(), of_acceptance())
    best = max(found, key=lambda one: score(one, case.of_nothing()))
    assert block_of(best.cause.name) == "bank-0-data"
    number = of_acceptance().looks.index("solid-2a")
    pictures = {both.alone[number].picture for both in of_acceptance().faults.values()}
    assert 0 < len(played) <= len(pictures) < len(of_acceptance().faults) / 2
    again = all_accounts(case, case.of_nothing(), of_acceptance())
    assert again == found and len(played) <= len(pictures)


def test_what_is_known_already_is_compared_however_little_may_be_played(monkeypatch):
    """No fault leads only since nobody compared the marks with its picture."""
    records = marked()
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    found = all_accounts(case, case.of_nothing(), of_acceptance())
    monkeypatch.setattr(diagnose, "MOST_BYTES", 1)
    monkeypatch.setattr(run_boards, "RunBoard", None)
    assert all_accounts(case, case.of_nothing(), of_acceptance()) == found


@pytest.mark.parametrize("name", ["bank-0-data/stuck/1/0", "bank-0-data/stuck/1/1", "scroll/dead"])
def test_each_fault_fits_as_if_it_were_played(name):
    records, fault = marked(), catalogue(SINGLE)[name]
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    looks, known = MarkedLooks(case, of_acceptance()), Account(cause_of(fault), {})
    for other in list(catalogue(SINGLE).values())[::40]:
        looks.told_anew(Account(cause_of(other), {}), other)
    assert looks.told_anew(known, fault).fits == case.fits_of_all_shown(case.shown_with(fault))


def test_what_the_run_told_already_is_not_played_again():
    records, fault = marked(), catalogue(SINGLE)["decoder/dead/clear"]
    case = case_of(SINGLE, PLAN, records, judge(PLAN, records))
    looks, known = MarkedLooks(case, of_acceptance()), Account(cause_of(fault), {})
    assert looks.told_anew(known, fault) == known and not looks.bytes_played
