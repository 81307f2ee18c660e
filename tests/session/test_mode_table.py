"""The table of modes."""

from dataclasses import replace

import pytest

from helpers.bench_plan import CORNERS, KINDS, full_plan, look, plan, step
from helpers.bench_state import LINE, after, console, state
from termprobe.plan.model import NoChords, NoPresses
from termprobe.session import modes
from termprobe.session.messages import Quit, StopLoop
from termprobe.session.mode_table import MODES, mode_of, mode_of_kind, modes_in
from termprobe.session.react import dispatch
from termprobe.session.react.waveform import Loop

NEVER_FITTED = {NoPresses.kind, NoChords.kind}


def test_every_key_does_one_thing_in_a_mode():
    for name, mode in MODES.items():
        keys = [key for entry in mode.keys for key in entry.names.split()]
        assert len(keys) == len(set(keys)), name
        if name != "waving":
            assert "c-c" in keys, f"{name} cannot be interrupted"


@pytest.mark.parametrize("name", MODES)
@pytest.mark.parametrize("columns", [80, 100, 200])
def test_esc_leaves_every_mode_and_the_footer_names_the_way_back(name, columns):
    made = in_mode(name)
    (key,) = [entry for entry in MODES[name].keys_for(made) if entry.is_bound("escape")]
    assert f"{key.footer_name} {key.label}" in console(made, columns, 24).split("\n")[-1]
    after, requests = dispatch.press(made, "escape", 100.0)
    has_ended = any(isinstance(request, Quit | StopLoop) for request in requests)
    assert after.mode != name or has_ended


def in_mode(name):
    """Return a state in that mode, as far as its footer and Esc go."""
    kinds = {one.kind: one.id for one in full_plan().steps}
    step_id = kinds.get(MODES[name].kind, "hello")
    made = state(step_id, mode=name, loop=Loop(b"U", LINE), next_id="more")
    if name == "pressing":
        made = state("press/q", mode=name, plan=plan(step("press/q", "keys", "press")))
    if name == "play":
        made = after(state(), "t")
    if name in LYING_OVER:
        made = replace(made, beneath=("typed-back" if name == "confirming" else "look",))
    if name in ("setting", "switch-off"):
        made = replace(made, step_id="half-duplex")
    return made


LYING_OVER = (
    "cause-named",
    "help",
    "typing",
    "list",
    "paused",
    "lost",
    "stopping",
    "confirming",
    "reading",
)


def test_each_kind_of_step_is_answered_in_a_mode_of_its_own():
    kinds = set(KINDS) - NEVER_FITTED
    found = [mode_of_kind(kind) for kind in kinds]
    assert len({mode.name for mode in found}) == len(kinds)
    assert all(mode.is_of_step for mode in found)
    with pytest.raises(KeyError):
        mode_of_kind("made-up")


@pytest.mark.parametrize("kind", sorted(NEVER_FITTED))
def test_what_stands_for_steps_that_are_never_fitted_is_shown(kind):
    assert mode_of(step("all", "keyboard", kind, not_fitted="no keyboard")).name == "not-fitted"


def folder_with(tmp_path, monkeypatch, **modules):
    for name, text in modules.items():
        (tmp_path / f"{name}.py").write_text(text)
    monkeypatch.setattr(modes, "__path__", [*modes.__path__, str(tmp_path)])


def test_a_module_without_a_mode_is_refused(tmp_path, monkeypatch):
    folder_with(tmp_path, monkeypatch, bare="MODE = None\n")
    with pytest.raises(TypeError, match=r"modes\.bare must hold a Mode called MODE, and does not"):
        modes_in(modes)


def test_two_modes_of_one_name_are_refused(tmp_path, monkeypatch):
    text = "from termprobe.session.modes.look import MODE\n"
    folder_with(tmp_path, monkeypatch, second=text)
    with pytest.raises(ValueError, match=r"modes\.second: no other mode may be called 'look'"):
        modes_in(modes)


def test_plan_of_the_tests_is_sound():
    made = plan(look("corners", "screen", *CORNERS), step("lamp", "end", "ask"))
    assert made.step("corners").expected.rows[0][79] == "B" and made.step("lamp").expected is None
