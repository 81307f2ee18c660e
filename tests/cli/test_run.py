"""`termprobe run` as a user meets it: verdicts and exit codes, and every kind of bad input in one clear line."""

import json
import os
import pathlib
import pty
import signal
import subprocess
import sys
import threading
import time

import pytest

from helpers.lines import PtyBoard, taken
from termprobe.cli.main import COMMANDS, main
from termprobe.journal.file import read

FAILING = "bank-1-data/stuck/0/1"


def termprobe(*words, timeout=60, **fields):
    fields = fields if "input" in fields else {"stdin": subprocess.DEVNULL, **fields}
    return subprocess.run(
        [sys.executable, "-m", "termprobe.cli.main", *words],
        capture_output=True,
        text=True,
        timeout=timeout,
        check=False,
        **fields,
    )


def run(folder, *words, port="sim:", **fields):
    return termprobe(
        "run",
        "--profile",
        "singlebyte-24x80",
        "--script",
        "acceptance",
        "--port",
        port,
        "--board",
        "0001",
        "--out",
        str(folder),
        *words,
        **fields,
    )


def run_file(folder):
    return next(pathlib.Path(folder).glob("*.run.jsonl"))


def one_line(done, code):
    """Assert that there is one plain complaint, no traceback, and the exit code; return the complaint."""
    lines = [line for line in done.stderr.splitlines() if line.startswith("termprobe: ")]
    assert len(lines) == 1 and "Traceback" not in done.stderr, done.stderr
    assert done.returncode == code, done.stderr
    return lines[0]


def test_a_good_board_passes_the_stages_that_need_no_person(tmp_path):
    done = run(tmp_path, "--stage", "fields", "--stage", "cursor", "--json")
    document = json.loads(done.stdout)
    assert done.returncode == 0 and document["verdict"] == "pass" and document["board"] == "0001"
    assert set(document) == {"board", "verdict", "run", "steps"}
    assert {step["verdict"] for step in document["steps"]} == {"pass", "not-fitted"}


def test_a_faulty_board_fails_and_the_report_names_the_bit(tmp_path):
    done = run(tmp_path, "--stage", "fields", port=f"sim:{FAILING}")
    assert done.returncode == 1 and done.stdout.startswith("FAIL: board 0001 failed 2 of 2 steps\n")
    assert "every difference is in an odd row; bit 0 arrives as 1" in done.stdout


def test_what_nobody_answers_leaves_the_run_incomplete(tmp_path):
    done = run(tmp_path)
    assert done.returncode == 4 and done.stdout.startswith("INCOMPLETE: ")
    assert "unanswered supply-5v" in done.stdout


def test_an_answers_file_stands_in_for_the_person(tmp_path):
    answers = tmp_path / "rig.yaml"
    answers.write_text(
        "supply-5v: 5.04\nsupply-12v: 12.1 V\nsupply-minus-12v: -12.0\nripple-5v: 40 mV\n"
    )
    assert run(tmp_path, "--stage", "supply", "--answers", str(answers)).returncode == 0
    answers.write_text("supply-5v: 5.30\n")
    done = run(tmp_path, "--stage", "supply", "--answers", str(answers))
    assert done.returncode == 1 and "5.3 V, outside the limits, 4.75 to 5.25 V" in done.stdout


def test_the_report_is_made_again_from_the_run_file(tmp_path):
    first = run(tmp_path, "--stage", "fields", port=f"sim:{FAILING}")
    again = termprobe("report", str(run_file(tmp_path)))
    assert again.stdout == first.stdout and again.returncode == 1
    document = json.loads(termprobe("report", "--format", "json", str(run_file(tmp_path))).stdout)
    assert document["verdict"] == "fail" and document["totals"] == {"fail": 2}


def test_a_run_is_resumed_where_it_stopped(tmp_path):
    run(tmp_path, "--stage", "supply")
    answers = tmp_path / "rig.yaml"
    answers.write_text("supply-5v: 5\nsupply-12v: 12\nsupply-minus-12v: -12\nripple-5v: 0.02\n")
    done = termprobe(
        "run", "--port", "sim:", "--resume", str(run_file(tmp_path)), "--answers", str(answers)
    )
    assert done.returncode == 0 and done.stdout.startswith("PASS: board 0001 passed 4 of 4 steps")
    assert len(list(tmp_path.glob("*.run.jsonl"))) == 1


def test_a_resumed_run_says_which_steps_changed(tmp_path):
    script = tmp_path / "mine.yaml"
    text = "id: mine\ntitle: Mine\nstages:\n  - id: s\n    title: S\n    steps:\n      - {id: a, kind: look, title: A, question: Is it?, send: [{text: A}]}\n"
    script.write_text(text)
    words = [
        "--profile",
        "singlebyte-24x80",
        "--script",
        str(script),
        "--port",
        "sim:",
        "--board",
        "1",
        "--out",
        str(tmp_path),
    ]
    assert termprobe("run", *words).returncode == 0
    script.write_text(text.replace("text: A}", "text: B}"))
    done = termprobe("run", *words, "--resume", str(run_file(tmp_path)))
    assert "these steps are not what was answered then: a" in done.stderr


