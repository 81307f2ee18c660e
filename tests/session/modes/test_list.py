"""The list of all steps."""

from helpers.bench_state import after, after_event, answers, asked_by, console, judged, state
from termprobe.session.messages import Send

RECORDS = answers(
    ("hello", "differs"),
    ("more", "unsure"),
    ("corners", "disputed"),
    ("solid", "skipped"),
    ("lamp", "as-expected"),
)
MADE = after_event(state(mode="list", beneath=("look",)), judged(RECORDS, "word"))


def test_each_verdict_has_a_sign_and_a_word_in_the_list():
    shown = console(MADE)
    for words in (
        "x fail       Look at hello",
        "? unsure",
        "! disputed",
        "- skipped",
        "+ pass       Is the lamp lit?",
        "# blocked    Look at bell  (needs Look at hello, which failed)",
    ):
        assert words in shown, words


def test_keys_move_by_steps_and_stages_within_the_list():
    assert after(MADE, "up").chosen == 0 and after(MADE, "down").chosen == 1
    assert [after(MADE, *["pagedown"] * times).chosen for times in range(1, 5)] == [1, 5, 7, 8]
    assert after(MADE, "end").chosen == 8 and after(MADE, "end", "pageup").chosen == 7
    assert after(MADE, "end", "home").chosen == 0


def test_a_key_goes_round_the_steps_that_need_another_look():
    assert [after(MADE, *["f"] * times).chosen for times in range(1, 5)] == [1, 2, 3, 1]
    assert "no step has failed" in after(state().to("list"), "f").notice


def test_the_step_chosen_is_sent():
    made = after(MADE, "f")
    assert asked_by(made, "enter") == (Send("hello", 1.0),)
    assert after(made, "j").mode == "look" and asked_by(made, "j") == ()
