"""What a person is told who asks for help, or who cannot have what was asked for."""

import pathlib
import shlex
import shutil
from dataclasses import replace

import pytest

from helpers.golden import check
from helpers.paths import RUN_FILES, TESTS
from helpers.scripts import spared
from termprobe.cli import main as entry
from termprobe.cli import ports
from termprobe.cli.main import COMMANDS, main
from termprobe.errors import EXIT_INCOMPLETE, EXIT_LINK, EXIT_PASSED, EXIT_USAGE
from termprobe.journal.file import encode
from termprobe.journal.reading import read
from termprobe.link.ports import BUSY, DENIED, HINTS, NO_DRIVER, PortInfo

pytestmark = pytest.mark.golden

MISTAKES = TESTS / "golden" / "mistakes"

ACTIONS = [(name, action) for name in ("profile", "script") for action in ("list", "show", "check")]
HELPS = [(), *((name,) for name in COMMANDS), *ACTIONS]

PROFILE = ("--profile", "singlebyte-24x80")
PLAN = (*PROFILE, "--script", "acceptance")
RUN = ("run", *PLAN, "--board", "0007")
SIMULATED = (*RUN, "--port", "sim:")
REPORT = ("report", "session.run.jsonl")

USAGE_ERRORS = {
    "unknown-command": ("frobnicate",),
    "unknown-option": (*SIMULATED, "--stge", "cursor"),
    "no-port": RUN,
    "no-profile": ("run", "--port", "sim:", "--board", "0007"),
    "no-script": ("run", *PROFILE, "--port", "sim:", "--board", "0007"),
    "no-board": ("run", *PLAN, "--port", "sim:"),
    "no-port-of-keys": ("keys", *PROFILE, "--board", "0007"),
    "unknown-profile": ("profile", "show", "singlebyte-24x8"),
    "unknown-script": ("script", "show", "aceptance"),
    "unknown-stage": (*SIMULATED, "--stage", "cursr"),
    "unknown-format": (*REPORT, "--format", "xml"),
    "unknown-fault": (*RUN, "--port", "sim:decoder/ded/clear"),
    "unknown-fault-of-demo": ("demo", "--fault", "bank-1-data/stuck/9/0"),
    "speed-in-words": (*SIMULATED, "--speed", "fast"),
    "wait-of-nothing": ("keys", *PROFILE, "--port", "sim:", "--board", "1", "--wait", "0"),
    "out-is-a-file": (*SIMULATED, "--out", "session.run.jsonl/runs"),
    "output-in-no-folder": (*REPORT, "-o", "missing/report.txt"),
    "no-circuit": ("sim", "--profile", "ecma48-24x80", "--pty", "board"),
    "no-keyboard": ("keys", "--profile", "no-keyboard.yaml", "--quick", "--list"),
    "clock-in-megahertz": ("baud", "--clock-hz", "5.0688"),
    "divisor-of-nothing": ("baud", "--clock-hz", "5068800", "--divisor", "0"),
    "frame-of-nine": ("baud", "--format", "9N1"),
    "address-of-sim": ("sim", *PROFILE, "--tcp", "localhost"),
    "answers-to-unknown-steps": (*SIMULATED, "--answers", "answers.yaml"),
    "dump-of-nothing": (*SIMULATED, "--dump", " "),
    "dump-not-closed": (*SIMULATED, "--dump", "cat 'screen"),
}
FILE_ERRORS = {
    "profile-missing": ("profile", "check", "missing.yaml"),
    "profile-broken": ("profile", "check", "broken-profile.yaml"),
    "profile-no-yaml": ("profile", "check", "no-yaml.yaml"),
    "profile-empty": ("profile", "check", "empty.yaml"),
    "profile-is-a-script": ("profile", "check", "broken-script.yaml"),
    "script-missing": ("script", "check", "missing.yaml"),
    "script-broken": ("script", "check", "broken-script.yaml"),
    "script-broken-plan": ("script", "check", "broken-plan.yaml"),
    "run-file-missing": ("report", "missing.run.jsonl"),
    "run-file-is-none": ("report", "broken-script.yaml"),
    "run-file-damaged": ("report", "damaged.run.jsonl"),
    "resume-missing": ("run", "--port", "sim:", "--resume", "missing.run.jsonl"),
    "resume-newer": ("run", "--port", "sim:", "--resume", "newer.run.jsonl"),
    "resume-damaged": ("run", "--port", "sim:", "--resume", "damaged.run.jsonl"),
}
LINK_ERRORS = {
    "port-missing": (*RUN, "--port", "no-such-port"),
    "port-is-a-file": (*RUN, "--port", "session.run.jsonl"),
    "port-of-unknown-kind": (*RUN, "--port", "pigeon://loft"),
    "port-without-number": (*RUN, "--port", "socket://localhost"),
}
ERRORS = {
    **{name: (words, EXIT_USAGE) for name, words in (USAGE_ERRORS | FILE_ERRORS).items()},
    **{name: (words, EXIT_LINK) for name, words in LINK_ERRORS.items()},
}


