"""`termprobe run` as a user meets it (cli/unattended): verdicts, exit codes, trouble, going on."""

import json
import os
import pty
import signal
import subprocess
import threading
import time

import pytest

from helpers.lines import PtyBoard, taken
from helpers.program import BENCH, called, complaint, run, run_file
from helpers.served import TERMPROBE
from termprobe.journal.reading import read
from termprobe.journal.records import Answered, Sent, StepBegun

FAILING = "bank-1-data/stuck/0/1"
ANSWERS = "supply-5v: 5.04\nsupply-12v: 12.1 V\nsupply-minus-12v: -12.0\nripple-5v: 40 mV\n"


def test_a_good_board_passes_the_stages_that_need_no_person(tmp_path):
    done = run(tmp_path, "--stage", "fields", "--stage", "cursor", "--json")
    document = json.loads(done.stdout)
    assert done.returncode == 0 and document["verdict"] == "pass" and document["board"] == "0001"
    assert {"board", "verdict", "run", "steps", "kind", "practice"} <= set(document)
    assert (document["kind"], document["practice"]) == ("part", True)
    assert {step["verdict"] for step in document["steps"]} == {"pass", "not-fitted"}


def test_a_faulty_board_fails_and_the_report_names_the_bit(tmp_path):
    done = run(tmp_path, "--stage", "fields", port=f"sim:{FAILING}")
    assert done.returncode == 1 and done.stdout.startswith("FAIL (PRACTICE): board 0001")
    assert "every difference is in an odd row; bit 0 arrives as 1" in " ".join(done.stderr.split())
    assert "data line 0 of RAM bank 1 is stuck at 1" in " ".join(done.stdout.split())


def test_wrong_dots_fail_a_look_and_the_report_draws_them_and_names_the_line(tmp_path):
    done = run(
        tmp_path, "--stage", "characters", "--stage", "fields", port="sim:dot-column/missing/2"
    )
    assert done.returncode == 1
    assert (
        "chart-and-codes: 93 characters are drawn with wrong dots, such as 0, 1, 2" in done.stderr
    )
    report = " ".join(done.stdout.split())
    assert "dot line 2 of the character generator is dead" in report
    assert "must be # M @ E g y .#.#. #...# .###. #####" in report
    assert "were seen # M @ E g y .#.#.. #...#. .#.#.. ##.##." in report


def test_what_nobody_answers_leaves_the_run_incomplete(tmp_path):
    done = run(tmp_path)
    assert done.returncode == 4 and done.stdout.startswith("INCOMPLETE (PRACTICE): ")
    assert "unanswered: 48 steps: Visual inspection, power off 3" in done.stdout
    assert done.stderr.endswith(f"termprobe run --resume {run_file(tmp_path)} --port sim:\n")


def test_an_answers_file_stands_in_for_the_person(tmp_path):
    answers = tmp_path / "rig.yaml"
    answers.write_text(ANSWERS)
    assert run(tmp_path, "--stage", "supply", "--answers", answers).returncode == 0
    answers.write_text("supply-5v: 5.30\n")
    done = run(tmp_path, "--stage", "supply", "--answers", answers)
    assert done.returncode == 1 and "5.3 V, outside the limits, 5 V \u00b1 5 %" in done.stdout


def test_a_reading_that_says_switch_off_stops_the_run_and_no_byte_is_sent(tmp_path):
    answers = tmp_path / "rig.yaml"
    answers.write_text("supply-5v: 5.5\nsupply-12v: 12.0\n")
    stages = ("--stage", "supply", "--stage", "link", "--stage", "characters")
    done = run(tmp_path, *stages, "--answers", answers)
    told = " ".join(done.stdout.split())
    assert done.returncode == 1 and "The serial line 8, Characters 1" in told
    assert "SWITCH OFF NOW: supply-5v failed" in done.stderr
    assert "the regulator gets too hot to touch" in " ".join(done.stderr.split())
    path = run_file(tmp_path)
    assert "Put it right, then measure again:\nGo on with:\n" in done.stderr
    assert f"termprobe run --resume {path} --port sim:" in done.stderr
    assert not any(isinstance(record, Sent | StepBegun) for record in sent_after(path))
    answers.write_text("supply-5v: 5.0\n")
    done = called("run", "--port", "sim:", "--resume", path, "--answers", answers)
    assert done.returncode == 4 and "pass       The code chart, and codes" in done.stdout


