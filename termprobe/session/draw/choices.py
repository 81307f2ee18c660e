"""The predicted wrong screens as a list of sentences, numbered as the keys are. Pure."""

from termprobe.session.draw.fit import columns_of, cut, wrap
from termprobe.session.draw.rows import Row, Rows, beside, plain
from termprobe.session.mode import View
from termprobe.terminal.predicted import Predictions

POINTER = "►"
"""Stands before the one that is shown."""
INDENT = 4
WIDE = 60
"""So many columns may be two."""
NONE = "none of these"


def choice_rows(view: View) -> Rows:
    """Return the list in so many columns: sentences whole where there is room for all of them.

    Where there is none, each has one row, and the one that is shown is among them; where all have
    room in two columns, it is these.
    """
    predictions = view.state.predictions
    if predictions is None:
        return []
    heading = plain(cut(_heading(predictions), view.columns), "class:strong")
    entries = [*enumerate([one.sentence for one in predictions.found], 1), (0, NONE)]
    half = view.columns // 2
    if (
        view.columns >= WIDE
        and max(columns_of(sentence) for _, sentence in entries) <= half - INDENT
    ):
        rows = [_entry(view, number, [sentence]) for number, sentence in entries]
        middle = (len(rows) + 1) // 2
        left = [row for entry in rows[:middle] for row in entry]
        right = [row for entry in rows[middle:] for row in entry]
        return [heading, *beside(left, right, half)]
    return [heading, *_one_below_another(view, entries)]


def _heading(predictions: Predictions) -> str:
    """Return how far the list may be trusted."""
    percent = max(round(100 * predictions.share), 1)
    return f"Predicted; {percent} % that it is one of these"


def _one_below_another(view: View, entries: list[tuple[int, str]]) -> Rows:
    width = max(view.columns - INDENT, 1)
    wrapped = [(number, wrap(sentence, width)) for number, sentence in entries]
    if sum(len(lines) for _, lines in wrapped) >= view.rows:
        wrapped = [(number, [cut(sentence, width)]) for number, sentence in entries]
        behind = max(view.state.picked + 2 - view.rows, 0)
        wrapped = wrapped[behind:]
    return [row for number, lines in wrapped for row in _entry(view, number, lines)]


def _entry(view: View, number: int, lines: list[str]) -> Rows:
    """Return the rows of one entry; the one that is shown is pointed at."""
    is_shown = number == view.state.picked + 1
    pointer, style = " ", ""
    if is_shown:
        pointer, style = POINTER, "class:strong"
    first: Row = [("class:key", f"{pointer}{number}"), (style, f"  {lines[0]}")]
    others = [plain(" " * INDENT + line, style) for line in lines[1:]]
    return [first, *others]
