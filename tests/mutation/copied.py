"""A copy of the checkout to be mutated, and programs that run in it."""

import contextlib
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence

ROOT = pathlib.Path(__file__).resolve().parents[2]
NODE_MODULES = ("tests/emulators/node_modules", "tests/pages/node_modules")
"""Ignored by git, and needed by the tests against independent engines."""
CONFTEST = "tests/conftest.py"
SETTINGS = """
from hypothesis import Phase

phases = (Phase.explicit, Phase.generate)
settings.register_profile("mutants", deadline=None, derandomize=True, phases=phases)
settings.load_profile("mutants")
"""
"""Added to the settings of the tests: the same examples for each mutant, and none made simpler once
one has failed, which would take minutes."""
PATIENCE_S = 10


def files() -> list[str]:
    """Return the path of each file of the checkout that git does not ignore."""
    words = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    listed = subprocess.run(words, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    return [path for path in listed.split("\0") if path and (ROOT / path).is_file()]


@contextlib.contextmanager
def copied_checkout() -> Iterator[pathlib.Path]:
    """Yield the folder of a copy of the checkout with SETTINGS, which is removed afterwards."""
    with tempfile.TemporaryDirectory(prefix="mutants-", ignore_cleanup_errors=True) as folder:
        copy = pathlib.Path(folder)
        for path in files():
            (copy / path).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / path, copy / path)
        for modules in NODE_MODULES:
            if (ROOT / modules).is_dir():
                (copy / modules).symlink_to(ROOT / modules)
        with (copy / CONFTEST).open("a", encoding="utf-8") as file:
            file.write(SETTINGS)
        yield copy


def end(process: subprocess.Popen[str]) -> None:
    """End a process and all that it has started, first as Ctrl-C would."""
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGKILL):
        with contextlib.suppress(ProcessLookupError):
            os.killpg(process.pid, number)
        with contextlib.suppress(subprocess.TimeoutExpired):
            process.wait(PATIENCE_S)


def run_in(
    copy: pathlib.Path, words: Sequence[str], imported: str = ""
) -> subprocess.CompletedProcess[str]:
    """Run `python WORDS` in the copy and return what came of it, its output as one text.

    Programs that it starts import termprobe from the folder `imported` of the copy. What they leave
    in the folder of temporary files goes with the copy. Ctrl-C ends them all.
    """
    temporary = copy / "tmp"
    temporary.mkdir(exist_ok=True)
    environment = {**os.environ, "PYTHONPATH": str(copy / imported), "TMPDIR": str(temporary)}
    process = subprocess.Popen(
        [sys.executable, *words],
        cwd=copy,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    )
    try:
        output, _ = process.communicate()
    except BaseException:
        end(process)
        raise
    return subprocess.CompletedProcess(words, process.returncode, output, "")
