"""How easily differences are seen, class by class."""

import pytest

from termprobe.diagnosis.shown import Sight
from termprobe.diagnosis.visibility import (
    CELLS,
    CLASSES,
    CURSOR,
    DOTS,
    LINE,
    SCREEN,
    SOUND,
    USUAL_MISS,
    chance_seen,
    class_of,
    less_visible,
    most_visible,
)


def sight(cells=0, cursor=False, bells=False):
    return Sight(cells, cursor, bells, "some picture")


@pytest.mark.parametrize(
    "shown, seen",
    [
        (sight(1920), SCREEN),
        (sight(480), SCREEN),
        (sight(479), LINE),
        (sight(24, cursor=True), LINE),
        (sight(23, bells=True), CELLS),
        (sight(1), CELLS),
        (sight(cursor=True, bells=True), CURSOR),
        (sight(cursor=True)._replace(dots=9), DOTS),
        (sight(1)._replace(dots=1900), CELLS),
        (sight(bells=True), SOUND),
    ],
)
def test_what_counts_as_a_screen_a_line_a_few_cells(shown, seen):
    """Of 24 rows and 80 columns a quarter is 480 cells, and a column has 24."""
    assert class_of(shown, 24, 80) is seen


def test_a_column_of_a_small_screen_is_a_line_too():
    assert class_of(sight(16), 16, 64) is LINE and class_of(sight(15), 16, 64) is CELLS


def test_the_less_visible_a_class_the_more_of_it_is_missed():
    rates = [each.miss for each in CLASSES]
    assert rates == sorted(rates) and all(0 < rate < 1 for rate in rates)
    assert all(each.source and each.what for each in CLASSES)
    assert less_visible(SCREEN, SOUND) is less_visible(SOUND, SCREEN) is SOUND
    assert most_visible([CURSOR, LINE, CELLS]) is LINE


def test_looks_are_chances_of_their_own():
    """Two looks turn a miss of 0.11 into 0.0121, and one of 0.23 into 0.0529."""
    assert chance_seen([LINE, LINE], USUAL_MISS) == pytest.approx(1 - 0.0121)
    assert chance_seen([CELLS, CELLS], USUAL_MISS) == pytest.approx(1 - 0.0529)
    assert chance_seen([SCREEN, SOUND], USUAL_MISS | {"screen": 0.5}) == pytest.approx(0.85)
    assert chance_seen([], USUAL_MISS) == 0
