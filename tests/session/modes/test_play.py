"""A step is stepped through on the console."""

from dataclasses import replace

from helpers.bench_state import after, after_event, asked_by, console, state
from termprobe.session.messages import SendGroups, SetOption, Shown
from termprobe.session.react.group_play import OptionMove

MADE = after(state("corners"), "t")


def test_groups_are_sent_one_by_one_and_shown_beside_the_screen():
    assert asked_by(MADE, "right") == (SendGroups(MADE.play.groups[:1]),)
    shown = console(after(MADE, "right", "right"), 120, 32)
    assert (
        'group 2 of 7; sent: text "A"' in shown and "next: address 0, 79 1B 3D 20 6F: ESC" in shown
    )
    assert '+ text "A"' in shown and "> address 0, 79" in shown


def test_the_mark_is_moved_and_run_to():
    made = after(MADE, "down", "down", "down", "up")
    assert made.play.mark == 2 and "mark after 2" in console(made)
    assert asked_by(made, "enter") == (SendGroups(MADE.play.groups[:2]),)
    assert after(made, "m").play.mark == 0 and after(made, "m", "m").play.mark is None


def test_at_the_end_nothing_more_is_sent():
    made = after(MADE, "enter")
    assert "all is sent" in console(made) and asked_by(made, "right") == ()
    assert after(made, "r").play.sent == 0 and asked_by(made, "r") == ()


def test_what_made_it_go_wrong_is_recorded_with_the_answer():
    made = after(MADE, "n")
    assert made.mode == "play" and "nothing is sent yet" in made.notice
    made = after(MADE, "right", "right", "right")
    assert MADE.play.groups[2].label == "address 0, 79 1B 3D 20 6F"
    broken = after(made, "n")
    assert broken.mode == "waiting" and "wrong from group 3 of 7 on: address 0, 79" in broken.notice
    looked = after_event(broken, Shown("corners", -9.0))
    (record,) = asked_by(after(looked, "n"), "enter")
    assert record.answer.word == "differs"
    assert record.answer.note == "wrong from group 3 of 7 on: address 0, 79 1B 3D 20 6F"
    (record,) = asked_by(after(looked, "n", "+", *"dim", "enter"), "enter")
    assert record.answer.note.startswith("dim; wrong from group 3")


def test_what_was_found_is_forgotten_with_the_step():
    broken = after_event(after(MADE, "right", "n"), Shown("corners", -9.0))
    assert broken.broke_at and not after(broken, "j", "home", "enter").broke_at


def test_each_code_of_a_step_that_moves_is_played_by_itself():
    labels = [group.label for group in after(state("more"), "t").play.groups]
    assert labels.count("down 0A") == 1 and "return 0D" in labels


def test_leaving_sends_the_step_as_a_whole():
    made = after(MADE, "right", "t")
    assert (made.mode, made.play) == ("waiting", None)


def test_a_switch_that_must_be_moved_is_asked_for_and_written_down():
    move = OptionMove(b"", "set duplex to half", 0.0, "duplex", "half")
    play = replace(MADE.play, groups=(move, *MADE.play.groups[1:]))
    made = replace(MADE, play=play)
    assert "next: set duplex to half on the board, then press right" in console(made)
    assert asked_by(made, "right") == (SetOption("duplex", "half"),)
    set_ = after(made, "right")
    assert set_.course.positions["duplex"] == "half" and "sent: set duplex" in console(set_)
