"""What was answered last is remembered where the system keeps such things, and is never needed."""

import pytest

from termprobe.cli.last_answers import last_answers, remember, state_file

ANSWERS = {"port": "sim:", "profile": "singlebyte-24x80", "script": "acceptance", "board": "0007"}


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path


def test_answers_are_kept_from_one_time_to_the_next():
    assert last_answers() == {}
    remember(ANSWERS)
    assert last_answers() == ANSWERS
    remember({"board": "0008"})
    assert last_answers() == {**ANSWERS, "board": "0008"}


def test_they_stand_in_the_state_folder(home, monkeypatch):
    assert state_file() == home / "state" / "termprobe" / "last-answers.json"
    monkeypatch.setenv("XDG_STATE_HOME", "relative")
    monkeypatch.setenv("HOME", str(home))
    assert state_file() == home / ".local" / "state" / "termprobe" / "last-answers.json"


@pytest.mark.parametrize("text", ["", "{", "[]", '{"port": 5, "odd": "x"}', '"x"', "\xff"])
def test_a_file_that_is_none_of_ours_is_as_good_as_none(text):
    state_file().parent.mkdir(parents=True)
    state_file().write_text(text, encoding="latin-1")
    assert last_answers() == {}


def test_where_nothing_can_be_written_nothing_is_remembered(home, monkeypatch):
    (home / "file").write_text("")
    monkeypatch.setenv("XDG_STATE_HOME", str(home / "file"))
    remember(ANSWERS)
    assert last_answers() == {}
