"""Which fault would explain a run: the true one comes first, and what is not modelled is flagged.

Every fault is played by `python -m tests.builders`; here are some of each block.
"""

import functools
from dataclasses import replace

import pytest

from helpers.examples import one_in
from helpers.scripts import ECMA, SINGLE, acceptance, look, plan_of
from helpers.virtual_builders import Eyes, Reader, looks_to_play, records_of
from termprobe import yamlfile
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import fault
from termprobe.board.faults.model import block_of, make
from termprobe.cli.kept_dictionary import kept_dictionary
from termprobe.diagnosis.diagnose import diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.foreseen import foreseen
from termprobe.diagnosis.why_next import WhyNext
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    EYES,
    Answer,
    Answered,
    Sent,
    StepBegun,
)
from termprobe.plan.compile import compile_plan
from termprobe.script.load import load as load_script
from termprobe.terminal.screen import UNKNOWN_CHARACTER
from termprobe.verdict.judge import judge

PLAN = acceptance()
SHARED = {"bank-0-data/stuck/2/0", "decoder/dead/clear", "scroll/dead", "row-counter/stuck/4/1"}


def dictionary_of(plan):
    return kept_dictionary(plan, SINGLE, yamlfile.read_text(yamlfile.find(SINGLE.id, "profiles")))


@functools.cache
def dictionary():
    return dictionary_of(PLAN)


def diagnosed(records, plan=PLAN, known=None):
    known = known or dictionary()
    return diagnose(SINGLE, plan, records, judge(plan, records), known)


def names():
    """Return one fault of each block that looks can show, and those that are wanted always."""
    of_block = {}
    for name, performance in dictionary().faults.items():
        if performance != dictionary().good and block_of(name) != "baud":
            of_block[block_of(name)] = name
    return sorted({*of_block.values(), *SHARED})


def gone_on_with(name, looks):
    """Return the records of eyes at a board with the fault, in a run that goes on with it.

    Two looks differ; then all are as expected of a board that has it.
    """
    board, records, differed = Board(SINGLE, [fault(SINGLE, name)]), [], 0
    for step in looks:
        records.append(StepBegun(step.id, step.hash))
        for group in step.groups:
            board.receive(group.data)
            records.append(Sent(step.id, group.data))
        against, word = None, AS_EXPECTED
        if differed >= 2:
            against = foreseen(SINGLE, PLAN, records, step, [name])
        elif board.screen().rows != step.expected.rows:
            word, differed = DIFFERS, differed + 1
        records.append(Answered(step.id, Answer(word), step.hash, against=against))
    return records


@pytest.mark.parametrize(
    "name", ["bank-0-data/bridged/1-4/high", "bank-1-address/bridged/0-6/high"]
)
def test_a_screen_that_is_as_expected_with_the_known_fault_speaks_for_it(name):
    records = gone_on_with(name, [one for one in looks_to_play(PLAN) if not one.continues][:14])
    with_fault = [one.step for one in records if getattr(one, "against", None)]
    first = diagnosed(records).suspects[0]
    assert len(with_fault) >= 2 and name in first.faults
    assert not first.contradicts and set(with_fault) <= set(first.supports)


@pytest.mark.slow
def test_with_whole_screens_the_true_class_is_first_and_explains_all():
    for name in one_in(12, names()):
        found = diagnosed(records_of(SINGLE, PLAN, [name], Reader()))
        assert found.is_explained and found.verdict == "fail", name
        assert name in found.suspects[0].faults and len(found.suspects[0].faults) <= 2
        assert found.suspects[0].probability > 0.95 and not found.suspects[0].contradicts
        assert found.blocks[0].block in {block_of(one) for one in found.suspects[0].faults}


@pytest.mark.slow
def test_with_yes_and_no_alone_the_true_class_is_among_the_leaders():
    for name in one_in(4, names()):
        found = diagnosed(records_of(SINGLE, PLAN, [name], Eyes(1)))
        first_three = [fault for one in found.suspects[:3] for fault in one.faults]
        assert name in first_three, name


def test_a_bit_of_a_single_cell_is_found_by_where_it_was_seen():
    name = "cell/stuck/12-40-3/1"
    found = diagnosed(records_of(SINGLE, PLAN, [name], Reader()))
    assert found.is_explained and found.suspects[0].faults == (name,)


def test_a_good_board_leaves_nothing_to_explain():
    found = diagnosed(records_of(SINGLE, PLAN, [], Reader()))
    assert (found.verdict, found.is_explained, found.suspects) == ("incomplete", True, ())


def test_one_wrong_yes_does_not_change_the_first_class():
    name = "bank-0-data/stuck/2/0"
    records = records_of(SINGLE, PLAN, [name], Reader())
    first = diagnosed(records).suspects[0]
    for number, record in enumerate(records):
        if isinstance(record, Answered) and record.answer.word == DIFFERS:
            missed = Answered(record.step, Answer("as-expected"), record.hash)
            found = diagnosed([*records[:number], missed, *records[number + 1 :]])
            assert found.suspects[0].faults == first.faults
            break