def test_a_missing_port(tmp_path):
    assert "/dev/ttyNONE" in one_line(run(tmp_path, port="/dev/ttyNONE"), 3)
    assert not list(tmp_path.glob("*.jsonl"))


def test_a_port_that_vanishes_in_the_middle_loses_nothing(tmp_path):
    board = PtyBoard()
    port = board.path
    slave = os.open(
        port, os.O_RDWR | os.O_NOCTTY
    )  # held, so that the far end can wait for the first byte

    def pull():
        taken(board, 500, limit_s=20)
        board.vanish()

    thread = threading.Thread(target=pull)
    thread.start()
    done = run(tmp_path, "--stage", "fields", "--speed", "57600", port=port)
    thread.join()
    os.close(slave)
    assert done.returncode == 3 and port in one_line(done, 3)
    kinds = [record["kind"] for record in read(run_file(tmp_path)).records]
    assert "link-lost" in kinds and f"--resume {run_file(tmp_path)}" in done.stderr


def test_a_profile_with_mistakes_names_each_with_its_line(tmp_path):
    profile = tmp_path / "wrong.yaml"
    profile.write_text("id: x\ntitle: x\ndisplay: {rows: many, colums: 80}\n")
    done = termprobe("profile", "check", str(profile))
    assert done.returncode == 2 and f"{profile}:3:17: rows must be a whole number" in done.stderr
    assert 'not "colums"; nearest is "columns"' in done.stderr and len(done.stderr.splitlines()) > 5


def test_a_script_that_names_an_unknown_pattern(tmp_path):
    script = tmp_path / "mine.yaml"
    script.write_text(
        "id: mine\ntitle: Mine\nstages:\n  - id: s\n    title: S\n    steps:\n"
        "      - {id: a, kind: look, title: A, question: Is it?, send: [{pattern: soldi}]}\n"
    )
    done = termprobe(
        "run",
        "--profile",
        "singlebyte-24x80",
        "--script",
        str(script),
        "--port",
        "sim:",
        "--board",
        "1",
    )
    assert (
        "mine.yaml:7:64: a: pattern must be one of" in one_line(done, 2)
        and 'nearest is "solid"' in done.stderr
    )


@pytest.mark.parametrize(
    "name, code, words",
    [
        ("keyboard", 0, "keyboard: good, 2 stages, 2 steps"),
        ("keybord", 2, 'nearest is "keyboard"'),
        ("/", 2, "must be a readable file"),
    ],
)
def test_a_script_is_checked_by_id_or_path(name, code, words):
    done = termprobe("script", "check", name)
    assert (
        done.returncode == code
        and words in done.stdout + done.stderr
        and "Traceback" not in done.stderr
    )


@pytest.mark.parametrize(
    "command, complaint",
    [
        ("printf short", "rows"),
        ("/nonexistent/dump", "dump"),
        (r"printf '\033[2J\377\376'", "dump"),
        ("false", "dump"),
    ],
)
def test_a_dump_command_that_fails_leaves_looks_unanswered(tmp_path, command, complaint):
    master, slave = pty.openpty()
    drain = threading.Thread(target=_drain, args=(master,), daemon=True)
    drain.start()
    done = run(
        tmp_path,
        "--stage",
        "fields",
        "--speed",
        "115200",
        "--dump",
        command,
        port=os.ttyname(slave),
    )
    os.close(slave)
    assert done.returncode == 4 and "Traceback" not in done.stderr
    assert "dump could not answer" in done.stderr and "\x1b" not in done.stderr
    assert "2 unanswered" in done.stdout


def _drain(master):
    try:
        while os.read(master, 65536):
            pass
    except OSError:
        pass


def test_a_full_disk_stops_the_run_at_once(tmp_path):
    folder = tmp_path / "small"
    folder.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)],
        check=False,
        capture_output=True,
    )
    if mounted.returncode:  # no right to mount here: a file size limit has the same effect
        limit = "ulimit -f 64; exec "
        command = limit + " ".join(
            [
                sys.executable,
                "-m",
                "termprobe.cli.main",
                "run",
                "--profile",
                "singlebyte-24x80",
                "--script",
                "acceptance",
                "--port",
                "sim:",
                "--board",
                "0001",
                "--out",
                str(folder),
            ]
        )
        done = subprocess.run(
            ["bash", "-c", command],
            capture_output=True,
            text=True,
            stdin=subprocess.DEVNULL,
            timeout=60,
            check=False,
            preexec_fn=lambda: signal.signal(signal.SIGXFSZ, signal.SIG_IGN),
        )
    else:
        try:
            done = run(folder)
        finally:
            subprocess.run(["umount", str(folder)], check=False)
    assert "the disk" in one_line(done, 4) or "writable" in done.stderr


