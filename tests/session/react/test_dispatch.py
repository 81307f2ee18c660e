"""Keys are looked up in the present mode."""

import pytest

from helpers.bench_state import after, asked_by, state
from termprobe.session.messages import Quit
from termprobe.session.mode_table import MODES
from termprobe.session.react import dispatch


def test_a_key_that_is_not_bound_does_what_the_mode_says_of_all_others():
    assert after(state(), "x", now_s=5.0) == state(now_s=5.0)
    assert after(state(mode="waiting"), "y").notice == "sending: answer when all is there"
    assert after(state().to("help"), "x").mode == "look"


@pytest.mark.parametrize("mode", sorted(set(MODES) - {"waving"}))
def test_every_mode_can_be_interrupted(mode):
    made = state(mode=mode, beneath=("look",))
    assert dispatch.press(made, "c-c", 0.0) == (made, (Quit(is_interrupted=True),))


@pytest.mark.parametrize(
    "mode, key",
    [("pressing", "enter"), ("pressing", "a"), ("look", "i"), ("look", "v"), ("waiting", "a")],
)
def test_on_a_real_board_the_keys_of_the_practice_do_nothing(mode, key):
    made = state(mode=mode)
    assert after(made, key).say("") == made and asked_by(made, key) == ()
