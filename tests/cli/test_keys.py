"""`termprobe keys` as a program: over a simulated board, and over one whose keys a hand presses."""

import json
import subprocess
import threading
import time

import pytest

from helpers.paths import ROOT
from helpers.program import LIMIT_S, called
from helpers.served import TERMPROBE
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
BY_PROFILE = ("keys", "--profile", PROFILE.id)
AT_BENCH = (*BY_PROFILE, "--board", "x")
SIMULATED = (*AT_BENCH, "--port", "sim:")


def walked(folder, fault="", *words):
    """Return exit code and document of a walk over the simulated board with a fault."""
    done = called(*AT_BENCH, "--port", f"sim:{fault}", "--out", folder, "--json", *words)
    assert "Traceback" not in done.stderr
    return done.returncode, json.loads(done.stdout)


def listed(*words):
    done = called(*BY_PROFILE, "--list", "--json", *words)
    assert done.returncode == 0
    return json.loads(done.stdout)


# Unattended


def test_a_good_board_passes_with_every_press_and_no_suspect(tmp_path):
    code, document = walked(tmp_path)
    assert (code, document["suspects"]) == (0, [])
    assert [step["id"] for step in document["steps"] if step["verdict"] == "pass"] == [
        press.id for press in coded_presses(PROFILE)
    ]


@pytest.mark.parametrize(
    "fault",
    (
        "key-matrix/row-open/3",
        "keyboard-code/stuck/2/1",
        "key-matrix/shift-dead",
        "key-matrix/keys-swapped/q-w",
    ),
)
def test_the_full_walk_names_the_fault_first(tmp_path, fault):
    code, document = walked(tmp_path, fault)
    assert code == 1 and fault in document["suspects"][0]["class"]


@pytest.mark.parametrize("fault", ("key-matrix/row-open/3", "keyboard-code/stuck/2/1"))
def test_the_quick_walk_asks_for_its_few_presses_and_names_the_class_first(tmp_path, fault):
    code, document = walked(tmp_path, fault, "--quick")
    few = [(one["key"], one["modifiers"]) for one in listed("--quick")]
    wanted = [
        press.id for press in coded_presses(PROFILE) if (press.key, list(press.modifiers)) in few
    ]
    assert 0 < len(wanted) < 20 and [step["id"] for step in document["steps"]] == wanted
    assert code == 1 and fault in document["suspects"][0]["class"]


@pytest.mark.parametrize(
    "words, note", [((), ""), (("--quick",), f"{137 - 8} presses were not tried")]
)
def test_the_report_says_when_presses_were_left_out(tmp_path, words, note):
    done = called(*SIMULATED, "--out", tmp_path, *words)
    assert done.returncode == 0
    first = "PARTIAL" if note else "PRACTICE, simulated board: "
    assert done.stdout.startswith(first) and note in " ".join(done.stdout.split())


def test_chords_of_a_keyboard_without_diodes_are_not_asked_for_and_it_is_told_why(tmp_path):
    done = called(*SIMULATED, "--out", tmp_path, "--quick", "--chords", "--json")
    assert done.stderr.startswith("Chords: none are asked for: this keyboard has no diodes ")
    assert json.loads(done.stdout)["suspects"] == []
    done = called(*SIMULATED, "--out", tmp_path, "--quick", "--chords")
    assert "\nChords: none are asked for: this keyboard has no diodes " in done.stdout
    assert "Chords" not in called(*SIMULATED, "--out", tmp_path, "--quick").stderr


def test_behind_a_list_of_the_fewest_it_is_told_that_no_fewer_would_do():
    done = called(*BY_PROFILE, "--list", "--quick")
    count = len(done.stdout.splitlines())
    assert count == len(listed("--quick"))
    assert done.stderr.startswith(f"{count} presses show all ")
    assert done.stderr.endswith(f" faults of lines; no set of {count - 1} does.\n")
    for words in (("--list",), ("--list", "--quick", "--json")):
        assert called(*BY_PROFILE, *words).stderr == ""


def test_the_list_has_the_presses_in_the_order_in_which_they_are_asked_for():
    assert listed() == [
        {
            "key": press.key,
            "legend": press.legend,
            "modifiers": list(press.modifiers),
            "code": press.code.hex(),
        }
        for press in coded_presses(PROFILE)
    ]


# By hand


HAND_S = 0.12
"""A quick typist needs so long for a key."""


