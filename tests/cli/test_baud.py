"""`termprobe baud`: what is asked for, as a page and as a document, and what is refused."""

import json
import re

import pytest

from termprobe.cli.main import main
from termprobe.link.rate_facts import USUAL_CLOCKS_HZ


def document(capsys, *words):
    assert main(["baud", *words, "--json"]) == 0
    return json.loads(capsys.readouterr().out)


def test_a_clock_gives_all_sixteen_rates(capsys):
    found = document(capsys, "--clock-hz", "5068800")
    assert found["clock_hz"] == 5068800 and len(found["rates"]) == 16
    # Published for 5.0688 MHz: 134.5, 2000 and 19200 are off, all others exact.
    off = {rate["baud"]: rate["error_percent"] for rate in found["rates"] if rate["error_percent"]}
    assert off == {134.5: 0.0166, 2000: 0.2532, 19200: 3.125}
    assert "19200 runs 3.125 % fast" in found["verdict"]


def test_a_divisor_gives_one_rate(capsys):
    found = document(capsys, "--clock-hz", "5.0688e6", "--divisor", "16", "--format", "8N1")
    assert [rate["actual_baud"] for rate in found["rates"]] == [19800]
    assert found["verdict"] == (
        "19200 from 5.0688 MHz runs 3.125 % fast: with 8N1 and an exact computer it holds, "
        "with an adapter 2 % slow it does not."
    )


def test_without_a_clock_the_usual_ones_are_compared(capsys):
    found = document(capsys)
    assert found["clock_hz"] is None
    assert {rate["clock_hz"] for rate in found["rates"]} == set(USUAL_CLOCKS_HZ)
    of_divisor = document(capsys, "--divisor", "12")
    assert [rate["divisor"] for rate in of_divisor["rates"]] == [12] * len(USUAL_CLOCKS_HZ)


def test_a_profile_brings_its_speeds_and_its_frame_and_a_frame_of_ones_own_comes_first(capsys):
    words = ("--profile", "club-16x64", "--clock-hz", "1843200")
    found = document(capsys, *words)
    assert [rate["baud"] for rate in found["rates"]] == [300, 600, 1200, 2400, 4800]
    assert found["format"] == "7O1"
    assert document(capsys, *words, "--format", "8E2")["format"] == "8E2"


def test_the_page_goes_into_a_pipe_as_plain_lines_of_80(capsys):
    assert main(["baud", "--clock-hz", "5068800"]) == 0
    lines = capsys.readouterr().out.split("\n")
    assert lines[0].startswith("5.0688 MHz / (16 x divisor)")
    assert all(len(line) <= 80 and line.isprintable() for line in lines)


@pytest.mark.parametrize(
    "words, complaint",
    [
        (("--clock-hz", "0"), '--clock-hz must be a number of hertz from 800 .* not "0"'),
        (("--clock-hz=-5068800",), 'not "-5068800"; write 5068800 for 5.0688 MHz'),
        (("--clock-hz", "5.0688"), "write 5068800 for 5.0688 MHz"),
        (("--clock-hz", "nan"), "--clock-hz must be a number"),
        (("--clock-hz", "1e300"), "--clock-hz must be a number"),
        (("--clock-hz", "fast"), "--clock-hz must be a number"),
        (("--divisor", "0"), '--divisor must be a whole number from 1 to 1,000,000, not "0"'),
        (("--divisor=-1",), "--divisor must be a whole number"),
        (("--divisor", "9" * 400), "--divisor must be a whole number"),
        (("--divisor", "16.5"), "--divisor must be a whole number"),
        (("--format", "9N1"), '--format must be 5 to 8 data bits.*not "9N1"; try 8N1 or 7E1'),
        (("--format", "7X1"), "--format must be 5 to 8 data bits, a letter for the parity"),
        (("--format", ""), "--format must be"),
        (("--profile", "club-16x6"), 'nearest is "club-16x64"'),
    ],
)
def test_what_cannot_be_is_refused_with_what_must_be(words, complaint, capsys):
    assert main(["baud", *words]) == 2
    told = capsys.readouterr()
    assert told.out == "" and re.search(complaint, told.err), told.err
