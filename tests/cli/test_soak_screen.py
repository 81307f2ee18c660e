"""A soak of full screens: what is seen of each is compared, cell by cell."""

import pytest

from helpers.program import called, run_file
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.cli.soak_screen import ON_SCREEN, ScreenSoak
from termprobe.clock import CrankedClock
from termprobe.journal.reading import read
from termprobe.line.soak import Far, SoakLength
from termprobe.line.stream import PRINTABLE, Stream
from termprobe.link.pacer import Pacer
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.profile.load import load

CLUB = load("club-16x64")
SCREEN = ("soak", "--profile", "club-16x64", "--screen")


def soaked(*faults, screens=3):
    clock, board = CrankedClock(), Board(CLUB, faults)
    kept, far = [], Far()
    observer = SimulatedScreenObserver(board.screen)
    stream, link = Stream(PRINTABLE, 1), SimLink(board, clock)
    pacer = Pacer(link, clock)
    soak = ScreenSoak(pacer, clock, CLUB, stream, far, kept.append, lambda far: None, observer)
    soak.carry_out(SoakLength(screens * 1000))
    return far, kept


def test_a_good_board_shows_each_screen_at_the_speed_of_its_line():
    far, kept = soaked()
    assert far.tally.wrong == 0 and far.tally.sent >= 3000 and kept[-1] is far
    at_best_s = far.tally.sent * 10 / 4800
    assert at_best_s < far.seconds < at_best_s / 0.95
    assert far.block == 16 * 3, "sixteen blocks of text are a screen of 16 x 64"


@pytest.mark.parametrize("fault", ["bank-0-data/stuck/3/1", "cell/stuck/7-9-2/0"])
def test_what_is_wrong_on_the_screen_is_counted_by_cells(fault):
    far, _ = soaked(fault, screens=12)
    assert set(far.tally.errors) == {ON_SCREEN}
    if fault.startswith("cell"):
        assert 1 <= far.tally.errors[ON_SCREEN] <= 12
    else:
        assert far.tally.errors[ON_SCREEN] > 500


def test_the_command_compares_the_screen_of_a_simulated_board_and_goes_on(tmp_path):
    words = ("--port", "sim:", "--out", tmp_path, "--characters")
    done = called(*SCREEN, *words, "1500")
    assert done.returncode == 0, done.stderr
    assert "characters reached the screen as they were sent." in done.stdout
    again = called("soak", "--resume", run_file(tmp_path), "--json")
    assert again.returncode == 0 and '"sent": 2' in again.stdout


def test_a_dump_sees_the_screen_of_a_board(tmp_path):
    """The dump prints a blank screen, which is not what was sent."""
    blank = "python3 -c \"print('\\n' * 15)\""
    words = ("--profile", "club-16x64", "--dump", blank, "--port", "sim:", "--characters", "900")
    done = called("soak", *words, "--out", tmp_path)
    assert done.returncode == 1 and "wrong on the screen" in done.stdout
    refused = called("soak", "--resume", run_file(tmp_path), "--port", "loop://")
    assert refused.returncode == 2 and "--dump must name the program" in refused.stderr


@pytest.mark.parametrize(
    "words, wanted",
    [
        (("soak", "--port", "sim:", "--screen"), "--profile must say which board"),
        ((*SCREEN, "--port", "loop://"), "--screen must go with --port sim:"),
    ],
)
def test_a_screen_that_nobody_sees_is_refused(words, wanted):
    done = called(*words)
    assert done.returncode == 2 and wanted in done.stderr


def test_the_line_has_the_format_that_is_asked_for(tmp_path):
    """And not that of the profile, 7O1."""
    words = ("--port", "sim:", "--out", tmp_path, "--characters", "900", "--format", "8N1")
    assert "4800 baud 8N1" in called(*SCREEN, *words).stdout
    assert read(run_file(tmp_path)).header.link.format == "4800 baud 8N1"


def test_what_goes_on_with_it_names_the_dump_again(tmp_path):
    words = ("--profile", "club-16x64", "--dump", "false", "--port", "sim:", "--out", tmp_path)
    done = called("soak", *words)
    assert done.returncode == 4 and done.stderr.count("--dump false") == 1
