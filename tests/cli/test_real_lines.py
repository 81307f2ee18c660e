"""link, soak and monitor over parts by others: socat's ptys, pyserial's RFC 2217, and tmux."""

import contextlib
import json
import subprocess

from helpers import emulators
from helpers.program import called
from helpers.rfc2217_server import Rfc2217Server

FAST = ("--speed", "38400")
HEAD = "id: line\ntitle: A line\nstages:\n  - id: line\n    title: The line\n    steps:\n"
STEP = "      - {{id: {0}, kind: line-check, check: {0}, title: It, blames: cable, start: none}}\n"


def checked(folder, port, *checks):
    """Return check -> verdict of a run of these checks of the line alone, and the exit code."""
    script = folder / "line.yaml"
    script.write_text(HEAD + "".join(map(STEP.format, checks)))
    words = ("--profile", "ecma48-24x80", "--script", script, "--board", "1", *FAST)
    done = called("run", *words, "--port", port, "--out", folder, "--json")
    told = {step["id"]: step["verdict"] for step in json.loads(done.stdout)["steps"]}
    return told, done.returncode


@contextlib.contextmanager
def socat(folder, far_end):
    """Yield the path of a pty that socat joins to `far_end`."""
    port = folder / "port"
    call = ["socat", f"PTY,link={port},raw,echo=0", far_end]
    process = subprocess.Popen(call)
    try:
        emulators.wait_for(port.exists, "the port of socat")
        yield port
    finally:
        process.terminate()
        process.wait(10)


def test_a_pty_of_socat_that_brings_all_back_passes_a_soak_and_is_no_board(tmp_path):
    with socat(tmp_path, "EXEC:cat") as port:
        words = (
            "--characters",
            "2000",
            "--port",
            port,
            *FAST,
            "--out",
            tmp_path / "soak",
            "--json",
        )
        soaked = called("soak", *words)
        told = checked(tmp_path, port, "plug-bytes", "no-echo", "board-lines")
    assert json.loads(soaked.stdout)["verdict"] == "pass", soaked.stderr
    assert told == ({"plug-bytes": "pass", "no-echo": "fail", "board-lines": "not-fitted"}, 3)


def test_between_two_ptys_of_socat_a_monitor_passes_on(tmp_path):
    near, far = tmp_path / "near", tmp_path / "far"
    near.mkdir()
    far.mkdir()
    with socat(near, "EXEC:cat") as board, socat(far, "EXEC:sleep 9") as computer:
        words = ("--port", board, "--through", computer, *FAST, "--send", "HELLO")
        done = called("monitor", *words, "--for", "0.5")
    assert done.returncode == 0 and "HELLO" in done.stdout, done.stderr


def test_a_plug_behind_rfc_2217_brings_every_code_back(tmp_path):
    assert checked(tmp_path, Rfc2217Server().path, "plug-bytes") == ({"plug-bytes": "pass"}, 0)


def test_a_monitor_sends_to_tmux_and_shows_what_it_replies(tmp_path):
    with emulators.tmux(tmp_path) as (port, _):
        words = ("--send", 'ESC "[6n"', "--for", "0.4", *FAST)
        done = called("monitor", "--port", port, *words)
    assert '<--  ESC "[1;1R"' in done.stdout, done.stdout


def test_full_screens_are_soaked_on_tmux_by_its_own_dump(tmp_path):
    with emulators.tmux(tmp_path) as (port, dump):
        words = ("--dump", dump, "--characters", "1800", "--profile", "ecma48-24x80", *FAST)
        done = called("soak", "--port", port, *words, "--out", tmp_path / "soak")
    assert done.returncode == 0, done.stdout
    assert "characters reached the screen as they were sent" in done.stdout