def sent_after(path):
    """Return the records behind the first answer."""
    records = read(path).records
    first = next(number for number, one in enumerate(records) if isinstance(one, Answered))
    return records[first + 1 :]


def test_one_answers_file_serves_every_stage(tmp_path):
    answers = tmp_path / "rig.yaml"
    answers.write_text(ANSWERS + "main-clock: yes\nline-clock: 153600\n")
    for stage in ("supply", "clock"):
        assert run(tmp_path, "--stage", stage, "--answers", answers).returncode == 0
    answers.write_text(ANSWERS + "main-clok: yes\n")
    said = complaint(run(tmp_path, "--stage", "supply", "--answers", answers), 2)
    assert 'must be for a step of the plan, not "main-clok"; nearest is "main-clock"' in said


@pytest.mark.parametrize("words", [("--answers", "none.yaml"), ("--dump", "'open")])
def test_an_observer_that_there_cannot_be_leaves_no_run_file(tmp_path, words):
    assert complaint(run(tmp_path, *words), 2)
    assert not list(tmp_path.iterdir())


def test_a_bad_answers_file_leaves_the_run_that_goes_on_as_it_was(tmp_path):
    run(tmp_path, "--stage", "supply")
    answers, path = tmp_path / "rig.yaml", run_file(tmp_path)
    answers.write_text("supply-5v: five\n")
    before = path.read_bytes()
    done = called("run", "--port", "sim:", "--resume", path, "--answers", answers)
    assert complaint(done, 2) and path.read_bytes() == before


def test_a_run_is_resumed_where_it_stopped(tmp_path):
    run(tmp_path, "--stage", "supply")
    answers = tmp_path / "rig.yaml"
    answers.write_text(ANSWERS)
    path = run_file(tmp_path)
    done = called("run", "--port", "sim:", "--resume", path, "--answers", answers)
    assert done.returncode == 0 and done.stdout.startswith("PARTIAL (PRACTICE): board 0001")
    assert len(list(tmp_path.glob("*.run.jsonl"))) == 1


def test_a_resumed_run_says_which_steps_changed(tmp_path):
    script = tmp_path / "mine.yaml"
    text = (
        "id: mine\ntitle: Mine\nstages:\n  - id: s\n    title: S\n    steps:\n"
        "      - {id: a, kind: look, title: A, question: Is it?, send: [{text: A}]}\n"
    )
    script.write_text(text)
    bench = ("--profile", "singlebyte-24x80", "--script", script, "--port", "sim:")
    words = ("run", *bench, "--board", "1", "--out", tmp_path)
    assert called(*words).returncode == 0
    script.write_text(text.replace("text: A}", "text: B}"))
    done = called(*words, "--resume", run_file(tmp_path))
    assert "these steps are new or not what was answered then, and are asked: A" in done.stderr


def test_a_missing_port(tmp_path):
    assert "/dev/ttyNONE" in complaint(run(tmp_path, port="/dev/ttyNONE"), 3)
    assert not list(tmp_path.glob("*.jsonl"))


def test_a_port_that_vanishes_in_the_middle_loses_nothing(tmp_path):
    board = PtyBoard()
    port = board.path
    # held, so that the far end can wait for the first byte
    slave = os.open(port, os.O_RDWR | os.O_NOCTTY)

    def pull():
        taken(board, 500, limit_s=20)
        board.vanish()

    thread = threading.Thread(target=pull)
    thread.start()
    done = run(tmp_path, "--stage", "fields", "--speed", "57600", port=port)
    thread.join()
    os.close(slave)
    assert done.returncode == 3 and port in complaint(done, 3)
    kinds = [record.kind for record in read(run_file(tmp_path)).records]
    path = run_file(tmp_path)
    assert "link-lost" in kinds
    assert (
        f"The run so far is in {path}; go on with:\n  termprobe run --resume {path}" in done.stderr
    )


