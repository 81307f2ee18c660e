"""What is told of presses while a keyboard is walked."""

from helpers.reports import step
from termprobe.report.walk_words import all_noticed, of_no_press_left
from termprobe.verdict.model import Pressed
from termprobe.verdict.noticed import Bounce, Rate, Right


def test_what_no_press_left_sends_is_told_by_its_bytes_or_as_an_error():
    assert of_no_press_left(b"q\r") == '"q" CR came, which no press left sends'
    assert of_no_press_left(b"") == "an error of the line came, which no press left sends"


def test_all_that_was_noticed_stands_in_one_line():
    noticed = (Right(b"q"), Bounce(b"q", 2, 8.0))
    assert all_noticed(step("fail", because=Pressed(noticed, Rate(1, 1)))) == (
        '"q" came; "q" came twice, 8 ms apart: the contact bounces'
    )
