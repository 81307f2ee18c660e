"""Chains in which an option moves: what must be drawn first, and in a run that it is."""

from helpers.bench import Says, look
from helpers.run_bench import RunBench
from termprobe.journal.records import AS_EXPECTED, Answer, OptionSet
from termprobe.observer.base import REPEAT, Wish
from termprobe.observer.switch_hands import HandsObserver
from termprobe.plan.model import Group, Look
from termprobe.runner.torn import drawn_first
from termprobe.runner.walk import carry_out

YES = Answer(AS_EXPECTED)


def part(name, position, **fields):
    """Return a look that sends its name, with the switch so."""
    groups = (Group(name.encode(), "text"),)
    return look(name, groups=groups, settings=(("rows", position),), **fields)


FULL = part("a", "24")
HALF = part("b", "12", continues=True)
MORE = part("c", "12", continues=True)
BACK = part("d", "24", continues=True)


def bench(tmp_path, *answers, steps=(FULL, HALF, MORE, BACK)):
    moved = []
    hands = HandsObserver(lambda option, position: moved.append(position), ["rows"])
    made = RunBench(tmp_path, *steps, observers=[Says(*answers), hands])
    return made, moved


def test_what_must_be_drawn_first_is_all_of_a_chain_in_which_an_option_moves(tmp_path):
    plan = bench(tmp_path)[0].plan
    ids = [step.id for step in drawn_first(plan, BACK, None)]
    assert ids == ["a", "b", "c"]
    assert drawn_first(plan, BACK, "c") == () and drawn_first(plan, FULL, None) == ()
    assert drawn_first(plan, MORE, "b") == ()
    assert [step.id for step in drawn_first(plan, MORE, "a")] == []
    assert [step.id for step in drawn_first(plan, MORE, "d")] == ["a", "b"]


def test_each_step_in_order_needs_nothing_drawn_anew(tmp_path):
    made, moved = bench(tmp_path, YES, YES, YES, YES)
    assert carry_out(made.run) and made.sent() == b"abcd"
    assert moved == ["24", "12", "24"] and made.verdicts() == ["pass"] * 4


def test_repeated_it_is_drawn_from_its_first_step_each_with_its_own_option(tmp_path):
    made, moved = bench(tmp_path, YES, YES, YES, Wish(REPEAT), YES)
    assert carry_out(made.run)
    assert made.sent() == b"abcd" + b"abcd"
    assert moved == ["24", "12", "24", "12", "24"]
    assert [one.position for one in made.records(OptionSet)] == moved


class TiredHands(HandsObserver):
    """Hands that move a switch so many times, and no more."""

    def __init__(self, times):
        super().__init__(lambda option, position: None, ["rows"])
        self.times = times

    def answer(self, step):
        self.times -= 1
        return super().answer(step) if self.times >= 0 else None


def test_where_nobody_moves_the_option_the_step_stays_open(tmp_path):
    class Eyes(Says):
        def can_answer(self, step):
            return isinstance(step, Look)

    eyes = Eyes(YES, YES, YES, Wish(REPEAT))
    made = RunBench(tmp_path, FULL, HALF, MORE, BACK, observers=[eyes, TiredHands(3)])
    assert carry_out(made.run)
    assert made.verdicts() == ["pass", "pass", "pass", "unanswered"]
    assert made.sent() == b"abcda"
