"""Ochiai and Tarantula on the published example, and on a table worked out by hand."""

import pytest

from helpers.scripts import SINGLE, look, plan_of
from helpers.virtual_builders import Reader, records_of
from termprobe.diagnosis.diagnose import case_of
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.spectrum import Spectrum, exercised_by, ochiai_ranks, spectrum
from termprobe.verdict.judge import judge


@pytest.mark.parametrize(
    "failed_with, passed_with, tarantula, ochiai",
    [(1, 1, 0.833, 0.707), (1, 2, 0.714, 0.577), (1, 3, 0.625, 0.5), (1, 5, 0.5, 0.408)],
)
def test_the_middle_of_three_numbers(failed_with, passed_with, tarantula, ochiai):
    """The program of Jones, Harrold and Stasko: six tests, of which (2, 1, 3) fails.

    Its lines by how many failing and passing tests carry them out; the faulty one comes first.
    The figures are those of The Debugging Book, chapter Statistical Debugging.
    """
    found = Spectrum(1, 5, failed_with, passed_with)
    assert round(found.tarantula, 3) == tarantula and round(found.ochiai, 3) == ochiai


def test_six_looks_and_five_blocks():
    """Worked out by hand: which look uses which block, and looks 3, 4 and 6 fail."""
    uses = {
        "receiver": {1, 2, 3, 4, 5, 6},
        "ram-a": {1, 3, 4, 6},
        "ram-b": {2, 3, 6},
        "row-counter": {3, 4, 6},
        "decoder": {4, 5, 6},
    }
    found = {block: spectrum(steps, {3, 4, 6}, {1, 2, 5}) for block, steps in uses.items()}
    assert [round(one.ochiai, 4) for one in found.values()] == [0.7071, 0.866, 0.6667, 1.0, 0.6667]
    assert [round(one.tarantula, 4) for one in found.values()] == [0.5, 0.75, 0.6667, 1.0, 0.6667]
    ranks = ochiai_ranks(
        {block: set(map(str, steps)) for block, steps in uses.items()}, "346", "125"
    )
    assert list(ranks)[:2] == ["row-counter", "ram-a"]


def test_what_no_failed_step_uses_has_no_rank():
    assert ochiai_ranks({"decoder": {"a"}}, ["b"], ["a"]) == {}
    assert Spectrum(0, 3, 0, 1).ochiai == Spectrum(0, 3, 0, 1).tarantula == 0.0


def test_which_steps_exercise_a_block_is_found_by_simulation():
    plan = plan_of(
        [look("word", [{"text": "HELLO"}]), look("up", [{"command": "up"}, {"text": "B"}])]
    )
    records = records_of(SINGLE, plan, [], Reader())
    case = case_of(SINGLE, plan, records, judge(plan, records))
    found = exercised_by(case, fault_dictionary(SINGLE, plan))
    assert found["receiver-data"] == {"word", "up"} and "up" in found["decoder"]
    assert not found["scroll"] and "press/a" in found["key-matrix"]
