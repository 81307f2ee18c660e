"""What looks are expected to tell of single cells and dots, by how many of them they show."""

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Eyes, records_of
from termprobe.diagnosis.bit_outlooks import Bits, bits_of_causes, with_bits
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.evident import Evident
from termprobe.diagnosis.next_look import next_look
from termprobe.diagnosis.ranking import ranked_classes
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("stars-too", [{"pattern": "solid", "with": "*"}]),
        look("u", [{"pattern": "solid", "with": "U"}]),
    ]
)
CELL = "cell/stuck/5-7-0/1"
"""It makes of * a +, and leaves U as it is."""


@pytest.fixture(scope="module")
def known():
    return fault_dictionary(SINGLE, PLAN)


def case_after(*looks):
    steps = [PLAN.step(one) for one in looks]
    records = records_of(SINGLE, PLAN, [CELL], Eyes(1), steps)
    return case_of(SINGLE, PLAN, records, judge(PLAN, records))


def cells_of(case, known):
    accounts = all_accounts(case, case.of_nothing(), known)
    return [one.cause.name for one in accounts if one.cause.block == "cell"]


def test_a_look_shows_all_cells_that_a_look_like_it_has_shown_and_no_others(known):
    case = case_after("stars")
    (name,) = cells_of(case, known)
    bits = bits_of_causes(case, [name, "bank-0-data/stuck/1/0"], known)
    assert bits.keys() == {name} and sum(bits[name].looks.values()) == 7 * (24 * 80 - 1) + 7
    shares = [bits[name].share_at(known.looks.index(one)) for one in ("stars", "stars-too", "u")]
    # The last cell stays blank: of its bits some are shown by all three looks.
    assert shares == [1.0, 1.0, pytest.approx(0.0, abs=0.05)]


def test_a_share_is_what_all_of_its_bits_have_in_common():
    bits = Bits("one cell", {Evident(0b01, 0b01): 3, Evident(0b00, 0b10): 1})
    assert (bits.share_at(0), bits.share_at(1)) == (0.75, pytest.approx(0.125, abs=0.026))


def test_an_answer_is_expected_as_often_as_the_share_has_it():
    of_sights = {"one cell": {True: 0.8, False: 0.2}, "no bit": {True: 0.0, False: 1.0}}
    found = with_bits(of_sights, {CELL: Bits("one cell", {Evident(1, 1): 1, Evident(0, 0): 3})}, 0)
    assert found[CELL] == pytest.approx({True: 0.2, False: 0.8})


def test_a_look_that_shows_the_same_of_every_cause_left_is_not_asked(known):
    """After two looks alike it is a cell or a data line; a third like them parts none of these."""
    case = case_after("stars", "stars-too")
    found = ranked_classes(case.of_nothing(), all_accounts(case, case.of_nothing(), known))
    verdict = judge(PLAN, case.records)
    assert next_look(case, found, verdict, known) == "u"
