"""The loop for the scope is running."""

import pytest

from helpers.bench_state import LINE, asked_by, console, state
from termprobe.session.messages import StopLoop
from termprobe.session.react.waveform import Loop


@pytest.mark.parametrize("key", ["x", "enter", "c-c", "f1"])
def test_any_key_ends_it(key):
    made = state(mode="waving", loop=Loop(b"U", LINE))
    assert asked_by(made, key) == (StopLoop(),)
    assert ">> sending, until any key" in console(made) and "any ends it" in console(made)
