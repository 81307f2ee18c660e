"""The screen of a simulated board, as a builder sees it: rows, cursor, bells, and dots."""

import dataclasses

import pytest

from helpers.bench import look, screen_of
from helpers.bench_plan import step
from termprobe.board.base import TubePicture
from termprobe.journal.records import AS_EXPECTED, DIFFERS
from termprobe.observer.base import compared
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.terminal.dots import Enlarged

LOOK = look("a")


@pytest.mark.parametrize(
    "fields, word",
    [
        ({"cursor": (0, 5)}, AS_EXPECTED),
        ({"cursor": (0, 4)}, DIFFERS),
        ({"cursor": (0, 5), "bells": 1}, DIFFERS),
    ],
)
def test_the_screen_sees_cursor_and_bells_too(fields, word):
    screen = screen_of("HELLO", **fields)
    answer = SimulatedScreenObserver(lambda: screen).answer(LOOK)
    assert answer.word == word and answer.seen == screen.rows


def test_bells_are_counted_from_the_fresh_screen_on():
    shown = [screen_of("HELLO", cursor=(0, 5), bells=3)]
    observer = SimulatedScreenObserver(lambda: shown[-1])
    observer.begin()
    assert observer.answer(LOOK).bells == 0
    shown.append(screen_of("HELLO", cursor=(0, 5), bells=5))
    assert observer.answer(LOOK).bells == 2


def test_only_what_shows_a_screen_is_claimed():
    observer = SimulatedScreenObserver(lambda: screen_of())
    asked = step("q", "s", "ask", expected=screen_of("HELLO"))
    assert observer.can_answer(LOOK) and observer.can_answer(asked)
    assert not observer.can_answer(step("q", "s", "ask"))
    assert not observer.can_answer(step("t", "s", "typed-back", word="A", expected=screen_of("A")))
    assert observer.answer(look("b", expected=None)) is None


WRONG = (("L", "#../#../#.."),)
ENLARGED = (Enlarged("L", ("#..", "#..", "###")),)


def drawn_wrong():
    return dataclasses.replace(screen_of("HELLO", cursor=(0, 5)), misdrawn=WRONG)


def test_wrong_dots_are_seen_where_they_are_asked_for_and_no_dump_sees_them():
    asked, shown = look("a", enlarged=ENLARGED), drawn_wrong()
    answer = SimulatedScreenObserver(lambda: shown).answer(asked)
    assert answer.word == DIFFERS and answer.misdrawn == WRONG and answer.seen == shown.rows
    assert SimulatedScreenObserver(lambda: shown).answer(LOOK).word == AS_EXPECTED
    dumped = compared(asked.expected, shown.rows, shown.cursor)
    assert dumped.word == AS_EXPECTED and dumped.misdrawn is None


def test_a_board_that_tells_nothing_of_dots_leaves_them_untold():
    shown = TubePicture(screen_of("HELLO").rows, (0, 5), 0)
    assert SimulatedScreenObserver(lambda: shown).answer(LOOK).misdrawn is None


def test_what_is_expected_with_wrong_dots_is_as_expected_with_these_alone():
    shown = drawn_wrong()
    known = look("a", enlarged=ENLARGED, expected=shown)
    assert SimulatedScreenObserver(lambda: shown).answer(known).word == AS_EXPECTED
    good = screen_of("HELLO", cursor=(0, 5))
    assert SimulatedScreenObserver(lambda: good).answer(known).word == DIFFERS
