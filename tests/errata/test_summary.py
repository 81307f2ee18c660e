"""What is known of one run: its board, what passed, failed and was repaired, and the causes."""

import dataclasses

from helpers.bench import HEADER
from helpers.bench_plan import look, plan, step
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.pairs import SuspectPair
from termprobe.errata.summary import RunFacts, needs_diagnosis, summary_of
from termprobe.journal.card import FilledFromCard
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered, LinkUsed, TakenBack
from termprobe.verdict.judge import judge

PLAN = plan(*(look(name, "looks") for name in "abc"), step("volts", "looks", "ask"))
STUCK = "bank-1-data/stuck/3/0"
SUSPECT = Suspect((STUCK, "x/y"), "data line 3 is stuck", "bank-1-data", 0.9, ("a",), ())


def answered(name, word=AS_EXPECTED, **fields):
    return Answered(name, Answer(word, **fields), hash=PLAN.step(name).hash)


def facts(*records, header=HEADER, **fields):
    verdict = judge(PLAN, records)
    return RunFacts("7.run.jsonl", "f" * 64, header, records, PLAN, verdict, **fields)


def diagnosis(*suspects, explained=True, pairs=()):
    return Diagnosis("fail", explained, suspects, pairs=pairs)


def test_what_passed_and_failed_and_what_would_explain_it():
    made = facts(answered("a", DIFFERS, note="a 3 too many"), answered("b"), answered("volts"))
    assert needs_diagnosis(made)
    found = summary_of(made, diagnosis(SUSPECT))
    assert (found.serial, found.verdict, found.passed) == ("0042", "fail", ("b", "volts"))
    (failed,) = found.failed
    assert (failed.id, failed.title) == ("a", "Look at a") and "a 3 too many" in failed.symptom
    (cause,) = found.causes
    assert (cause.faults, cause.steps) == ((STUCK, "x/y"), ("a",))
    assert found.unexplained == () and found.time.looks == 2


def test_without_a_cause_steps_stay_open():
    made = facts(answered("a", DIFFERS), answered("b", DIFFERS))
    found = summary_of(made, diagnosis(SUSPECT, explained=False))
    assert found.causes == () and [step.id for step in found.unexplained] == ["a", "b"]


def test_two_faults_that_explain_it_together_are_two_causes():
    pair = SuspectPair((STUCK, "scroll/dead"), ("stuck", "dead"), ("bank-1-data", "scroll"), True)
    made = facts(answered("a", DIFFERS))
    found = summary_of(made, diagnosis(SUSPECT, explained=False, pairs=(pair,)))
    assert [cause.faults for cause in found.causes] == [(STUCK,), ("scroll/dead",)]
    assert [cause.block for cause in found.causes] == ["bank-1-data", "scroll"]


def test_a_fault_that_was_named_needs_no_diagnosis():
    made = facts(answered("a", DIFFERS), KnownFault(STUCK, ("x/y",), "stuck", ("a",)))
    assert not needs_diagnosis(made)
    (cause,) = summary_of(made).causes
    assert cause == ((STUCK, "x/y"), "stuck", "bank-1-data", ("a",))


def test_what_fails_beside_a_named_fault_is_diagnosed():
    named = KnownFault(STUCK, (), "stuck", ("a",))
    made = facts(answered("a", DIFFERS), named, answered("b", DIFFERS))
    assert needs_diagnosis(made)
    other = dataclasses.replace(SUSPECT, faults=("scroll/dead",), title="dead", block="scroll")
    found = summary_of(made, diagnosis(other))
    assert [(cause.faults[0], cause.steps) for cause in found.causes] == [
        (STUCK, ("a",)),
        ("scroll/dead", ("b",)),
    ]
    assert len(summary_of(made, diagnosis(SUSPECT)).causes) == 1, "the same fault is no second"


def test_what_was_repaired_within_the_run_had_failed():
    records = [answered("a", DIFFERS), ToRepair(STUCK, (), "stuck", ("a",)), TakenBack("a")]
    made = facts(*records, *(answered(name) for name in ("a", "b", "c", "volts")))
    found = summary_of(made)
    assert found.verdict == "pass" and found.was_repaired and found.has_failed_once
    assert [step.id for step in found.failed] == ["a"] and found.causes[0].faults == (STUCK,)


def test_practice_parts_and_the_run_before_are_noted():
    header = dataclasses.replace(HEADER, link=LinkUsed("sim:scroll/dead"))
    found = summary_of(facts(ComesAfter("b.run.jsonl"), header=header, left_out=3, damages=("x",)))
    assert (found.is_practice, found.is_part, found.after) == (True, True, "b.run.jsonl")
    assert found.damages == 1
    assert not summary_of(facts()).is_practice
    assert summary_of(facts(header=dataclasses.replace(HEADER, practice=4))).is_practice


def test_a_long_symptom_is_cut():
    found = summary_of(facts(answered("a", DIFFERS, note="x" * 1000)), diagnosis(SUSPECT))
    assert len(found.failed[0].symptom) == 200


def test_a_run_that_was_filled_in_from_a_card_says_so():
    assert not summary_of(facts(answered("a"))).is_from_card
    assert summary_of(
        facts(FilledFromCard("2026-01-02T03:04:05+00:00"), answered("a"))
    ).is_from_card
