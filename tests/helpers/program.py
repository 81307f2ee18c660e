"""termprobe as a program, called as a user calls it."""

import pathlib
import subprocess

from helpers.served import TERMPROBE

LIMIT_S = 60.0
BENCH = ("--profile", "singlebyte-24x80", "--script", "acceptance", "--board", "0001")


def called(*words, limit_s=LIMIT_S, **fields):
    """Return the ended program; its standard input is empty where `fields` give none."""
    if "input" not in fields:
        fields.setdefault("stdin", subprocess.DEVNULL)
    return subprocess.run(
        [*TERMPROBE, *map(str, words)],
        capture_output=True,
        text=True,
        timeout=limit_s,
        check=False,
        **fields,
    )


def run(folder, *words, port="sim:"):
    """Return the ended `termprobe run` of the acceptance script, with its run file in `folder`."""
    return called("run", *BENCH, "--port", port, "--out", folder, *words)


def run_file(folder):
    """Return the path of the first run file in `folder`."""
    return next(pathlib.Path(folder).glob("*.run.jsonl"))


def complaint(done, code):
    """Assert one plain complaint, no traceback, and the exit code; return the complaint."""
    lines = [line for line in done.stderr.splitlines() if line.startswith("termprobe: ")]
    assert len(lines) == 1 and "Traceback" not in done.stderr, done.stderr
    assert done.returncode == code, done.stderr
    return lines[0]
