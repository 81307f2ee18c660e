"""A text that is longer than its room, page by page.

Pure.
"""

from termprobe.session.draw.rows import Rows
from termprobe.session.mode import Panel, View


def pages_of(text: Rows, rows: int) -> int:
    """Return how many pages of `rows` rows the text takes, one at least."""
    return max(1, -(-len(text) // max(rows, 1)))


def page_of(text: Panel) -> Panel:
    """Return the panel that shows the page of `text` that is turned to."""

    def panel(view: View) -> Rows:
        first = view.state.page * view.rows
        return text(view)[first : first + view.rows]

    return panel
