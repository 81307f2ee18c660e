"""termprobe as a program, called as a user calls it.

A process of its own that has imported the whole program forks one for each call: all that a call
has is its own, but for the third of a second in which Python imports.
"""

import contextlib
import multiprocessing
import os
import pathlib
import pkgutil
import subprocess
import sys
import tempfile

import termprobe

LIMIT_S = 60.0
BENCH = ("--profile", "singlebyte-24x80", "--script", "acceptance", "--board", "0001")
FORKING = multiprocessing.get_context("forkserver")
PRELOADED = [found.name for found in pkgutil.walk_packages(termprobe.__path__, "termprobe.")]
FORKING.set_forkserver_preload([*PRELOADED, "helpers.warmed"])
TESTS = pathlib.Path(__file__).resolve().parent.parent


def called(*words, limit_s=LIMIT_S, input=""):
    """Return the ended program; its standard input is `input`."""
    words = [str(word) for word in words]
    with tempfile.TemporaryDirectory(prefix="termprobe-called-") as folder:
        paths = [pathlib.Path(folder, name) for name in ("stdin", "stdout", "stderr")]
        paths[0].write_text(input, encoding="utf-8")
        surroundings = dict(os.environ), os.getcwd()
        process = FORKING.Process(target=_carry_out, args=(words, paths, *surroundings))
        with _modules_of_tests():
            process.start()
        process.join(limit_s)
        if process.exitcode is None:
            process.kill()
            process.join()
            raise subprocess.TimeoutExpired(words, limit_s)
        told = [path.read_text(encoding="utf-8") for path in paths[1:]]
        return subprocess.CompletedProcess(words, process.exitcode, *told)


@contextlib.contextmanager
def _modules_of_tests():
    """Let the process that forks, which begins with the first of these, import what helps tests."""
    before = os.environ.get("PYTHONPATH")
    os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, [str(TESTS), before]))
    try:
        yield
    finally:
        del os.environ["PYTHONPATH"]
        if before is not None:
            os.environ["PYTHONPATH"] = before


def _carry_out(words, paths, environment, folder):
    """Be the program: with files for the three standard streams, in this environment and folder."""
    for number, path in enumerate(paths):
        flags = os.O_WRONLY | os.O_CREAT if number else os.O_RDONLY
        os.dup2(os.open(path, flags), number)
    sys.stdin = os.fdopen(0, encoding="utf-8", closefd=False)
    sys.stdout = os.fdopen(1, "w", encoding="utf-8", closefd=False)
    sys.stderr = os.fdopen(2, "w", encoding="utf-8", closefd=False)
    os.environ.clear()
    os.environ.update(environment)
    os.chdir(folder)
    from termprobe.cli.main import main

    sys.argv = ["termprobe", *words]
    sys.exit(main())


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
