"""Keys of a mode: found, named for the footer and the help, left out where there is no practice."""

from helpers.bench_state import state as made_state
from termprobe.session.mode import Mode, ModeKey, nothing

STATE, PRACTICE = made_state(), made_state(is_practice=True)
PRACTISED = ModeKey("v", nothing, "board", "practice: look", is_practice=True)
MODE = Mode(
    "made-up",
    "a mode of this test",
    (
        ModeKey("up down", nothing, "move", "move about"),
        ModeKey("c-g backspace", nothing, "back", "go back"),
        ModeKey("c-c", nothing, "", "stop"),
        PRACTISED,
    ),
)
NUMBERS = Mode("numbers", "one of some", (ModeKey("1 2 3", nothing, "this", "choose"),))


def test_a_key_is_found_by_each_of_its_names():
    assert MODE.find("down", STATE) is MODE.keys[0]
    assert MODE.find("d", STATE) is None, "a part of a name is no name"
    assert MODE.find("v", STATE) is None and MODE.find("v", PRACTICE) is PRACTISED


def test_the_footer_names_one_key_each_and_leaves_out_what_has_no_label():
    named = [(entry.footer_name, entry.label) for entry in MODE.footer(STATE)]
    assert named == [("up/down", "move"), ("ctrl-G", "back")]
    assert MODE.footer(PRACTICE)[-1] is PRACTISED


def test_the_footer_names_numbers_from_the_first_to_the_last():
    assert NUMBERS.footer(STATE)[0].footer_name == "1-3"


def test_the_help_names_all_keys():
    assert MODE.help_lines(STATE)[1:] == (("ctrl-G backspace", "go back"), ("ctrl-C", "stop"))
    assert len(MODE.help_lines(PRACTICE)) == 4


def test_a_mode_without_more_moves_what_is_larger_than_its_room():
    assert MODE.other(made_state(), "down")[0].scroll == (1, 0)


def test_a_mode_without_more_does_nothing_else():
    state = object()
    assert MODE.other(state, "x") == MODE.on_begin(state) == MODE.on_code(state, 65) == (state, ())
    assert not MODE.is_typing


def test_a_key_that_means_nothing_now_is_not_there():
    key = ModeKey("r", nothing, "repeat", "", is_useful=lambda state: state.mode == "look")
    mode = Mode("made-up", "a mode", (key,))
    other = made_state(mode="measure")
    assert mode.find("r", STATE) is key and mode.footer(STATE) == (key,)
    assert mode.find("r", other) is None and mode.footer(other) == mode.help_lines(other) == ()