def test_a_missed_look_stands_against_the_suspect_and_many_keep_it_from_explaining():
    name = "bank-1-data/stuck/3/0"
    records = records_of(SINGLE, PLAN, [name], Eyes(3, errors=0.0))
    differing = [
        number
        for number, record in enumerate(records)
        if isinstance(record, Answered) and record.answer.word == DIFFERS
    ]
    for missed, is_explained in ((1, True), (len(differing) // 2, False)):
        changed = list(records)
        for number in differing[:missed]:
            step = changed[number].step
            changed[number] = Answered(step, Answer("as-expected"), changed[number].hash)
        found = diagnosed(changed)
        assert found.is_explained == is_explained
        if is_explained:
            assert found.suspects[0].contradicts == (changed[differing[0]].step,)


def test_marks_tell_what_yes_and_no_cannot():
    """Rows that are marked tell the banks apart, a character that is typed the bit."""
    plan = plan_of([look("stars", [{"pattern": "solid", "with": "*"}])])
    expected = plan.step("stars").expected.rows
    seen = [row if number % 2 else UNKNOWN_CHARACTER * 80 for number, row in enumerate(expected)]
    seen[0] = "(" + seen[0][1:]
    answer = Answer(DIFFERS, seen=tuple(seen), strength=EYES)
    records = records_of(SINGLE, plan, ["bank-0-data/stuck/1/0"], Eyes(1))
    records[-1] = Answered("stars", answer)
    found = diagnosed(records, plan, fault_dictionary(SINGLE, plan))
    assert "bank-0-data/stuck/1/0" in found.suspects[0].faults
    assert {block_of(name) for name in found.suspects[0].faults} == {"bank-0-data"}


KINDS_OF_THEIR_OWN = {
    "inverted": lambda code: code ^ 1,
    "rotated": lambda code: code << 1 & 0x7F | code >> 6,
    "three lines in a ring": lambda code: code & 0x78 | (code << 1 | code >> 2 & 1) & 7,
    "three lines touch": lambda code: code & 0x78 | (7 if code & 7 == 7 else 0),
    "upper case only": lambda code: code - 0x20 if 0x61 <= code <= 0x7A else code,
    "two lines stuck": lambda code: code & ~0x12,
}


@pytest.mark.parametrize("kind", one_in(6, KINDS_OF_THEIR_OWN))
def test_a_fault_of_a_kind_that_is_not_modelled_is_never_explained(kind):
    change = KINDS_OF_THEIR_OWN[kind]

    def edit(wiring):
        wiring.buses["receiver-data"] = tuple(map(change, range(128)))

    plan = compile_plan(SINGLE, load_script("quick"))
    records = records_of(SINGLE, plan, [make("receiver-data/odd/0", kind, edit)], Reader())
    found = diagnosed(records, plan, dictionary_of(plan))
    assert not found.is_explained and found.blocks
    assert sum(one.probability for one in found.blocks) == pytest.approx(1, abs=0.05)


def test_without_a_circuit_only_the_line_and_the_keyboard_are_suspected():
    plan = plan_of([look("word", [{"text": "HELLO"}])], ECMA)
    records = [Answered("word", Answer(DIFFERS))]
    found = diagnose(ECMA, plan, records, judge(plan, records), None)
    assert not found.is_explained and found.verdict == "fail" and found.next is None


@pytest.mark.parametrize("name", ["bank-1-data/stuck/3/1", "decoder/dead/up"])
def test_the_one_answer_that_stands_against_the_cause_is_asked_for_once_more(name):
    """Of three looks that show the fault a slip of the eye passed the first."""
    sights = dict(zip(dictionary().looks, dictionary().faults[name].alone, strict=True))
    showing = [look for look, sight in sights.items() if sight.picture][:3]
    others = [look for look, sight in sights.items() if not sight.picture][:6]
    asked = [PLAN.step(look) for look in sights if look in showing + others]
    found = diagnosed([_passed(one, showing[0]) for one in _eyes_at(name, asked)])
    assert not found.is_explained and name in found.suspects[0].faults
    assert (found.next, found.why_next) == (showing[0], WhyNext.AGAINST)
    assert diagnosed(_eyes_at(name, asked)).why_next is not WhyNext.AGAINST


def _eyes_at(name, looks):
    return records_of(SINGLE, PLAN, [name], Eyes(1), looks)


def _passed(record, look):
    """Return the record, as if `look` had been passed."""
    if isinstance(record, Answered) and record.step == look:
        return replace(record, answer=Answer(AS_EXPECTED))
    return record
