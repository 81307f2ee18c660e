"""The loop for the scope: what is sent, the waveform that it must give, and its frames drawn.

Pure.
"""

from termprobe.session.draw.fit import cut
from termprobe.session.draw.rows import Rows, blank, paragraph, plain
from termprobe.session.mode import View
from termprobe.session.react.waveform import drawn, title, waveform

COLUMNS_A_FRAME = 80
"""One more frame is drawn for each so many columns."""


def loop_rows(view: View) -> Rows:
    """Return the rows of the loop that is set up or sent."""
    loop, columns = view.state.loop, view.columns
    if loop is None:
        return []
    levels, names = drawn(loop.data[: 1 + columns // COLUMNS_A_FRAME], loop.format)
    rows = [
        blank(),
        *paragraph(f"Bytes for the scope: {title(loop)}", columns, "class:strong"),
        blank(),
    ]
    for sentence in waveform(loop):
        rows += paragraph(sentence, columns)
    return [
        *rows,
        blank(),
        plain("  " + cut(levels, columns - 3)),
        plain("  " + cut(names, columns - 3)),
        blank(),
    ]
