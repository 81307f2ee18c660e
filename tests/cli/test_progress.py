"""What a run shows while it goes on."""

import io

import pytest

from helpers.bench import look, plan
from termprobe.cli.progress import Progress
from termprobe.journal.attention import AttentionChecked
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    UNSURE,
    Answer,
    Answered,
    StepBegun,
)
from termprobe.runner.told import LeftOpen, ObserverTrouble, SearchBegun
from termprobe.verdict.evidence import of_bytes
from termprobe.verdict.model import Differing, StepVerdict, Unfitted

FIRST, SECOND = look("first"), look("second", stage="more")
PLAN = plan(FIRST, SECOND)


class Stream(io.StringIO):
    def __init__(self, is_console):
        super().__init__()
        self._is_console = is_console

    def isatty(self):
        return self._is_console


class Judged:
    """Stands for a run in which every step has one verdict."""

    def __init__(self, word, because=None, **fields):
        self._fields = {"verdict": word, "because": because, **fields}

    def verdict(self, step):
        return StepVerdict(step.id, step.stage, step.title, **self._fields)


def shown(*events, is_console=False, run=None):
    stream = Stream(is_console)
    progress = Progress(PLAN, stream)
    progress.run = run
    for event in events:
        progress(event)
    progress.end()
    return stream.getvalue()


STARTED = (StepBegun(FIRST.id), StepBegun(SECOND.id))


def test_elsewhere_each_stage_is_one_line():
    assert shown(*STARTED) == "Looks\nMore\n"


def test_on_a_console_one_line_changes_and_goes_away():
    first = "1 of 2  Looks: Look at first"
    second = "2 of 2  More: Look at second"
    assert shown(*STARTED, is_console=True) == (f"\r{first}\r{second}\r{' ' * len(second)}\r")


def test_that_a_cause_is_searched_for_is_told_on_a_console_alone():
    told = "working out what would explain it ..."
    assert shown(SearchBegun(), is_console=True).startswith(f"\r{told}")
    assert shown(SearchBegun()) == ""


@pytest.mark.parametrize(
    "word, told",
    [(DIFFERS, "and you saw it"), (AS_EXPECTED, "and it passed"), (UNSURE, "It counts")],
)
def test_after_an_attention_check_it_is_told_that_it_was_one(word, told):
    started = StepBegun("attention/first")
    line = shown(started, AttentionChecked("first", Answer(word)))
    assert line.startswith("That was a check: the screen was wrong on purpose") and told in line
    assert "neither for nor against the board" in " ".join(line.split())


def test_a_line_that_changes_is_never_wider_than_the_narrowest_console():
    assert max(map(len, shown(LeftOpen(look("y" * 200)), is_console=True).split("\r"))) == 78


@pytest.mark.parametrize(
    "run, line",
    [
        (
            Judged("fail", Differing(1), evidence=of_bytes(b"ok", b"nj"), note="more"),
            "FAIL  first: 2 of 2 characters differ; bit 0 arrives as 0\n",
        ),
        (Judged("fail", Differing(1)), "FAIL  first: 1 cell differs\n"),
        (Judged("fail"), "FAIL  first: Look at first\n"),
        (Judged("pass", Differing(1)), ""),
        (None, ""),
    ],
)
def test_a_failure_stays_in_view_with_what_speaks_for_it(run, line):
    assert shown(Answered(FIRST.id, Answer("as-expected")), run=run) == line


def test_a_failure_fits_80_columns_and_is_told_whole():
    step = look("parity-of-address")
    why = "the only differences are at row 1, column 2, row 3, column 4, row 23, column 79"
    progress = Progress(plan(step), stream := Stream(is_console=False))
    progress.run = Judged("fail", Unfitted(why))
    progress(Answered(step.id, Answer("differs")))
    lines = stream.getvalue().splitlines()
    assert max(map(len, lines)) <= 80 and lines[1].startswith("      ")
    assert " ".join(" ".join(lines).split()) == f"FAIL parity-of-address: {why}"


def test_an_observer_in_trouble_is_told_harmlessly():
    told = shown(ObserverTrouble("dump", "no\x1b"), ObserverTrouble("dump", "no", True))
    assert told == (
        "dump could not answer: no\\x1b\ndump could not answer: no; it is asked no more\n"
    )
