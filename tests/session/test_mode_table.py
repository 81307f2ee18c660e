"""The table of modes."""

import pytest

from helpers.bench_plan import CORNERS, KINDS, look, plan, step
from termprobe.plan.model import NoChords, NoPresses
from termprobe.session import modes
from termprobe.session.mode_table import MODES, mode_of, mode_of_kind, modes_in

NEVER_FITTED = {NoPresses.kind, NoChords.kind}


def test_every_key_does_one_thing_in_a_mode():
    for name, mode in MODES.items():
        keys = [key for entry in mode.keys for key in entry.names.split()]
        assert len(keys) == len(set(keys)), name
        assert "escape" not in keys, (
            "a lone Esc takes time to be told from a key that begins with it"
        )
        if name != "waving":
            assert "c-c" in keys, f"{name} cannot be interrupted"


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
