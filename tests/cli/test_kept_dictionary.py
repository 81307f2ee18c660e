"""The fault dictionary of a plan is worked out once, and again where what was kept is damaged."""

import pytest

from helpers.few_faults import play_few
from helpers.scripts import ECMA, SINGLE, look, plan_of
from termprobe.cli import kept_dictionary as module
from termprobe.cli.kept_dictionary import dictionary_beside, kept_dictionary
from termprobe.errors import UsageError

PLAN = plan_of([look("word", [{"text": "HELLO"}])])


def test_it_is_worked_out_once_and_kept(tmp_path, monkeypatch):
    play_few(monkeypatch)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    first = kept_dictionary(PLAN, SINGLE, "a profile")
    (path,) = (tmp_path / "termprobe").iterdir()
    with monkeypatch.context() as without:
        without.setattr(module, "fault_dictionary", None)
        assert kept_dictionary(PLAN, SINGLE, "a profile") == first
    path.write_bytes(path.read_bytes()[:-1])
    assert kept_dictionary(PLAN, SINGLE, "a profile") == first


def test_without_a_circuit_nothing_is_kept(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    with pytest.raises(UsageError, match="section circuit"):
        kept_dictionary(PLAN, ECMA, "another profile")
    assert not list(tmp_path.iterdir())


def test_beside_something_else_the_same_comes_of_it_and_nothing_is_said(
    tmp_path, monkeypatch, capfd
):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    made = dictionary_beside(PLAN, SINGLE, "a profile")
    assert capfd.readouterr() == ("", "")
    with monkeypatch.context() as without:
        without.setattr(module, "fault_dictionary", None)
        assert kept_dictionary(PLAN, SINGLE, "a profile") == made
        assert dictionary_beside(PLAN, SINGLE, "a profile") == made
