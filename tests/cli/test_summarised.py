"""A run file in short, whatever stands in it: nothing is executed, nothing ends the command."""

import os
import pathlib

import pytest

from helpers.club_batch import BOARDS, line_of, write_run
from termprobe.cli import summarised as module
from termprobe.cli.summarised import begin_with, summarised
from termprobe.errata.summary import RunSummary, UnreadRun
from termprobe.errata.summary_form import plain_summary


@pytest.fixture(name="run", scope="module")
def _run(tmp_path_factory):
    """Return the run file of a board with exchanged lines."""
    path = tmp_path_factory.mktemp("run") / "01.run.jsonl"
    return write_run(path, BOARDS[0], "sim:scroll/dead")


def line(**document):
    return line_of(document)


def test_a_run_is_told_in_short(run):
    begin_with({})
    found = summarised(run)
    assert isinstance(found, RunSummary) and found.is_practice
    assert (found.serial, found.revision, found.builder, found.batch) == (
        "01",
        "A",
        "Ada",
        "kit 1",
    )
    (cause,) = found.causes
    assert cause.faults[0] == "scroll/dead" and set(cause.steps) == {
        step.id for step in found.failed
    }


def test_what_was_kept_is_not_worked_out_again(run, monkeypatch):
    known = summarised(run)
    begin_with({known.digest: plain_summary(known)})
    monkeypatch.setattr(module, "recorded_of", None)
    assert summarised(run) == known
    begin_with({})


def test_what_was_kept_wrongly_is_worked_out_again(run):
    known = summarised(run)
    begin_with({known.digest: {"passed": 3}})
    assert summarised(run) == known
    begin_with({known.digest: 7})
    assert summarised(run) == known
    begin_with({})


def test_two_runs_that_say_the_same_are_diagnosed_once(run, tmp_path, monkeypatch):
    monkeypatch.setattr(module, "_diagnoses", {})
    plain = tmp_path / "plain.run.jsonl"
    lines = pathlib.Path(run).read_bytes().split(b"\n")
    kept = [one for one in lines if b'"to-repair"' not in one]
    plain.write_bytes(b"\n".join(kept))
    calls = []
    real = module.diagnose
    monkeypatch.setattr(module, "diagnose", lambda *facts: calls.append(1) or real(*facts))
    both = [summarised(os.fspath(path)) for path in (plain, plain)]
    assert len(calls) == 1 and both[0].causes == both[1].causes != ()


@pytest.mark.parametrize(
    "content, why",
    [
        (b"", "must be a run file"),
        (b"\x00\xff" * 500, "must be a run file"),
        (b"<html>hello", "must be a run file"),
        (line(seq=0, kind="header", board={"serial": "1"}), "must be a run file"),
        (
            line(
                seq=0, kind="header", board={"serial": "1"}, profile_text="\x1b[2J", script_text="a"
            ),
            "(profile):1:",
        ),
        (
            line(seq=0, kind="header", board={"serial": "1"}, script="soak"),
            "this one is the soak of a line",
        ),
        (b"x" * 1_000_000, "must be a run file"),
        (b"[" * 100_000, "must be a run file"),
    ],
)
def test_what_is_no_run_is_reported(tmp_path, content, why):
    path = tmp_path / "x.run.jsonl"
    path.write_bytes(content)
    found = summarised(os.fspath(path))
    assert isinstance(found, UnreadRun) and why in found.why


def test_a_file_that_is_not_there_or_too_large_is_reported(tmp_path, monkeypatch):
    assert "No such file" in summarised(os.fspath(tmp_path / "none")).why
    assert isinstance(summarised(os.fspath(tmp_path)), UnreadRun)
    monkeypatch.setattr(module, "MOST_BYTES", 10)
    (tmp_path / "x").write_bytes(b"y" * 11)
    assert "at most 10 bytes" in summarised(os.fspath(tmp_path / "x")).why


def test_a_cut_off_run_counts_as_far_as_it_goes(run, tmp_path):
    path = tmp_path / "cut.run.jsonl"
    data = pathlib.Path(run).read_bytes()
    within_a_record = data.index(b'"kind"', len(data) // 2)
    path.write_bytes(data[:within_a_record])
    found = summarised(os.fspath(path))
    assert isinstance(found, RunSummary) and found.damages == 1 and found.verdict != "pass"


def test_a_mistake_in_judging_one_file_leaves_the_others(run, monkeypatch):
    monkeypatch.setattr(module, "recorded_of", lambda *_, **__: 1 / 0)
    assert summarised(run).why == "what stands in it cannot be judged (ZeroDivisionError)"