@pytest.fixture
def at_the_files(tmp_path, monkeypatch):
    """Stand in a folder with files that have mistakes in them.

    Which looks spare others is known already, so that nothing is said of working it out.
    """
    spared("acceptance", "singlebyte-24x80")
    shutil.copytree(MISTAKES, tmp_path, dirs_exist_ok=True)
    good = shutil.copy(RUN_FILES / "session.run.jsonl", tmp_path)
    header = read(good).header
    (tmp_path / "newer.run.jsonl").write_bytes(encode(replace(header, format=9)))
    (tmp_path / "damaged.run.jsonl").write_bytes(pathlib.Path(good).read_bytes()[:500])
    monkeypatch.chdir(tmp_path)


@pytest.fixture(autouse=True)
def at_80_columns(monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")


@pytest.mark.parametrize("words", HELPS, ids=" ".join)
def test_each_help(words, capsys):
    assert main([*words, "--help"]) == EXIT_PASSED
    check(f"messages/help{''.join(f'-{word}' for word in words)}.txt", capsys.readouterr().out)


def test_where_to_begin(capsys):
    assert main([]) == 0
    check("messages/where-to-begin.txt", capsys.readouterr().out)


@pytest.mark.parametrize("name", ERRORS)
def test_each_error(name, at_the_files, capsys):
    words, exit_code = ERRORS[name]
    assert main(words) == exit_code
    told = capsys.readouterr()
    assert told.out == ""
    check(f"messages/error-{name}.txt", f"$ {shlex.join(('termprobe', *words))}\n{told.err}")


def hint(state, by):
    """Return the last fields of a PortInfo in that state."""
    return HINTS[state].format(by=by), state, by


PORTS = {
    "none": [],
    "ready": [PortInfo("/dev/ttyUSB0", "USB serial", "FT232R", "")],
    "denied": [PortInfo("/dev/ttyUSB0", "USB serial", "FT232R", *hint(DENIED, "dialout"))],
    "busy": [PortInfo("/dev/ttyUSB0", "USB serial", "FT232R", *hint(BUSY, "tailor (4711)"))],
    "no-driver": [PortInfo("", "USB 1-4", "CH340", *hint(NO_DRIVER, "ch341"))],
}


@pytest.mark.parametrize("name", PORTS)
def test_the_list_of_ports(name):
    check(f"messages/ports-{name}.txt", ports.page(PORTS[name]) + "\n")


def test_a_mistake_of_termprobe_itself(monkeypatch, capsys):
    def fail(words):
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr(entry, "_run", fail)
    assert main(["profile", "list"]) == EXIT_INCOMPLETE
    check("messages/error-of-termprobe.txt", capsys.readouterr().err)
