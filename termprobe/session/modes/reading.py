"""The report of the run is read."""

from termprobe.session.draw.fit import wrap
from termprobe.session.draw.rows import Rows, blank, plain
from termprobe.session.mode import Mode, View
from termprobe.session.react.asides import leave
from termprobe.session.shared_keys import INTERRUPT, PAGE_BACK, PAGE_ON, way_back


def _text(view: View) -> Rows:
    rows: Rows = []
    for line in view.state.report.splitlines():
        rows += _line_rows(line, view.columns)
    return rows


def _line_rows(line: str, columns: int) -> Rows:
    """Return a line of the report: as it is where it fits, else folded."""
    if len(line) <= columns:
        return [plain(line)]
    return [plain(part) for part in wrap(line, columns)] or [blank()]


MODE = Mode(
    name="reading",
    title="the report of this run",
    keys=(
        PAGE_ON,
        PAGE_BACK,
        way_back("r q enter backspace", leave, "back", "back to the end of the session"),
        INTERRUPT,
    ),
    has_step=False,
    text=_text,
)