class Walk:
    """A running walk over a board that a person, the test, presses the keys of."""

    def __init__(self, board, folder, *words):
        self._board, self.folder = board, folder
        self.process = subprocess.Popen(
            [*TERMPROBE, "keys", "--port", folder / "port", "--out", folder, *words],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            cwd=ROOT,
        )
        self._limit = threading.Timer(LIMIT_S, self.process.kill)
        self._limit.start()

    def until(self, word):
        """Return the line of standard error that has `word`, when it has come."""
        line = next((line for line in self.process.stderr if word in line), None)
        assert line is not None, f"{word!r} must be told"
        return line

    def press(self, key, *modifiers):
        """Press when a press is waited for; return what is told of it."""
        self.until("Press ")
        time.sleep(HAND_S)
        self._board.stdin.write(f":press {' '.join((key, *modifiers))}\n")
        self._board.stdin.flush()
        return self.until(": press/")

    def end(self):
        """Return exit code and standard output."""
        output, errors = self.process.communicate(timeout=LIMIT_S)
        assert "Traceback" not in errors
        return self.process.returncode, output

    def close(self):
        self._limit.cancel()
        self.process.kill()
        self.process.communicate(timeout=LIMIT_S)


@pytest.fixture(name="walk")
def _walk(tmp_path):
    board = subprocess.Popen(
        [*TERMPROBE, "sim", "--profile", PROFILE.id, "--pty", str(tmp_path / "port")],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        cwd=ROOT,
    )
    walks = []
    try:
        board.stdout.readline()  # it is served

        def start(*words):
            walks.append(Walk(board, tmp_path, *words))
            return walks[-1]

        yield start
    finally:
        for one in walks:
            one.close()
        board.kill()
        board.communicate(timeout=LIMIT_S)


BOARD = AT_BENCH[1:]


def test_in_free_order_presses_count_where_they_fit_and_the_walk_stops_when_none_comes(walk):
    one = walk(*BOARD, "--order", "free", "--plain", "--wait", "2")
    assert "right: press/z+shift" in one.press("z", "shift")
    assert "right: press/q:" in one.press("q")
    code, output = one.end()
    assert code == 4 and "INCOMPLETE" in output.upper()


def test_a_listed_press_that_does_not_come_in_time_is_missing(walk):
    one = walk(*BOARD, "--quick", "--json", "--wait", "0.5")
    first, *others = listed("--quick")
    assert "WRONG" in one.until("no code received")
    code, output = one.end()
    document = json.loads(output)
    steps = document["steps"]
    assert (code, document["verdict"]) == (3, "incomplete"), "nothing ever came: the cable"
    assert len(steps) == 1 + len(others) and {step["verdict"] for step in steps} == {"blocked"}
    assert steps[0]["id"].startswith(f"press/{first['key']}")


def test_a_walk_killed_in_the_middle_goes_on_where_it_was(walk, tmp_path):
    few = listed("--quick")
    one = walk(*BOARD, "--quick", "--json")
    for press in few[:3]:
        assert "right: " in one.press(press["key"], *press["modifiers"])
    one.process.kill()
    one.process.wait(LIMIT_S)
    (path,) = tmp_path.glob("*.jsonl")
    two = walk("--resume", str(path), "--quick", "--json")
    for press in few[3:]:
        assert "right: " in two.press(press["key"], *press["modifiers"])
    code, output = two.end()
    document = json.loads(output)
    assert (code, len(document["steps"]), document["suspects"]) == (0, len(few), [])


# Words that are not good


def test_a_profile_without_a_keyboard_is_refused_in_one_line(tmp_path):
    source = (ROOT / "profiles/singlebyte-24x80.yaml").read_text(encoding="utf-8")
    bare = tmp_path / "bare.yaml"
    bare.write_text(without(source, "keyboard"), encoding="utf-8")
    words = ("keys", "--profile", bare, "--port", "sim:", "--board", "x", "--out", tmp_path)
    for more in ((), ("--quick",)):
        refused((*words, *more), "must name a profile that describes a keyboard")
    refused(("keys", "--profile", bare, "--list", "--quick"), "describes a keyboard")


def without(source, name):
    """Return the YAML text without the top-level mapping `name`."""
    kept, is_left_out = [], False
    for line in source.splitlines():
        if line[:1].strip():
            is_left_out = line.startswith(f"{name}:")
        if not is_left_out:
            kept.append(line)
    return "\n".join(kept) + "\n"


@pytest.mark.parametrize("seconds", ("0", "-1", "nan", "soon", "3601"))
def test_a_wait_out_of_range_is_refused_in_one_line(seconds):
    refused((*SIMULATED, f"--wait={seconds}"), "3600 seconds")


def test_a_port_must_be_named():
    refused(AT_BENCH, "--port must")


def refused(words, expected):
    done = called(*words)
    lines = [line for line in done.stderr.splitlines() if not line.startswith(("usage:", " "))]
    assert (done.returncode, done.stdout, len(lines)) == (2, "", 1), done.stderr
    assert expected in lines[0]
