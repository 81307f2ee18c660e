"""What a soak shows while it goes on."""

import io

from termprobe.cli.soak_progress import SoakProgress
from termprobe.line.soak import Far, SoakLength


class Screen(io.StringIO):
    def isatty(self):
        return True


def far(sent, seconds, errors=0):
    made = Far(seconds=seconds)
    made.tally.sent = sent
    made.tally.errors["lost"] = errors
    return made


def test_a_line_tells_how_much_is_done_and_how_long_it_will_take():
    progress = SoakProgress(SoakLength(1_000_000), io.StringIO())
    line = progress.line(far(250_000, 100.0, 3))
    assert line == " 25%  250,000 sent  3 errors  5 min left"
    assert progress.line(far(0, 0.0)) == "  0%  0 sent  0 errors"


def test_elsewhere_than_on_a_console_each_tenth_is_told_once():
    stream = io.StringIO()
    progress = SoakProgress(SoakLength(1000), stream)
    for sent in range(0, 1001, 20):
        progress(far(sent, 1.0))
    progress.end()
    assert len(stream.getvalue().splitlines()) == 10


def test_on_a_console_one_line_changes_and_is_cleared():
    stream = Screen()
    progress = SoakProgress(SoakLength(1000), stream)
    progress(far(500, 1.0))
    progress.end()
    assert stream.getvalue().startswith("\r 50%") and "\n" not in stream.getvalue()
    assert stream.getvalue().endswith(" \r")
