"""The table of keys."""

from helpers.bench_plan import CORNERS, look, plan, step
from termprobe.session import keymap
from termprobe.session.react import dispatch


def test_every_key_does_one_thing_in_a_mode_and_every_action_is_there():
    for name, mode in keymap.MODES.items():
        keys = [key for entry in mode.keys for key in entry.keys]
        assert len(keys) == len(set(keys)), name
        if name != "waving":
            assert {entry.action for entry in mode.keys} <= set(dispatch.ACTIONS), name
            assert "c-c" in keys, f"{name} cannot be interrupted"
        assert "escape" not in keys, (
            "a lone Esc takes time to be told from a key that begins with it"
        )
    used = {entry.action for mode in keymap.MODES.values() for entry in mode.keys}
    assert used - {""} == set(dispatch.ACTIONS)


def test_plan_of_the_tests_is_sound():
    made = plan(look("corners", "screen", *CORNERS), step("lamp", "end", "ask"))
    assert made.step("corners").expected.rows[0][79] == "B" and made.step("lamp").expected is None
