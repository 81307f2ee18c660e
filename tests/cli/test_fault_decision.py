"""What is to become of a fault that was named is asked at a prompt."""

import dataclasses

from termprobe.cli.fault_decision import CARRIED_ON, UNFORESEEN, asked_at, going_on_at
from termprobe.runner.known_fault import ASK_ON, CARRY_ON, REPAIR, NamedFault

NAMED = NamedFault("f", ("g",), "line 2 stuck at 0", ("a",), (), ("Probe line 2.",))
GOING_ON = "termprobe run --resume a.run.jsonl --port sim:"


class Prompts:
    """A console at which `typed` is typed, then the input ends."""

    def __init__(self, *typed):
        self.typed, self.told = list(typed), []

    def tell(self, text):
        self.told.append(text)

    tell_paragraph = tell

    def ask(self, prompt):
        if not self.typed:
            raise EOFError
        return self.typed.pop(0)


def decided(*typed):
    prompts = Prompts(*typed)
    return asked_at(prompts, GOING_ON)(NAMED), "\n".join(prompts.told)


def test_it_is_told_with_what_to_probe_before_it_is_asked():
    _, told = decided("a")
    assert "line 2 stuck at 0" in told and "Probe line 2." in told and "No look tells it" in told


def test_each_word_decides():
    assert decided("c")[0] == decided(" Carry  ON ")[0] == CARRY_ON
    assert CARRIED_ON in decided("c")[1]
    assert decided("a")[0] == decided()[0] == ASK_ON
    decision, told = decided("repair")
    assert decision == REPAIR and told.endswith(GOING_ON)


def test_another_word_is_asked_for_again():
    decision, told = decided("maybe", "r")
    assert decision == REPAIR and "It must be one of r, c and a." in told


def test_a_run_that_goes_on_by_itself_says_with_which_fault():
    prompts = Prompts()
    assert going_on_at(prompts)(NAMED) == CARRY_ON
    told = "\n".join(prompts.told)
    assert "line 2 stuck at 0" in told and told.endswith(CARRIED_ON)


def test_where_nothing_can_be_foreseen_looks_are_said_to_wait():
    prompts = Prompts("c")
    unforeseen = dataclasses.replace(NAMED, is_foreseen=False)
    assert going_on_at(prompts)(unforeseen) == asked_at(prompts, GOING_ON)(unforeseen) == CARRY_ON
    assert prompts.told.count(UNFORESEEN) == 2 and CARRIED_ON not in prompts.told
