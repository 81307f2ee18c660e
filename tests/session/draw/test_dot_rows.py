"""Characters dot by dot above the screen: as they must be, and as the picture has them."""

import dataclasses

from helpers.bench_state import rows_of, state
from termprobe.session.draw.dot_rows import dot_rows
from termprobe.session.mode import View
from termprobe.session.mode_table import MODES
from termprobe.terminal.dots import Enlarged

L = Enlarged("L", ("#..", "#..", "###"))
WRONG = (("L", "#../#../#.."), ("E", "#"))


def asking(made, enlarged=(L,)):
    """Return the state with the dots of its look asked for."""
    step = dataclasses.replace(made.step, enlarged=enlarged)
    steps = tuple(step if one.id == step.id else one for one in made.plan.steps)
    course = dataclasses.replace(made.course, plan=dataclasses.replace(made.plan, steps=steps))
    return dataclasses.replace(made, course=course)


def drawn(made, columns=80, rows=20):
    return rows_of(dot_rows(View(made, columns, rows, MODES["look"])))


def test_what_is_asked_for_is_drawn_in_half_blocks():
    assert drawn(asking(state())) == [" L", " █", " ▀▀▀"]


def test_nothing_is_drawn_where_nothing_is_asked_or_the_screen_would_have_no_room():
    assert drawn(state()) == []
    assert drawn(asking(state()), rows=10) == []
    assert drawn(asking(state()), rows=11) != []


def test_bands_stand_close_where_they_have_no_room_otherwise():
    wide = Enlarged("-", ("#" * 50, "." * 50, "." * 50))
    made = asking(state(), (L, wide, wide))
    apart = drawn(made, rows=15)
    assert len(apart) == 7 and apart[3:5] == [" ", " -"]
    close = drawn(made, rows=14)
    assert close == [line for line in apart if line.strip()]
    assert drawn(made, rows=len(close) + 7) == []


def test_a_picture_shows_the_same_characters_as_it_draws_them():
    made = state(mode="choosing")
    first, *others = made.predictions.found
    screen = dataclasses.replace(first.screen, misdrawn=WRONG)
    found = (first._replace(screen=screen), *others)
    made = dataclasses.replace(made, predictions=made.predictions._replace(found=found))
    assert drawn(asking(made)) == [" L", " █", " ▀"]
    assert drawn(made)[0] == " L    E", "none is asked for: what is wrong is shown"


def test_the_board_of_a_practice_shows_its_own():
    shown = dataclasses.replace(state().screen, misdrawn=WRONG[:1])
    made = asking(state(is_practice=True, board_screen=shown, turns=1))
    assert drawn(made) == [" L", " █", " ▀"]


def test_a_narrow_console_has_them_below_one_another():
    rows = drawn(asking(state(), (L, L, L)), columns=12)
    assert max(map(len, rows)) <= 12 and rows.count(" L") == 1
