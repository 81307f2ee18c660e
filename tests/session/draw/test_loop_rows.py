"""The loop for the scope drawn."""

from helpers.bench_state import LINE, rows_of, state
from termprobe.session.draw.loop_rows import loop_rows
from termprobe.session.mode import View
from termprobe.session.mode_table import MODES
from termprobe.session.react.waveform import Loop


def test_waveform_and_frame_are_shown_with_names_below_the_bits():
    made = state(mode="wave", loop=Loop(b"U", LINE))
    rows = rows_of(loop_rows(View(made, 79, 20, MODES["wave"])))
    assert any("A square wave of 4.8 kHz" in row for row in rows)
    levels, names = rows[-3:-1]
    assert levels == "  " + "|______|‾‾‾‾‾‾" * 5
    assert names.split() == ["start", "D0", "D1", "D2", "D3", "D4", "D5", "D6", "parity", "stop"]
