"""Plain prompts answered on the board's own keyboard: one hand on the probe, eyes on the screen."""

from helpers.bench import look
from helpers.bench_plan import step
from helpers.run_bench import RunBench
from termprobe.cli.either_keyboard import NOTED, EitherKeyboard
from termprobe.journal.records import Answered, Noted
from termprobe.observer.choosing import ChoosingBuilder
from termprobe.runner.asking import Hands
from termprobe.runner.walk import carry_out

WORD = step("word", "stage", "typed-back", word="YN")


class Bench(RunBench):
    """A run at plain prompts: `presses` are what the board sends while a look is asked for."""

    def __init__(self, folder, typed, presses, word=b"YN\r", after_s=0.3):
        self.after_s, self.said, self.typed, self.presses = after_s, [], list(typed), list(presses)
        builder = ChoosingBuilder(self.ask, self.said.append, lambda screen: "a drawing")
        hands = Hands(type_word=lambda step: self.come(word))
        looks = (look("one"), look("two"))
        super().__init__(folder, WORD, *looks, observers=(builder,), hands=hands)
        builder.answer_keys = EitherKeyboard(
            self.run, self.said.append, self.said.append, self.read
        )
        carry_out(self.run)

    def come(self, data):
        self.link.waiting += data

    def ask(self, prompt):
        self.said.append(prompt)
        return self.typed.pop(0)

    def read(self, wait_s):
        self.clock.sleep_until(self.clock.now_s() + self.after_s)
        if self.presses:
            self.come(self.presses.pop(0))
            return None
        return self.typed.pop(0)

    def answers(self):
        return [(one.answer.observer, one.answer.word) for one in self.records(Answered)]


BY_BOARD = "board keyboard"


def test_once_the_keys_are_proven_looks_are_answered_on_either_keyboard(tmp_path):
    bench = Bench(tmp_path, ["y\n"], [b"Y"])
    assert bench.answers()[1:] == [(BY_BOARD, "as-expected"), ("builder", "as-expected")]
    assert [one.text for one in bench.records(Noted)] == [NOTED]
    assert sum("From now on you may answer here or on it" in said for said in bench.said) == 1


def test_a_difference_told_there_asks_for_no_remark_here(tmp_path):
    bench = Bench(tmp_path, [], [b"N", b"x", b"y"])
    assert bench.answers()[1:] == [(BY_BOARD, "differs"), (BY_BOARD, "as-expected")]
    assert not any("What do you see?" in said for said in bench.said)


def test_a_remark_is_asked_for_here_where_the_difference_is_told_here(tmp_path):
    bench = Bench(tmp_path, ["n\n", "odd", "y\n"], [])
    notes = [one.answer.note for one in bench.records(Answered)]
    assert notes == ["", "odd", ""]


def test_keys_that_are_not_proven_answer_nothing(tmp_path):
    bench = Bench(tmp_path, ["wrong", "yes", "", "y", "y"], [b"Y"], word=b"YM\r")
    assert bench.answers()[1:] == [("builder", "as-expected")] * 2 and bench.presses
    assert bench.records(Noted) == []


def test_the_end_of_the_input_stops(tmp_path):
    bench = Bench(tmp_path, [""], [])
    assert len(bench.answers()) == 1


def test_a_key_pressed_before_the_screen_can_have_been_looked_at_does_not_count(tmp_path):
    bench = Bench(tmp_path, ["y\n", "y\n"], [b"N"], after_s=0.1)
    assert bench.answers()[1:] == [("builder", "as-expected")] * 2
