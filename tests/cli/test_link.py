"""`termprobe link`: a run of the line like others, over pyserial's line that loops back."""

import json

from helpers.lines import PtyBoard
from helpers.program import called, complaint, run_file

LINK = ("link", "--profile", "singlebyte-24x80")


def answers(tmp_path, text):
    path = tmp_path / "answers.yaml"
    path.write_text(text)
    return path


def test_adapter_and_cable_are_proven_once_the_plug_is_said_to_be_in(tmp_path):
    said = answers(tmp_path, "plug-in: yes\n")
    words = ("--port", "loop://", "--answers", said, "--out", tmp_path, "--json")
    done = called(*LINK, *words)
    told = {step["id"]: step["verdict"] for step in json.loads(done.stdout)["steps"]}
    assert told["plug-bytes"] == "pass" and told["no-echo"] == "unanswered"
    assert told["plug-rate"] in ("pass", "fail"), "a busy machine may be late"
    assert json.loads(done.stdout)["board"] == "line"
    page = " ".join(called("report", run_file(tmp_path)).stdout.split())
    title = "The adapter runs at the speed that it is told"
    assert "all 126 codes came back" in page and title in page


def test_a_plug_that_is_still_in_is_told_from_a_board(tmp_path):
    said = answers(tmp_path, "connected: yes\n")
    done = called(*LINK, "--port", "loop://", "--answers", said, "--out", tmp_path)
    told = " ".join(done.stdout.split())
    assert done.returncode == 3 and "the cable, not the board: I hear myself" in told
    assert done.stdout.startswith("INCOMPLETE: the cable failed 3 steps of ")
    assert "board line" not in done.stdout and "board failed" not in done.stdout


def test_a_simulated_board_answers_what_it_can_and_goes_on_like_other_runs(tmp_path):
    done = called(*LINK, "--port", "sim:", "--out", tmp_path)
    assert done.returncode == 4 and "termprobe link --resume" in done.stderr
    again = called("link", "--resume", run_file(tmp_path), "--port", "sim:", "--json")
    assert again.returncode == 4 and json.loads(again.stdout)["board"] == "line"


def test_without_port_or_profile_it_says_what_is_missing(tmp_path):
    assert "--port must name" in complaint(called("link", "--profile", "ecma48-24x80"), 2)
    assert "--profile must name" in complaint(called("link", "--port", "loop://"), 2)


def test_the_cable_is_found_and_drawn_on_a_simulated_one(tmp_path):
    said = answers(tmp_path, "connected: yes\nown-keys: yes\nany-character: yes\n")
    words = ("--port", "sim:", "--cable", "dtr-busy", "--answers", said, "--out", tmp_path)
    done = called(*LINK, *words)
    assert "most likely crossed-no-dtr" in " ".join(done.stdout.split())
    assert "            8 CTS ----------- 4 RTS" in done.stdout
    assert "--cable dtr-busy" in done.stderr


def test_a_cable_that_there_is_not_is_named_and_a_real_port_takes_none(tmp_path):
    refused = called(*LINK, "--port", "sim:", "--cable", "crosed", "--out", tmp_path)
    assert 'not "crosed"; nearest is "crossed"' in complaint(refused, 2)
    refused = called(*LINK, "--port", "loop://", "--cable", "crossed", "--out", tmp_path)
    assert "--cable must go with --port sim:" in complaint(refused, 2)


def test_one_thing_is_done_at_a_time():
    done = called(*LINK, "--port", "sim:", "--silent", "--settle", "clear")
    assert "one of --silent, --settle must be given, not several" in complaint(done, 2)


def test_what_a_port_cannot_try_is_not_fitted_and_says_why(tmp_path):
    board = PtyBoard()
    said = answers(tmp_path, "connected: yes\n")
    words = ("--port", board.path, "--answers", said, "--out", tmp_path, "--json")
    done = called(*LINK, *words)
    board.vanish()
    told = {step["id"]: step["verdict"] for step in json.loads(done.stdout)["steps"]}
    assert (told["board-lines"], told["no-echo"]) == ("not-fitted", "pass")
    page = " ".join(called("report", run_file(tmp_path)).stdout.split())
    assert "this line cannot drive RTS and DTR, and read CTS, DSR, DCD and RI: The cable 1" in page


def test_without_an_adapter_no_plug_is_asked_for_and_checks_hold_the_keys_themselves(tmp_path):
    said = answers(tmp_path, "connected: yes\nany-character: yes\nfirst-character: yes\n")
    done = called(*LINK, "--port", "sim:", "--answers", said, "--out", tmp_path, "--json")
    told = {step["id"]: step["verdict"] for step in json.loads(done.stdout)["steps"]}
    assert told["plug-in"] == told["plug-bytes"] == "not-fitted"
    assert told["sees-busy"] == told["busy-whole"] == "pass" and told["both-ways"] == "unanswered"
    again = answers(tmp_path, "key-held: yes\nkey-held-again: yes\nkey-ready: yes\n")
    words = ("--resume", run_file(tmp_path), "--port", "sim:", "--answers", again, "--json")
    told = {one["id"]: one["verdict"] for one in json.loads(called("link", *words).stdout)["steps"]}
    tried = ("key-format", "stops-xoff", "stops-cts", "stops-dtr", "both-ways", "both-whole")
    assert {told[step] for step in tried} == {"pass"}
