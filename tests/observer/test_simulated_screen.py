"""The screen of a simulated board, read without eyes: rows, cursor, bells."""

import pytest

from helpers.bench import look, screen_of
from helpers.bench_plan import step
from termprobe.journal.records import AS_EXPECTED, DIFFERS
from termprobe.observer.simulated_screen import SimulatedScreenObserver

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
