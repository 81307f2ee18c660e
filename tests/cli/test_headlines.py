"""What a run says first, and to a program: part or whole, practice, a silent line, what counts."""

import json

import pytest

from helpers.lines import PtyBoard
from helpers.program import BENCH, called, run, run_file

KEYS = ("keys", *BENCH[:2], "--board", "0001")
DEAD_KEY = "sim:key-matrix/key-dead/a"
QUICK, ALL = 8, 137
ACCEPTANCE, NOT_FITTED = 233, 63
OF_PLUG = 6
"""A simulated board has no adapter, so these are not fitted in a run of it."""
BLANK = "printf '" + r"\n" * 24 + "'"


@pytest.fixture(name="silent_port")
def _silent_port():
    """Return a port behind which there is nobody."""
    board = PtyBoard()
    yield board.path
    board.vanish()


def report_of(folder, *words):
    return called("report", run_file(folder), *words)


# -- part and whole --------------------------------------------------------------------------------


def test_a_quick_walk_that_misses_a_dead_key_is_no_pass(tmp_path):
    done = called(*KEYS, "--port", DEAD_KEY, "--quick", "--out", tmp_path)
    assert done.returncode == 0 and "PASS" not in done.stdout
    assert done.stdout.startswith(f"PARTIAL (PRACTICE): board 0001: Keys, {QUICK} of {ALL} steps")
    assert "no fault indicated by these; 129 presses were not tried" in " ".join(
        done.stdout.split()
    )
    assert report_of(tmp_path).stdout.startswith("PARTIAL (PRACTICE): ")
    document = json.loads(report_of(tmp_path, "--format", "json").stdout)
    assert (document["kind"], document["verdict"]) == ("part", "pass")


def test_a_walk_over_all_keys_is_whole(tmp_path):
    done = called(*KEYS, "--port", "sim:", "--json", "--out", tmp_path)
    document = json.loads(done.stdout)
    assert (document["kind"], document["verdict"], len(document["steps"])) == ("whole", "pass", ALL)


def test_a_whole_run_of_which_a_stage_alone_is_gone_on_with_stays_incomplete(tmp_path):
    whole = tmp_path / "whole"
    assert run(whole).returncode == 4
    words = ("--port", "sim:", "--resume", run_file(whole), "--stage", "fields")
    done = called("session", *words)
    assert done.returncode == 4 and "INCOMPLETE (PRACTICE): board 0001 passed 179" in done.stderr


# -- practice --------------------------------------------------------------------------------------


def test_a_run_begun_on_a_port_and_gone_on_with_in_practice_names_both_links(tmp_path, silent_port):
    begun = ("session", *BENCH, "--stage", "supply", "--out", tmp_path, "--port", silent_port)
    called(*begun, input="yes\n5\n")
    called("session", "--port", "sim:", "--resume", run_file(tmp_path), input="yes\n12\n-12\n0.1\n")
    done = report_of(tmp_path)
    links = [line for line in done.stdout.splitlines() if line.startswith("Link ")]
    assert done.stdout.splitlines()[0].startswith("PARTIAL (PRACTICE)")
    assert silent_port in links[0]
    assert links[1].startswith("Link         sim: 9600 baud 7E1, practice, ")
    document = json.loads(report_of(tmp_path, "--format", "json").stdout)
    first, second = document["links"]
    assert document["practice"] is True and (first["practice"], second["practice"]) == (False, True)
    assert (first["steps"], len(second["steps"])) == (["supply-5v"], 3)
    assert first["start"] <= first["end"] <= second["start"] <= second["end"]


# -- a line over which nothing comes ---------------------------------------------------------------


def test_a_walk_without_a_board_is_trouble_with_the_link(tmp_path, silent_port):
    words = ("--port", silent_port, "--quick", "--wait", "0.1", "--out", tmp_path)
    done = called(*KEYS, *words)
    assert done.returncode == 3
    assert done.stdout.startswith("INCOMPLETE: nothing has ever come back from board 0001")
    assert "Try the cable" in done.stdout and "FAIL" not in done.stdout
    assert "0 no code" in done.stdout and "nothing arrives: the cable" in done.stdout
    assert report_of(tmp_path).returncode == 3


def test_a_dump_that_stays_blank_does_not_tell_a_board_from_a_cable(tmp_path, silent_port):
    words = ("--stage", "fields", "--speed", "115200", "--dump", BLANK, "--json")
    done = run(tmp_path, *words, port=silent_port)
    document = json.loads(done.stdout)
    assert (done.returncode, document["verdict"]) == (3, "incomplete")
    assert {step["verdict"] for step in document["steps"]} == {"blocked"}


def test_a_word_that_comes_with_a_wrong_parity_bit_fails(tmp_path):
    done = run(tmp_path, "--stage", "typed-back", port="sim:parity/inverted")
    assert done.returncode == 1 and "its parity bit is wrong" in done.stdout


# -- counting, and what is not covered -------------------------------------------------------------


def test_steps_are_counted_alike_by_plan_and_report(tmp_path):
    shown = called("script", "show", "acceptance", *BENCH[:2]).stdout
    assert f"{ACCEPTANCE} steps ({NOT_FITTED} more are not fitted)" in shown
    done, tried = run(tmp_path), ACCEPTANCE - OF_PLUG
    assert f"of {tried} steps" in done.stdout and f"Totals       {tried} steps" in done.stdout
    counts = json.loads(report_of(tmp_path, "--format", "json").stdout)["counts"]
    assert (counts["steps"], counts["not_fitted"]) == (tried, NOT_FITTED + OF_PLUG)
    opening = called("session", "--port", "sim:", "--resume", run_file(tmp_path), input="").stdout
    assert f"{counts['done']} of {tried} steps have an answer" in opening


def test_what_passes_says_what_it_does_not_cover(tmp_path):
    told = " ".join(called("demo", "--fault", "none", "--out", tmp_path).stdout.split())
    passed = "board DEMO-07 passed 238 of 238 steps, 26 of them covered"
    assert f"PRACTICE, simulated board: {passed}" in told
    assert "Not covered: at 4800 baud 7O1 only;" in told
    document = json.loads(report_of(tmp_path, "--format", "json").stdout)
    assert document["not_covered"][0] == "at 4800 baud 7O1 only"
    assert document["not_covered"][-1].endswith("baud)")


def test_a_stopped_run_names_what_is_left_by_stages(tmp_path):
    done = run(tmp_path)
    assert len(done.stdout.splitlines()) < 160
    (line,) = [line for line in done.stdout.splitlines() if line.startswith("  unanswered")]
    assert line.startswith("  unanswered: 48 steps: Visual inspection, power off 3, Rails")