def test_interrupted_is_130_and_the_run_file_is_good(tmp_path):
    master, slave = pty.openpty()
    threading.Thread(target=_drain, args=(master,), daemon=True).start()
    words = [
        sys.executable,
        "-m",
        "termprobe.cli.main",
        "run",
        "--profile",
        "singlebyte-24x80",
        "--script",
        "acceptance",
        "--port",
        os.ttyname(slave),
        "--board",
        "1",
        "--stage",
        "fields",
        "--speed",
        "300",
        "--out",
        str(tmp_path),
    ]
    process = subprocess.Popen(
        words, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    deadline = time.monotonic() + 20
    while not (
        list(tmp_path.glob("*.jsonl"))
        and '"kind":"step"' in run_file(tmp_path).read_text().replace(": ", ":")
    ):
        assert time.monotonic() < deadline
        time.sleep(0.05)
    process.send_signal(signal.SIGINT)
    out, error = process.communicate(timeout=20)
    os.close(slave)
    assert process.returncode == 130 and "Traceback" not in error and "interrupted" in error
    assert read(run_file(tmp_path)).damages == ()
    assert termprobe("report", str(run_file(tmp_path))).returncode == 4


@pytest.mark.parametrize(
    "words, complaint",
    [
        (["run", "--port", "sim:", "--board", "1"], "--profile must name a profile"),
        (
            ["run", "--profile", "singlebyte-24x80", "--script", "acceptance", "--port", "sim:"],
            "--board must give the serial number",
        ),
        (
            [
                "run",
                "--profile",
                "singlebyte-24x80",
                "--script",
                "acceptance",
                "--port",
                "sim:bank-1-data/stuk/0/1",
                "--board",
                "1",
            ],
            "nearest is",
        ),
        (
            [
                "run",
                "--profile",
                "ecma48-24x80",
                "--script",
                "acceptance",
                "--port",
                "sim:",
                "--board",
                "1",
            ],
            "circuit",
        ),
        (
            [
                "run",
                "--profile",
                "singlebyte-24x80",
                "--script",
                "acceptance",
                "--port",
                "sim:",
                "--board",
                "1",
                "--stage",
                "edge",
            ],
            'nearest is "edges"',
        ),
        (["report", "/nonexistent.run.jsonl"], "/nonexistent.run.jsonl"),
    ],
)
def test_a_bad_command_line_is_one_line_and_exit_code_2(words, complaint):
    assert complaint in one_line(termprobe(*words), 2)


def test_an_unknown_command_is_exit_code_2_and_no_command_too():
    assert termprobe("frobnicate").returncode == 2
    assert termprobe().returncode == 2
    assert termprobe("--help").returncode == 0


@pytest.mark.parametrize("speed", ["0", "-9600", "12x", "9600.5"])
def test_a_speed_that_no_line_has_is_refused_with_an_example(tmp_path, speed):
    done = run(tmp_path, f"--speed={speed}")
    assert done.returncode == 2 and f"for example 9600, not '{speed}'" in done.stderr
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    "words",
    [[name] for name in COMMANDS]
    + [[name, action] for name in ("profile", "script") for action in ("list", "show", "check")],
    ids=" ".join,
)
def test_every_help_says_what_the_command_does_and_fits_80_columns(words, monkeypatch, capsys):
    monkeypatch.setenv("COLUMNS", "80")
    assert main([*words, "--help"]) == 0
    told = capsys.readouterr().out
    usage, described = told.split("\n\n")[:2]
    assert usage.startswith("usage: ") and described.endswith("."), described
    assert max(map(len, told.splitlines())) <= 80


@pytest.mark.parametrize(
    "words, complaint",
    [
        (
            ("session", "--port", "sim:", "--stge", "cursor"),
            "termprobe session --help`, not --stge cursor",
        ),
        (("profile", "list", "more"), "termprobe profile --help`, not more"),
    ],
)
def test_a_word_that_a_command_does_not_know_is_named_with_where_to_look(words, complaint):
    done = termprobe(*words)
    assert done.returncode == 2 and complaint in done.stderr and "Traceback" not in done.stderr


@pytest.mark.parametrize("command", ["run", "session"])
def test_a_part_of_a_script_can_be_carried_out_alone(tmp_path, command):
    words = (
        command,
        "--profile",
        "singlebyte-24x80",
        "--script",
        "acceptance",
        "--port",
        "sim:",
        "--board",
        "1",
        "--out",
        str(tmp_path),
    )
    wrong = termprobe(*words, "--stage", "cursr")
    assert wrong.returncode == 2 and 'nearest is "cursor"' in one_line(wrong, 2)
    done = termprobe(*words, "--stage", "cursor", input="y\n" * 20)
    assert {step["stage"] for step in recorded_steps(tmp_path)} == {
        "cursor"
    } and done.returncode == 0


def recorded_steps(folder):
    report = json.loads(termprobe("report", str(run_file(folder)), "--format", "json").stdout)
    return report["steps"]
