"""The recipes for a fault, a bus and an action, followed in a copy of the program."""

import json

import pytest

from helpers.checkout import Checkout, files_named
from helpers.paths import ROOT

PROFILE = "singlebyte-24x80"


@pytest.fixture
def checkout(tmp_path):
    return Checkout(tmp_path)


def words_of_run(fault, stage):
    words = ("run", "--profile", PROFILE, "--script", "acceptance", "--board", "1", "--json")
    return (*words, "--port", f"sim:{fault}", "--stage", stage)


def run_board(checkout, fault, stage):
    return json.loads(checkout.run(*words_of_run(fault, stage)).stdout)


FAMILY = '''\
"""Faults of the bell, made up."""

from collections.abc import Iterator

from termprobe.board.faults.model import Fault, make
from termprobe.board.wiring import Wiring
from termprobe.profile.model import Profile

BLOCKS = ("bell-driver",)


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield the one fault of this family."""
    yield make("bell-driver/dead", "the bell never sounds", _silence)


def _silence(wiring: Wiring) -> None:
    wiring.decoder["bell"] = None
'''


def test_a_family_of_faults_is_one_file(checkout):
    named = files_named("Add a fault")
    assert "termprobe/board/faults/model.py" in named
    checkout.add("termprobe/board/faults/bell.py", FAMILY)
    listed = checkout.run("sim", "--profile", PROFILE, "--faults", "all").stdout
    assert "bell-driver/dead" in listed and "the bell never sounds" in listed
    assert run_board(checkout, "bell-driver/dead", "bell")["verdict"] == "fail"
    assert run_board(checkout, "", "bell")["verdict"] == "pass"


def test_one_more_fault_of_a_known_family_is_an_edit_of_its_file(checkout):
    path = "termprobe/board/faults/speed.py"
    assert (ROOT / path).parent.name in {name.split("/")[-2] for name in files_named("Add a fault")}
    checkout.edit(path, 'USUAL_RATIOS = ("0.5", "2")', 'USUAL_RATIOS = ("0.5", "2", "4")')
    listed = checkout.run("sim", "--profile", PROFILE, "--faults", "all").stdout
    assert "baud/ratio/4" in listed


def test_a_bus_is_a_row_of_one_table_and_the_place_where_data_goes_through_it(checkout):
    assert files_named("Add a bus") == {
        "termprobe/board/wiring.py",
        "termprobe/board/memory.py",
        "termprobe/profile/vocabulary.py",
    }
    checkout.edit(
        "termprobe/board/wiring.py",
        "    KEYBOARD_CODE,\n",
        '    KEYBOARD_CODE,\n    Bus("glyph-data", DATA_LINES, "code", "the dot shifter"),\n',
    )
    checkout.edit(
        "termprobe/board/memory.py",
        '        self._glyphs = bytes(wiring.buses["glyph-address"]) * 2\n',
        '        glyphs, after = wiring.buses["glyph-address"], wiring.buses["glyph-data"]\n'
        "        self._glyphs = bytes(after[code] for code in glyphs) * 2\n",
    )
    checkout.edit(
        "termprobe/profile/vocabulary.py",
        "BUS_LINES = {\n",
        'BUS_LINES = {\n    "glyph-data": 7,\n',
    )
    listed = checkout.run("sim", "--profile", PROFILE, "--faults", "all").stdout
    assert listed.count("glyph-data/") == 2 * 7 + 2 * 21 + 21
    assert run_board(checkout, "glyph-data/stuck/0/0", "addressing")["verdict"] == "fail"


def test_an_action_is_a_rule_and_what_it_does_to_the_screen(checkout):
    assert files_named("Add an action") == {
        "termprobe/profile/vocabulary.py",
        "termprobe/terminal/actions.py",
        "termprobe/board/functions.py",
    }
    checkout.edit(
        "termprobe/profile/vocabulary.py",
        "\nVOCABULARY = {\n",
        "\nVOCABULARY = {\n"
        '    "last-row": ActionRule("move the cursor to the last row, column 0"),\n',
    )
    checkout.edit(
        "termprobe/terminal/actions.py",
        '    "bell": _bell,\n',
        '    "bell": _bell,\n'
        '    "last-row": lambda screen, decoded, profile: screen.move(screen.lines - 1, 0),\n',
    )
    checkout.edit(
        f"profiles/{PROFILE}.yaml",
        "commands:\n",
        "commands:\n  - {name: last-row, bytes: US, action: last-row, source: made up}\n",
    )
    assert checkout.run("profile", "check", PROFILE).returncode == 0
    done = checkout.run("render", "--profile", PROFILE, "--json", input="A\x1fB")
    shown = json.loads(done.stdout)
    assert (shown["rows"][0][0], shown["rows"][23][0], shown["cursor"]) == ("A", "B", [23, 1])
    done = checkout.run(*words_of_run("", "addressing"))
    assert "no circuit for the action last-row" in done.stderr, "a board needs a routine for it too"
    checkout.edit(
        "termprobe/board/functions.py",
        '    "bell": bell,\n',
        '    "bell": bell,\n    "last-row": to_last_row,\n',
    )
    checkout.edit(
        "termprobe/board/functions.py",
        "def bell(counters: Counters",
        "def to_last_row(counters: Counters, _command: Command, _codes: SlotCodes) -> None:\n"
        '    """Go to the last row, column 0."""\n'
        "    counters.row, counters.column = counters.last_row, 0\n\n\n"
        "def bell(counters: Counters",
    )
    assert run_board(checkout, "", "addressing")["verdict"] == "pass"
