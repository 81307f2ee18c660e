"""`termprobe link --sweep` on simulated boards."""

import json

from helpers.format_boards import FormatBench, swept_on
from helpers.program import called, complaint
from termprobe.cli.sweep import document_of, said_of
from termprobe.link.base import LineFormat

SWEEP = ("link", "--sweep", "--port", "sim:", "--profile", "singlebyte-24x80")
SEVEN_EVEN = LineFormat(9600, 7, "even")


def test_a_good_clock_has_room_on_both_sides():
    done = called(*SWEEP)
    told = " ".join(done.stdout.split())
    assert done.returncode == 0 and "Press U on the terminal again and again" in told
    assert told.count("to spare") == 2 and "That is right: one end should be 2.0 % off" in told


def test_a_crystal_that_is_three_per_cent_off_is_named():
    done = called("link", "--sweep", "--port", "sim:baud/ratio/1.03125", *SWEEP[4:], "--json")
    told = json.loads(done.stdout)
    assert done.returncode == 1 and told["verdict"] == "wrong"
    assert abs(told["clock_percent"] - 3.125) < 0.5
    words = " ".join(said_of(swept_on(FormatBench(SEVEN_EVEN, 1.03125), SEVEN_EVEN)))
    assert "5.0688 MHz" in words and "short of it on the slow side" in words


def test_where_nothing_can_be_said_no_clock_is_told():
    swept = swept_on(FormatBench(SEVEN_EVEN, 1.08), SEVEN_EVEN)
    assert "clock_percent" not in document_of(swept)
    assert "Nothing can be said of the clock" in said_of(swept)[0]


def test_it_must_know_what_the_board_has():
    assert "--sweep must know speed and frame" in complaint(
        called("link", "--sweep", "--port", "loop://"), 2
    )
    assert "set speed and frame" in complaint(
        called("link", "--sweep", "--port", "loop://", "--format", "7E1", "--speed", "300"), 3
    )
