"""`termprobe link --send-formats` on simulated boards."""

import json

import pytest

from helpers.program import called
from termprobe.cli.send_formats import exit_code_of, numbers_of, said_of
from termprobe.line.format_sending import boards_that_read, formats_to_send
from termprobe.link.base import LineFormat

SEND = ("link", "--send-formats", "--profile", "singlebyte-24x80", "--port", "sim:")
SENT = formats_to_send()
WANTED = LineFormat(1200, 7, "even")


def number_of(format):
    return next(each.number for each in SENT if each.format == format)


def test_it_sends_each_setting_asks_and_names_the_one_that_was_read():
    number = number_of(LineFormat(9600, 7, "even"))
    done = called(*SEND, input=f"x\n{number}\n")
    assert done.returncode == 0 and "They must be numbers" in done.stdout
    assert "300 7E1" in done.stdout and "--speed 9600 --format 7E1" in done.stdout


def test_a_simulated_board_shows_what_it_makes_of_each():
    told = called(*SEND, input="\n").stdout
    label = f"{number_of(LineFormat(9600, 7, 'even'))} 9600 7E1"
    assert f"the screen shows: {label}  {label}" in told and "None was readable" in told
    assert told.count("the screen shows:") == len(SENT)


def test_json_and_nobody_who_answers():
    done = called(*SEND, "--json")
    assert done.returncode == 4 and json.loads(done.stdout)["formats"] == []


def test_a_wrong_setting_is_named():
    boards = boards_that_read(SENT, {number_of(LineFormat(1200, 7, "odd"))})
    told = " ".join(said_of({1}, boards, (110,), WANTED))
    assert "odd parity for even" in told and "refuses 110" in told
    assert exit_code_of(boards, WANTED) == 1


def test_none_that_was_readable_and_what_no_board_reads():
    assert "None was readable" in said_of((), (), (), None)[0]
    assert "No board that is set" in said_of({1, 60}, (), (), None)[0]
    assert exit_code_of((), None) == 4


@pytest.mark.parametrize(
    "typed, numbers", [("", set()), ("12, 13 12", {12, 13}), ("12 7E1", None), ("-1", None)]
)
def test_what_is_typed(typed, numbers):
    assert numbers_of(typed) == numbers
