"""The recipe "Add a session mode": one new module in the folder of modes, and nothing else."""

import sys

import pytest

from helpers.bench_state import after, asked_by, console, state
from termprobe.session import modes
from termprobe.session.messages import Note
from termprobe.session.mode_table import MODES, modes_in

MODULE = '''
"""The builder is reminded to let the tube warm up."""

from termprobe.session.draw.rows import paragraph
from termprobe.session.messages import Note
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.shared_keys import AT_ANY_TIME


def _is_warm(state, key):
    return state.back(), (Note("the tube is warm", state.step_id),)


def _panel(view):
    return paragraph("Wait until the tube is warm.", view.columns)


MODE = Mode(
    name="warming",
    title="let the tube warm up",
    keys=(ModeKey("enter", _is_warm, "warm", "the tube is warm"), *AT_ANY_TIME),
    panel=_panel,
)
'''


@pytest.fixture
def warming(tmp_path, monkeypatch):
    """Put the module where the table looks for modes."""
    (tmp_path / "warming.py").write_text(MODULE)
    monkeypatch.setattr(modes, "__path__", [*modes.__path__, str(tmp_path)])
    found = modes_in(modes)
    assert set(found) - set(MODES) == {"warming"}
    monkeypatch.setitem(MODES, "warming", found["warming"])
    yield
    del sys.modules["termprobe.session.modes.warming"]


@pytest.mark.usefixtures("warming")
def test_a_new_mode_is_drawn_helped_and_left_by_its_own_keys():
    made = state().to("warming")
    shown = console(made)
    assert "Wait until the tube is warm." in shown and "enter warm" in shown
    assert "let the tube warm up" in shown
    assert "the tube is warm" in console(after(made, "?"))
    assert after(made, "enter").mode == "look"
    assert asked_by(made, "enter") == (Note("the tube is warm", "hello"),)
