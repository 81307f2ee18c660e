"""`termprobe soak`, over pyserial's line that loops back, and over ones that spoil it."""

import json
import os
import threading

import pytest

from helpers.lines import PtyBoard
from helpers.program import called, complaint, run_file

FAST = ("--speed", "115200")


def soaked(folder, *words):
    return called("soak", "--out", folder, *words)


def test_a_sound_line_passes_and_its_run_file_tells_the_same(tmp_path):
    done = soaked(tmp_path, "--port", "loop://", "--characters", "3000", *FAST, "--board", "A 1")
    assert done.returncode == 0, done.stderr
    lines = done.stdout.splitlines()
    assert lines[0] == "PASS  soak of loop://, 115200 baud 8N1, handshake none"
    assert lines[1:3] == ["Board A 1", "All 3,000 characters came back as they were sent."]
    assert run_file(tmp_path).name.startswith("A_1-")
    again = called("report", run_file(tmp_path))
    assert again.returncode == 0 and again.stdout == done.stdout


def test_the_document_has_what_is_counted_and_nothing_else_stands_beside_it(tmp_path):
    words = ("--port", "loop://", "--characters", "1000", *FAST, "--format", "7E1", "--json")
    done = soaked(tmp_path, *words)
    told = json.loads(done.stdout)
    assert [told[key] for key in ("sent", "received", "errors", "verdict")] == [
        *(1000, 1000, {}, "pass")
    ]
    assert told["bound_95"] == pytest.approx(0.003, rel=0.01) and told["line"] == "115200 baud 7E1"
    report = called("report", "--format", "json", run_file(tmp_path))
    page = called("report", "--format", "html", run_file(tmp_path))
    assert page.returncode == 2 and "--format must be text or json for a soak" in page.stderr
    assert json.loads(report.stdout) == told


def bringing_back(spoil=lambda data: data, most=10**9):
    """Return a pseudo-terminal whose far end brings back what `spoil` makes of what comes.

    It vanishes once it has done so for `most` pieces.
    """
    board = PtyBoard()
    held = os.open(board.path, os.O_RDWR | os.O_NOCTTY)  # Without anybody at it it cannot be read.

    def loop():
        for _ in range(most):
            board.reply(spoil(board.take()))
        os.close(held)
        board.vanish()

    threading.Thread(target=loop, daemon=True).start()
    return board


def test_a_bit_that_is_lost_on_the_way_fails_and_is_told(tmp_path):
    seven = bytes(code & 0x7F for code in range(256))
    line = bringing_back(lambda data: data.translate(seven))
    done = soaked(tmp_path, "--port", line.path, "--characters", "2000", *FAST)
    assert done.returncode == 1
    assert "changed" in done.stdout.splitlines()[1] and "bit 7" in done.stdout
    assert "The eighth bit alone is changed" in done.stdout


def test_a_line_that_brings_nothing_back_is_trouble_with_the_link(tmp_path):
    board = PtyBoard()
    done = soaked(tmp_path, "--port", board.path, "--characters", "9000", *FAST)
    board.vanish()
    assert "put a loopback plug on the cable" in done.stderr and done.returncode == 3


def test_one_that_is_cut_off_goes_on_where_it_was(tmp_path):
    line = bringing_back(most=20)
    done = soaked(tmp_path, "--port", line.path, "--characters", "4000", *FAST)
    assert done.returncode == 3 and "--resume" in done.stderr
    path = run_file(tmp_path)
    done = called("soak", "--resume", path, "--port", "loop://", "--json")
    told = json.loads(done.stdout)
    assert told["sent"] == 4000 and told["errors"] == {} and done.returncode == 0


@pytest.mark.parametrize(
    "words, wanted",
    [
        ((), "--port must name the port with the loopback plug"),
        (("--port", "sim:"), "a simulated board, which does not; try --port loop://"),
        (("--port", "loop://", "--format", "9N1"), "--format must be 5 to 8 data bits"),
        (("--port", "loop://", "--format", "5N1"), "must have 7 or 8 data bits"),
        (("--port", "/dev/there-is-none"), "there must be a serial port"),
        (("--resume", "nothing"), "must be a run file that can be read"),
    ],
)
def test_what_cannot_be_soaked_is_said_and_leaves_no_file(tmp_path, words, wanted):
    done = soaked(tmp_path, *words)
    assert wanted in done.stderr and done.returncode in (2, 3)
    assert os.listdir(tmp_path) == []


def test_a_soak_that_goes_on_keeps_to_how_it_was_begun(tmp_path):
    soaked(tmp_path, "--port", "loop://", "--characters", "100", *FAST)
    done = called("soak", "--resume", run_file(tmp_path), "--speed", "300")
    assert "on --resume a soak goes on as it was begun, so --speed must not" in complaint(done, 2)


def test_another_run_file_is_no_soak(tmp_path):
    path = tmp_path / "x.run.jsonl"
    path.write_text("nothing\n")
    done = called("soak", "--resume", path)
    assert done.returncode == 2 and "must be the run file of a soak" in done.stderr
