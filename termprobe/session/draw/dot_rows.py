"""Characters enlarged dot by dot, above the screen that they stand on. Pure."""

from collections.abc import Sequence

from termprobe.plan.dot_drawing import draw_dots, enlarged_of, wrong_dots
from termprobe.session.draw.pictures import picture_in_sight
from termprobe.session.draw.rows import Rows, plain
from termprobe.session.mode import View
from termprobe.session.mode_table import MODES
from termprobe.terminal.dots import Enlarged

LEAST_OF_SCREEN = 8
"""So many rows are left to the screen at least; without them no dots are drawn."""
MARGIN = " "


def dot_rows(view: View) -> Rows:
    """Return the characters whose dots are asked for, as the picture that is turned to has them.

    Where a picture draws some wrong and none are asked for, these are shown. There is nothing where
    there is no room for them and the screen, not even where they stand close.
    """
    state = view.state
    if state.screen is None or not MODES[state.mode].shows_question:
        return []
    screen = picture_in_sight(state).screen
    asked = enlarged_of(state.step)
    wrong = wrong_dots(screen, asked)
    drawn, columns = _as_drawn(asked, wrong), view.columns - 2 * len(MARGIN)
    for is_close in (False, True):
        lines = draw_dots(drawn, columns, is_in_blocks=True, is_close=is_close)
        if view.rows - len(lines) >= LEAST_OF_SCREEN:
            return [plain(MARGIN + line, "class:strong") for line in lines]
    return []


def _as_drawn(asked: Sequence[Enlarged], wrong: Sequence[Enlarged]) -> Sequence[Enlarged]:
    """Return the characters asked for, drawn wrong where they are; without any, what is wrong."""
    if not asked:
        return wrong
    drawn = {one.character: one for one in wrong}
    return [drawn.get(one.character, one) for one in asked]
