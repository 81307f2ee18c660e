"""What a session begins with is asked for where it is not told, remembered, and said again."""

import argparse

import pytest

from helpers.paths import TESTS
from helpers.program import called, complaint
from helpers.served import TERMPROBE
from helpers.tmux import IS_HERE, Tmux
from termprobe.cli import asked_start
from termprobe.cli.asked_start import asked, missing, same_again
from termprobe.cli.last_answers import remember
from termprobe.errors import UsageError
from termprobe.link.ports import PortInfo

TOLD = dict.fromkeys(("port", "profile", "script", "board", "resume", "after"))
SCRIPT = TESTS / "helpers" / "bench_script.yaml"


class Desk:
    """Types answers one after the other, and keeps what was shown."""

    def __init__(self, *answers):
        self.answers, self.shown = list(answers), []

    def tell(self, text):
        self.shown.append(text)

    def ask(self, prompt):
        self.shown.append(prompt)
        if not self.answers:
            raise EOFError
        return self.answers.pop(0)

    @property
    def text(self):
        return "\n".join(self.shown)


@pytest.fixture(autouse=True)
def bench(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setattr(asked_start, "is_typed_at", lambda: True)
    cable = PortInfo("/dev/ttyUSB7", "a cable", "known chip", "")
    monkeypatch.setattr(asked_start, "ports", lambda: (cable,))


def arguments(**told):
    return argparse.Namespace(**{**TOLD, **told})


def test_all_is_asked_for_with_what_there_is_to_choose_from():
    desk = Desk("1", "singlebyte-24x80", "acceptance", "0007")
    assert asked(arguments(), desk) == {
        "port": "/dev/ttyUSB7",
        "profile": "singlebyte-24x80",
        "script": "acceptance",
        "board": "0007",
    }
    for words in ("1  /dev/ttyUSB7  known chip", "sim:random", "ecma48-24x80", "keyboard"):
        assert words in desk.text
    assert "To practise without hardware" in desk.text


def test_nothing_is_asked_for_where_all_is_told():
    told = arguments(port="sim:", profile="P", script="S", board="1")
    assert asked(told, Desk()) == {} and missing(told) == []
    assert missing(arguments(resume="x.run.jsonl")) == ["port"]
    assert missing(arguments(after="x.run.jsonl")) == ["port"]


def test_the_last_answers_are_taken_by_enter():
    remember({"port": "sim:", "profile": "singlebyte-24x80", "script": "keyboard", "board": "9"})
    desk = Desk("", "", "acceptance", "")
    found = asked(arguments(), desk)
    assert list(found.values()) == ["sim:", "singlebyte-24x80", "acceptance", "9"]
    assert "Script, number or name [keyboard]: " in desk.shown


def test_in_practice_the_board_needs_no_number_and_what_cannot_be_simulated_is_left_out():
    desk = Desk("sim:", "1", "1", "")
    assert asked(arguments(), desk)["board"] == "practice"
    assert "ecma48-24x80" not in desk.text


def test_an_answer_that_cannot_be_used_is_asked_for_again():
    desk = Desk("", "sim:", "singelbyte", "singlebyte-24x80", str(SCRIPT), "7")
    found = asked(arguments(), desk)
    assert "The port must be told." in desk.text and "singelbyte" in desk.text
    assert found["profile"] == "singlebyte-24x80" and found["script"] == str(SCRIPT)


def test_where_the_input_ends_the_options_are_named():
    with pytest.raises(UsageError, match="--port URL --profile P --script S --board SERIAL"):
        asked(arguments(), Desk("sim:"))


def test_without_a_terminal_the_missing_options_are_named():
    done = called("session", "--port", "sim:", "--script", "acceptance")
    told = complaint(done, 2)
    assert "must be told --profile P --board SERIAL" in told and "--port" not in told.split(":")[1]
    assert "practise" in told


def test_the_same_again_is_a_whole_command():
    told = arguments(port="sim:", profile="P", script="my script.yaml", board="7")
    assert same_again(told) == (
        "termprobe session --port sim: --profile P --script 'my script.yaml' --board 7"
    )


@pytest.mark.skipif(not IS_HERE, reason="tmux is not installed")
def test_a_session_is_begun_by_answers_and_begun_again_by_enter(tmp_path):
    environment = {"XDG_STATE_HOME": tmp_path / "state"}
    command = (*TERMPROBE, "session", "--out", tmp_path / "runs")
    with Tmux(command, 100, 40, tmp_path, environment) as console:
        console.wait("sim:random", "Port, number or name:")
        console.press("sim:", "Enter", then=["Profile, number or name:"])
        console.press("2", "Enter", then=["Script, number or name:"])
        console.press("acceptance", "Enter", then=["Board, its serial number [practice]:"])
        console.press("0007", "Enter", then=["PRACTICE board 0007", "Press enter to begin"])
        console.press("q", then=["Stop the session?"])
        console.press("y", then=["Go on with:", "--port sim:"])
        assert console.exit_code() == 4
    with Tmux(command, 100, 40, tmp_path, environment) as console:
        console.wait("Port, number or name [sim:]:")
        console.press("Enter", then=["[singlebyte-24x80]:"])
        console.press("Enter", then=["[acceptance]:"])
        console.press("Enter", then=["[0007]:"])
        console.press("Enter", then=["PRACTICE board 0007"])
