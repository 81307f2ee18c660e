"""What is expected of a step where known faults change its screen."""

from dataclasses import replace

from helpers.bench import look, screen_of
from helpers.foresights import STUCK, Foretold
from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.known_fault import KnownFault, ToRepair
from termprobe.plan.model import Measure
from termprobe.runner.known_fault import Expectations, NamedFault, with_faults

KNOWN = [KnownFault(STUCK)]
SHOWN = screen_of("HALLO", cursor=(0, 5), bells=1)


def test_the_screen_is_that_of_the_fault_from_when_it_is_known():
    found, step = Expectations(Foretold(a=SHOWN)), look("a")
    found.foresee([], step)
    assert found.of(step) == step and found.against(step) is None
    found.foresee(KNOWN, step)
    assert found.of(step).expected == SHOWN
    assert found.against(step).faults == (STUCK,)


def test_without_foresight_it_is_that_of_the_plan():
    found, step = Expectations(None), look("a")
    found.foresee(KNOWN, step)
    assert found.of(step) == step


def test_a_step_without_a_screen_stays_as_it_is():
    step = Measure("m", "power", "5 V")
    assert with_faults(step, ShownWithFaults((STUCK,), SHOWN.rows)) == step


def test_what_is_hidden_is_hidden_from_eyes_alone():
    named = NamedFault(STUCK, ("x",), "stuck", ("a",), ("b",))
    assert named.known(is_seen_by_eyes=True) == KnownFault(STUCK, ("x",), "stuck", ("a",), ("b",))
    assert named.known(is_seen_by_eyes=False).hidden == ()
    unforeseen = replace(named, is_foreseen=False)
    assert unforeseen.known(is_seen_by_eyes=False).hidden == ("b",)
    assert named.to_repair() == ToRepair(STUCK, ("x",), "stuck", ("a",))
