"""The loop for the scope drawn."""

from helpers.bench_state import LINE, rows_of, state
from termprobe.session.draw.loop_rows import loop_rows
from termprobe.session.mode import View
from termprobe.session.mode_table import MODES
from termprobe.session.react.waveform import Loop


def test_waveform_and_frame_are_shown_with_names_below_the_bits():
    made = state(mode="wave", loop=Loop(b"U", LINE))
    rows = rows_of(loop_rows(View(made, 49, 20, MODES["wave"])))
    assert any("A square wave of 4.8 kHz" in row for row in rows)
    levels, names = rows[-3:-1]
    assert levels == "  |___|‾‾‾|___|‾‾‾|___|‾‾‾|___|‾‾‾|___|‾‾‾"
    assert names.split() == ["go", "0", "1", "2", "3", "4", "5", "6", "par", "end"]
