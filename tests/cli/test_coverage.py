"""`termprobe coverage`, as a page, as a document, and shown again at each save."""

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time

import pytest

from helpers.paths import ROOT
from helpers.scripts import SINGLE
from termprobe.board.faults.catalogue import catalogue
from termprobe.cli.main import main
from termprobe.diagnosis.visibility import USUAL_MISS
from termprobe.errors import EXIT_PASSED, EXIT_USAGE

FOR = ("coverage", "--profile", "singlebyte-24x80")
WORDS = (*FOR, "--script", "acceptance")
SMALL = """\
id: small
title: A look
stages:
  - id: one
    title: One
    steps:
      - {id: stars, kind: look, title: Stars, question: Stars?, send: [{pattern: solid, with: "*"}]}
"""


def document(capsys, *words):
    assert main([*words, "--json"]) == EXIT_PASSED
    return json.loads(capsys.readouterr().out)


def test_the_document_adds_up(capsys):
    found = document(capsys, *WORDS)
    assert set(found) >= {
        *("faults", "undetectable", "detected", "missed", "looks", "presses", "classes"),
        *("by_block", "seconds_of_builder", "smallest_set"),
    }
    names = [*found["missed"], *(each["fault"] for each in found["undetectable"])]
    assert set(names) < set(catalogue(SINGLE)) and len(set(names)) == len(names)
    assert found["faults"] == found["detected"] + len(names) == len(catalogue(SINGLE))
    for count in ("faults", "detected", "undetectable", "missed"):
        blocks = sum(block[count] for block in found["by_block"].values())
        assert blocks == sum(part[count] for part in found["by_part"].values())
    assert found["detected"] > 1300 and found["looks"] <= 17
    assert found["smallest_bound"] == found["smallest_cost"] == len(found["smallest_set"])


def test_acceptance_shows_every_fault_of_the_display_and_says_why_others_are_none(capsys):
    found = document(capsys, *WORDS)
    assert found["by_part"]["display"]["missed"] == 0 and found["shows_all_cell_bits"]
    why = {each["fault"]: each["why"] for each in found["undetectable"]}
    assert "moved alike" in why["ram-address/swapped/0-1"]
    # What is left are keys that fail now and then and are pressed once, the break key, and gates.
    kinds = {name.rsplit("/", 1)[0] for name in found["missed"]}
    assert kinds == {"key-matrix/key-flaky", "key-matrix/key-dead", "echo-gate"}


def test_a_script_without_keys_misses_all_of_the_keyboard(capsys):
    found = document(capsys, *FOR, "--script", "quick")
    assert found["by_part"]["display"]["missed"] == 0
    assert found["by_part"]["keyboard-and-line"]["detected"] == 0


def test_who_misses_more_sees_less(capsys):
    usual = document(capsys, *FOR, "--script", "quick")
    words = ("--miss", "screen=0.5", "--miss", "cells=0.9", "--miss", "screen=0.4")
    found = document(capsys, *FOR, "--script", "quick", *words)
    assert found["human_adjusted"] < usual["human_adjusted"] < 1
    assert found["by_visibility"]["screen"]["miss"] == 0.4
    assert found["by_visibility"]["cells"]["miss"] == 0.9
    assert found["by_visibility"]["line"] == usual["by_visibility"]["line"]
    seen = sum(each["faults"] for each in found["by_visibility"].values())
    parts = found["by_part"]
    assert seen == parts["display"]["detected"] + parts["dots"]["detected"]
    assert parts["dots"] == {"faults": 72, "detected": 71, "undetectable": 1, "missed": 0}
    assert found["shows_all_dots"]


def test_the_smallest_set_by_seconds(capsys):
    found = document(capsys, *WORDS, "--weigh", "seconds")
    assert found["smallest_by"] == "seconds"
    assert found["smallest_bound"] == found["smallest_cost"] < found["seconds_of_builder"]


def test_the_page_says_what_is_shown_by_block_and_what_is_missed(capsys):
    assert main(WORDS) == EXIT_PASSED
    page = capsys.readouterr().out
    assert page.startswith("acceptance for singlebyte-24x80: ")
    assert "  ram-address             132 of  132  100.0 %   and 55 that make no difference" in page
    assert "By block, the worst first, which is echo-gate:" in page
    assert re.search(r"^\d+ steps show every fault", page, re.MULTILINE)
    assert re.search(r"^Missed \(\d+\): all 2 of echo-gate, key-matrix/", page, re.MULTILINE)
    assert "timing" in page and "levels" in page and "come and go" in page
    assert max(map(len, page.split("\n"))) <= 80


@pytest.mark.parametrize(
    "words, told",
    [
        (("coverage", "--script", "acceptance"), "--profile"),
        (("coverage", "--profile", "ecma48-24x80", "--script", "acceptance"), "section circuit"),
        ((*WORDS, "--miss", "celsl=0.1"), 'nearest is "cells"'),
        ((*WORDS, "--miss", "cells=1.1"), "a number from 0 to 1"),
        ((*WORDS, "--miss", "cells=nan"), "a number from 0 to 1"),
        ((*WORDS, "--miss", "cells"), "a number from 0 to 1"),
        ((*WORDS, "--weigh", "looks"), "--weigh"),
        ((*WORDS, "--watch", "--json"), "leave out --json"),
        ((*FOR, "--script", "missing.yaml", "--watch"), "missing.yaml"),
    ],
)
def test_what_is_needed_is_told(words, told, capsys):
    assert main(words) == EXIT_USAGE
    assert told in capsys.readouterr().err


@pytest.fixture
def watched(tmp_path):
    """A script file, and the process that watches it; it is ended as a user would end it."""
    script = tmp_path / "small.yaml"
    script.write_text(SMALL)
    profile = shutil.copy(ROOT / "profiles" / "singlebyte-24x80.yaml", tmp_path)
    words = ("coverage", "--watch", "--profile", str(profile), "--script", str(script))
    process = subprocess.Popen(
        [sys.executable, "-m", "termprobe.cli.main", *words],
        cwd=ROOT,
        env=os.environ | {"XDG_CACHE_HOME": str(tmp_path), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    yield script, process
    process.kill()
    process.wait()


def until(process, wanted):
    """Return the lines that come up to one with `wanted` in it."""
    lines = []
    while not lines or wanted not in lines[-1]:
        line = process.stdout.readline()
        assert line, "".join(lines)
        lines.append(line)
    return "".join(lines)


def test_it_is_shown_again_at_each_save_mistakes_too_until_ctrl_c(watched):
    script, process = watched
    first = until(process, "Watching")
    assert "small for singlebyte-24x80: on a good board 1 look," in first
    script.write_text(SMALL.replace("pattern: solid", "patern: solid"))
    broken = until(process, "Watching")
    assert f"{script}:7:" in broken and "patern" in broken and "Shown" not in broken
    script.write_text(SMALL.replace('with: "*"}', 'with: "*"}, {command: bell}'))
    mended = until(process, "Watching")
    assert "Newly shown (" in mended and "No longer shown" not in mended
    time.sleep(0.1)
    process.send_signal(signal.SIGINT)
    assert process.wait(10) == EXIT_PASSED and "Traceback" not in process.stdout.read()


def test_the_help_gives_the_usual_rates(capsys):
    assert main(["coverage", "--help"]) == EXIT_PASSED
    words = capsys.readouterr().out
    assert all(f"{name}={rate}" in words for name, rate in USUAL_MISS.items())
