"""Names that a person can type for boards, builders, ports and folders; folders that are no use."""

import itertools
import pathlib
import tempfile

from termprobe.notation import visible

from .good_inputs import PROFILE, SCRIPT
from .guarded import called
from .tables import Failed, failures_told, heading, row

LONG = 5000
NAMES = (
    "",
    " ",
    ".",
    "..",
    "../../up",
    "/etc/passwd",
    "a/b",
    "a\\b",
    "~",
    "-",
    "--help",
    "$(id)",
    "`id`",
    "%s%n",
    "a\nb",
    "a\rb",
    "a\tb",
    "\x1b[2J",
    "\x9b31m",
    "\u202eevitagen",
    "\u200b",
    "\ufeff",
    "\udcff",
    "e\u0301",
    "é" * 100,
    "漢" * 200,
    "\U0001f600" * 80,
    "x" * 255,
    "x" * 256,
    "x" * LONG,
    "con",
    "nul.txt",
    "a:b*c?d|e<f>g",
    "'\"",
    "<b>&amp;</b>",
    "{{7*7}}",
    "# heading",
    "| a | b |",
    "null",
    "1e999",
)
OPTIONS = ("--board", "--builder", "--revision")
PORTS = (
    "",
    "sim",
    "sim:",
    "sim:x" * 400,
    "sim:\x1b[2J",
    "/dev/null",
    "/dev/full",
    "/dev/zero",
    "/",
    "/dev/ttyNONE",
    "socket://",
    "socket://:0",
    "socket://127.0.0.1:1",
    "socket://127.0.0.1:99999",
    "rfc2217://127.0.0.1:1",
    "loop://?x",
    "spy://",
    "hwgrep://.*",
    "://",
    "x" * LONG,
    "\u202e",
)
FOLDERS = (
    "/dev/null",
    "/dev/null/x",
    "/proc/here",
    "/sys/here",
    "",
    "x" * LONG,
    "a/" * 3000,
    "\udcff",
    "\x1b[2J",
    "line\nbreak",
)
LOOK_ONLY = ("--stage", "power")
"""Its steps send nothing, and so take no time."""


def attack(request):
    """Give every name to every option once, print how they fared; return how many failed."""
    tries = [*itertools.product(OPTIONS, NAMES)]
    tries += [("--port", port) for port in PORTS] + [("--out", folder) for folder in FOLDERS]
    tries = tries[:: max(1, len(tries) // request.how_many(len(tries)))]
    heading("Names that a person can type", *("option", "tried", "failed"))
    failures = {option: [] for option, _ in tries}
    for number, (option, name) in enumerate(tries):
        wrong = _tried(option, name)
        if wrong:
            given = name.encode("utf-8", "surrogateescape")
            failures[option].append(Failed(number, given, f"{visible(name)[:40]}: {wrong}"))
    for option, failed in failures.items():
        row(option, sum(one == option for one, _ in tries), len(failed))
        failures_told(request.folder, f"name{option}", failed)
    return sum(map(len, failures.values()))


def _tried(option, name):
    """Return what is wrong with a run in which `option` has that name; empty where nothing is."""
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        inside = pathlib.Path(folder, "inside")
        given = {"--board": "1", "--port": "sim:", "--out": str(inside)} | {option: name}
        if option == "--out" and not name.startswith("/"):
            given["--out"] = f"{inside}/{name}"
        words = [part for pair in given.items() for part in _joined(pair)]
        fixed = ["run", "--profile", str(PROFILE), "--script", str(SCRIPT), *LOOK_ONLY]
        outcome = called([*fixed, *words])
        beside = [path.name for path in pathlib.Path(folder).iterdir() if path != inside]
        if beside and option != "--out":
            return f"wrote {beside} beside its folder"
        if outcome.wrong or outcome.code in (2, 3):
            return outcome.wrong
        if option == "--out":
            return ""
        return _unread(sorted(inside.glob("*")))


def _joined(pair):
    """Return option and value as one word, so that a value may begin with a hyphen."""
    return ["=".join(pair)]


def _unread(paths):
    """Return what is wrong with the report of the run file."""
    runs = [path for path in paths if path.name.endswith(".run.jsonl")]
    if len(runs) != 1:
        return f"wrote {[path.name for path in paths]}"
    outcome = called(["report", str(runs[0])])
    return outcome.wrong or ("" if outcome.code in (0, 1, 4) else f"exit code {outcome.code}")
