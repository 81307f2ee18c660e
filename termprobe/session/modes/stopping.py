"""Whether the session is to stop is asked."""

from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.asides import interrupt, leave, stop
from termprobe.session.shared_keys import way_back


def _panel(view: View) -> Rows:
    words = "All answers are in the run file; --resume goes on from there."
    return [
        blank(),
        *paragraph("Stop the session? y stops, n goes on.", view.columns, "class:strong"),
        blank(),
        *paragraph(words, view.columns),
    ]


MODE = Mode(
    name="stopping",
    title="stop?",
    keys=(
        ModeKey("y q", stop, "stop", "stop now"),
        way_back("n c-g backspace", leave, "go on", "go on"),
        ModeKey("c-c", interrupt, "", "stop at once"),
    ),
    panel=_panel,
)
