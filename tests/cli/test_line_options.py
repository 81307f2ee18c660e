"""Speed and format of a line: told, by a profile, or as usual."""

import argparse

import pytest

from termprobe.cli.line_options import add_line_options, line_of, span, whole_number
from termprobe.errors import UsageError


def line(*words):
    parser = argparse.ArgumentParser()
    add_line_options(parser)
    format, handshake = line_of(parser.parse_args(words))
    return str(format), handshake


@pytest.mark.parametrize(
    "words, told",
    [
        ((), "9600 baud 8N1"),
        (("--speed", "300"), "300 baud 8N1"),
        (("--format", "7e2"), "9600 baud 7E2"),
        (("--profile", "singlebyte-24x80"), "9600 baud 7E1"),
        (("--profile", "singlebyte-24x80", "--speed", "110"), "110 baud 7E1"),
        (("--profile", "singlebyte-24x80", "--format", "8N1"), "9600 baud 8N1"),
    ],
)
def test_what_is_told_stands_above_the_profile_and_that_above_what_is_usual(words, told):
    assert line(*words)[0] == told


def test_the_handshake_is_that_of_the_profile():
    assert line()[1] == "none" and line("--profile", "ecma48-24x80")[1] == "xon-xoff"


def test_what_is_no_format_no_number_and_no_time_is_refused():
    with pytest.raises(UsageError, match="--format must be"):
        line("--format", "8X1")
    for text in ("0", "-1", "x", "1.5", "\u0663"):
        with pytest.raises(argparse.ArgumentTypeError, match="whole number"):
            whole_number(text)
    with pytest.raises(argparse.ArgumentTypeError, match="90, 10m, 24h or 7d"):
        span("0")
    assert whole_number("12") == 12 and span("2m") == 120.0
