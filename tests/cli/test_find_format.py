"""`termprobe link --find-format` on simulated boards."""

import json

import pytest

from helpers.format_boards import FormatBench
from helpers.program import called, complaint
from termprobe.cli.find_format import exit_code_of, said_of
from termprobe.link.base import LineFormat

FIND = ("link", "--find-format")
BOARD = ("--profile", "singlebyte-24x80")
WANTED = LineFormat(9600, 7, "even")


@pytest.mark.parametrize(
    "port, code, parts",
    [
        ("sim:", 0, ["9600 7E1", "as it should be"]),
        ("sim:parity/inverted", 1, ["--speed 9600 --format 7O1", "odd parity for even"]),
        ("sim:baud/ratio/1.333", 1, ["12800 7E1", "crystal of 2.4576"]),
    ],
)
def test_it_tells_the_format_and_what_is_wrong_against_the_profile(port, code, parts):
    done = called(*FIND, *BOARD, "--port", port)
    told = " ".join(done.stdout.split())
    assert done.returncode == code and all(part in told for part in parts), told
    assert "Press U on the terminal" in told


def test_json_is_one_document():
    done = called(*FIND, *BOARD, "--port", "sim:", "--json")
    told = json.loads(done.stdout)
    assert (told["speed_baud"], told["format"], told["wrong"]) == (9600, "7E1", [])
    assert told["alike"] == ["9600 7E2"] and told["options"] == "--speed 9600 --format 7E1"


def test_without_a_port_or_a_line_it_says_what_must_be():
    assert "--port must name" in complaint(called(*FIND), 2)
    assert "--profile must say" in complaint(called(*FIND, "--port", "sim:"), 2)
    assert "set speed and frame" in complaint(called(*FIND, "--port", "loop://"), 3)
    assert "must stand beside" in complaint(called("link", "--format", "7E1"), 2)


def test_a_silent_line_is_sent_to_the_questions_about_silence():
    found = FormatBench(WANTED, slips=[(press, "") for press in range(9)]).found()
    assert "link --silent" in said_of(found, WANTED)[0] and exit_code_of(found, WANTED) == 4


def test_an_inverted_line_gives_no_options_to_use():
    found = FormatBench(WANTED, levels="rs232-inverted").found()
    told = " ".join(said_of(found, None))
    assert "inverted" in told and "--speed" not in told and exit_code_of(found, None) == 1
