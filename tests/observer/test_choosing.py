"""The builder at plain prompts chooses from sentences; a picture is shown on demand."""

import pytest

from helpers.bench_plan import full_plan
from helpers.predicted import predictions_of
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer
from termprobe.observer.base import STOP, Wish
from termprobe.observer.choosing import ChoosingBuilder, choice_lines, difference_lines
from termprobe.terminal.predicted import RegionAsked
from termprobe.terminal.screen import Screen

PLAN = full_plan()
HELLO, LAMP, WORD = PLAN.step("hello"), PLAN.step("lamp"), PLAN.step("word")
KNOWN = predictions_of(HELLO)
OFFERED = ("aa", "bb", "cc")


class Known:
    """Knows what `hello` may show."""

    def __init__(self):
        self.begun = []

    def begin(self, step):
        self.begun.append(step.id)

    def found(self, step):
        return KNOWN if step.id == "hello" else None


class Asking(Known):
    """Knows what to ask of parts of the screen, too."""

    def found(self, step):
        rows = RegionAsked("odd rows", if_wrong=RegionAsked("row 3"))
        return KNOWN._replace(region=rows)


class Desk:
    """A builder who types prepared lines."""

    def __init__(self, *lines, foreseer=None):
        self.lines, self.shown = list(lines), []
        draw = lambda screen: "[screen] " + screen.rows[0].rstrip()  # noqa: E731 - of this test
        self.builder = ChoosingBuilder(self._ask, self.shown.append, draw)
        self.builder.foreseer = foreseer

    def _ask(self, text):
        if not self.lines:
            raise EOFError
        return self.lines.pop(0)

    def answer(self, step):
        said = self.builder.answer(step)
        assert not self.lines, f"not asked for: {self.lines}"
        return said


def test_one_number_tells_all_of_a_look_that_fails():
    known = Known()
    desk = Desk("n", "2", foreseer=known)
    chosen = KNOWN.found[1]
    assert desk.answer(HELLO) == Answer(
        DIFFERS,
        seen=chosen.screen.rows,
        cursor=chosen.screen.cursor,
        bells=0,
        chosen="bb",
        offered=OFFERED,
    )
    assert known.begun == ["hello"]
    assert [line for line in desk.shown if "code" in line] == [
        "  2  every character one code too high"
    ]


def test_none_of_them_is_told_in_words_as_ever():
    desk = Desk("no", "0", "dim", foreseer=Known())
    assert desk.answer(HELLO) == Answer(DIFFERS, note="dim", offered=OFFERED)


def test_a_picture_is_shown_with_its_differences_before_it_is_chosen():
    desk = Desk("n", "p2", "p 3", "9", "p9", "x", "1", foreseer=Known())
    assert desk.answer(HELLO).chosen == "aa"
    assert "[screen] IFMMP" in desk.shown and "[screen] HELLO" in desk.shown
    at = desk.shown.index("row  0: IFMMP")
    assert desk.shown[at + 1] == "        ^^^^^"
    refused = [line for line in desk.shown if "from 0 to 3 must be given" in line]
    assert len(refused) == 3


@pytest.mark.parametrize("foreseer", [None, Known()])
def test_where_nothing_is_predicted_it_is_as_without(foreseer):
    assert Desk("n", "off", foreseer=foreseer).answer(LAMP) == Answer(DIFFERS, note="off")
    assert Desk("y", foreseer=foreseer).answer(HELLO) == Answer(AS_EXPECTED)
    assert Desk("n", "dim").answer(HELLO) == Answer(DIFFERS, note="dim")


def test_the_end_of_the_input_stops():
    assert Desk("n", foreseer=Known()).answer(HELLO) == Wish(STOP)


def test_of_a_word_that_is_typed_there_is_no_picture():
    desk = Desk("y", "wrong", "yes", "dim", foreseer=Known())
    assert desk.builder.answer(HELLO) == Answer(AS_EXPECTED)
    assert desk.builder.typed(WORD, b"X\r") == Answer(DIFFERS, note="dim")


def test_the_list_says_how_far_it_may_be_trusted():
    first, *others = choice_lines(KNOWN)
    assert (
        first == "Predicted; 88 % that it is one of these:" and others[-1] == "  0  none of these"
    )


def test_of_many_rows_that_differ_the_first_are_shown():
    blank = Screen((" " * 5,) * 9, None)
    lines = list(difference_lines(blank, Screen(("  A B",) * 9, None)))
    assert lines[:2] == ["row  0:   A B", "          ^ ^"]
    assert lines[-1] == "3 more rows differ."


@pytest.mark.parametrize(
    "typed, told",
    [
        (["y", "no"], (("odd rows", True), ("row 3", False))),
        (["what", "n"], (("odd rows", False),)),
        (["yes", ""], (("odd rows", True),)),
        ([""], ()),
    ],
)
def test_where_it_is_none_of_them_parts_of_the_screen_are_asked_about(typed, told):
    answer = Desk("n", "0", *typed, "a smear", foreseer=Asking()).answer(HELLO)
    assert answer == Answer(DIFFERS, note="a smear", offered=OFFERED, regions=told)


def test_what_is_neither_yes_nor_no_of_a_part_is_said_to_be_so():
    desk = Desk("n", "0", "rows 1,3", "", "a smear", foreseer=Asking())
    desk.answer(HELLO)
    assert desk.shown[-1] == "An answer must be y or n, not 'rows 1,3'."