@pytest.mark.parametrize(
    "command, called_so",
    [
        ("printf short", "rows"),
        ("/nonexistent/dump", "dump"),
        (r"printf '\033[2J\377\376'", "dump"),
        ("false", "dump"),
    ],
)
def test_a_dump_command_that_fails_leaves_looks_unanswered(tmp_path, command, called_so):
    port, slave = drained_port()
    words = ("--stage", "fields", "--speed", "115200", "--dump", command)
    done = run(tmp_path, *words, port=port)
    os.close(slave)
    assert done.returncode == 4 and "Traceback" not in done.stderr
    assert "dump could not answer" in done.stderr and called_so in done.stderr
    assert "\x1b" not in done.stderr
    assert "2 unanswered" in done.stdout


def drained_port():
    """Return (path, descriptor to be closed) of a port where a board takes all and is silent."""
    master, slave = pty.openpty()
    threading.Thread(target=_drain, args=(master,), daemon=True).start()
    return os.ttyname(slave), slave


def _drain(master):
    try:
        while os.read(master, 65536):
            pass
    except OSError:
        pass


def test_a_full_disk_stops_the_run_at_once(tmp_path):
    folder = tmp_path / "small"
    folder.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
    if subprocess.run(mount, check=False, capture_output=True).returncode:
        done = run_with_a_limit(folder)  # no right to mount here; it has the same effect
    else:
        try:
            done = run(folder)
        finally:
            subprocess.run(["umount", str(folder)], check=False)
    assert "the disk" in complaint(done, 4) or "writable" in done.stderr


def run_with_a_limit(folder):
    """Return the ended run whose files may have 64 blocks."""
    words = [*TERMPROBE, "run", *BENCH, "--port", "sim:", "--out", str(folder)]
    return subprocess.run(
        ["bash", "-c", "ulimit -f 64; exec " + " ".join(words)],
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        timeout=60,
        check=False,
        preexec_fn=lambda: signal.signal(signal.SIGXFSZ, signal.SIG_IGN),
    )


def test_interrupted_is_130_and_the_run_file_is_good(tmp_path):
    port, slave = drained_port()
    words = ("--port", port, "--stage", "fields", "--speed", "300", "--out", str(tmp_path))
    process = subprocess.Popen(
        [*TERMPROBE, "run", *BENCH, *words],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    wait_for_a_step(tmp_path)
    process.send_signal(signal.SIGINT)
    _, error = process.communicate(timeout=20)
    os.close(slave)
    assert process.returncode == 130 and "Traceback" not in error and "interrupted" in error
    assert read(run_file(tmp_path)).damages == ()
    assert called("report", run_file(tmp_path)).returncode == 4


def wait_for_a_step(folder):
    """Return when the run file in `folder` has the record of a step."""
    deadline_s = time.monotonic() + 20
    while not any('"kind":"step"' in path.read_text() for path in folder.glob("*.jsonl")):
        assert time.monotonic() < deadline_s
        time.sleep(0.05)


@pytest.mark.parametrize("command", ["run", "session"])
def test_a_part_of_a_script_can_be_carried_out_alone(tmp_path, command):
    words = (command, *BENCH, "--port", "sim:", "--out", tmp_path)
    wrong = called(*words, "--stage", "cursr")
    assert wrong.returncode == 2 and 'nearest is "cursor"' in complaint(wrong, 2)
    done = called(*words, "--stage", "cursor", input="y\n" * 20)
    report = json.loads(called("report", run_file(tmp_path), "--format", "json").stdout)
    assert {step["stage"] for step in report["steps"]} == {"cursor"} and done.returncode == 0


def test_a_builder_at_a_terminal_is_asked_on_standard_error(tmp_path):
    master, slave = pty.openpty()
    process = subprocess.Popen(
        [*TERMPROBE, "run", *BENCH, "--port", "sim:", "--stage", "supply", "--out", tmp_path],
        stdin=slave,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    os.close(slave)
    os.write(master, b"yes\n5.1\n12\nstop\n")
    output, error = process.communicate(timeout=60)
    os.close(master)
    assert process.returncode == 4 and output.startswith("INCOMPLETE (PRACTICE): ")
    assert "CAUTION" not in output and error.count("Within limits.") == 2
    answered = [one for one in read(run_file(tmp_path)).records if isinstance(one, Answered)]
    assert [one.answer.word for one in answered] == ["as-expected", "as-expected"]
