"""A soak with looks now and then: one character lost of thousands is seen at the next look."""

import argparse

import pytest

from helpers.program import called, complaint
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.cli.soak_looks import SEEN_WRONG, LookedSoak, looks_every, refuse_unseen
from termprobe.clock import CrankedClock
from termprobe.errors import UsageError
from termprobe.line.soak import Far, SoakLength
from termprobe.link.pacer import Pacer
from termprobe.profile.load import load

CLUB = load("club-16x64")
LINE_S = 10 / 4800


class LossyLink(SimLink):
    """Loses the character number `lost` of all that are sent."""

    lost, count = None, 0

    def write(self, data):
        gone = -1
        if self.lost is not None:
            gone = self.lost - self.count
        self.count += len(data)
        kept = [data[number : number + 1] for number in range(len(data)) if number != gone]
        super().write(b"".join(kept))


class Looked:
    """A soak of a simulated board by eyes that read the rows, or say what is `said`."""

    def __init__(self, every, lost=None, said=()):
        self.board, clock = Board(CLUB), CrankedClock()
        self.said, self.kept, self.far, self.rows = list(said), [], Far(), []
        link = LossyLink(self.board, clock)
        link.lost = lost
        told = (self.keep, lambda far: None)
        self.soak = LookedSoak(Pacer(link, clock), clock, CLUB, self.far, *told, self.look, every)

    def carried_out(self, wanted):
        self.soak.carry_out(wanted)
        return self.far.tally

    def keep(self, far):
        self.kept.append(far.tally.sent)

    def look(self, prompt):
        row = prompt.split("read ")[1].split("... from")[0]
        self.rows.append(row)
        if self.said:
            return self.said.pop(0)
        shown = [text for text in self.board.screen().rows if text.strip()]
        return "yn"[any(not text.startswith(row) for text in shown)]


def test_a_good_board_is_looked_at_as_often_as_asked_and_every_character_counts():
    looked = Looked(SoakLength(characters=5000))
    tally = looked.carried_out(SoakLength(characters=20_000))
    assert len(looked.rows) == len(set(looked.rows)) == 4, "each time other characters"
    assert 20_000 <= tally.sent == tally.received < 20_300 and tally.wrong == 0


def test_by_time_too_and_the_time_that_it_took_is_that_of_the_line():
    looked = Looked(SoakLength(seconds=5))
    tally = looked.carried_out(SoakLength(seconds=20))
    assert len(looked.rows) == 4
    assert looked.far.seconds == pytest.approx(tally.sent * LINE_S, rel=0.02)


@pytest.mark.parametrize("lost", [1500, 7001, 9500])
def test_one_character_that_is_lost_is_seen_at_the_next_look_and_at_no_other(lost):
    tally = Looked(SoakLength(characters=5000), lost).carried_out(SoakLength(characters=15_000))
    assert dict(tally.errors) == {SEEN_WRONG: 1}


def test_after_a_stop_what_no_look_has_told_of_is_left_out():
    looked = Looked(SoakLength(characters=5000), said=["y", "?", "stop"])
    with pytest.raises(KeyboardInterrupt):
        looked.carried_out(SoakLength(characters=20_000))
    assert 5000 <= looked.kept[-1] == looked.far.tally.sent < 5100


@pytest.mark.parametrize(
    "text, every",
    [("50000", SoakLength(characters=50_000)), ("10m", SoakLength(seconds=600))],
)
def test_how_often_is_said_in_characters_or_as_a_time(text, every):
    assert looks_every(text) == every
    with pytest.raises(argparse.ArgumentTypeError, match="must be a number of characters, or"):
        looks_every("often")


def test_where_nobody_can_look_it_is_refused():
    with pytest.raises(UsageError, match="must go with a real board"):
        refuse_unseen("sim:", CLUB)
    words = ("soak", "--looks", "10m", "--port", "loop://")
    assert "--profile must say" in complaint(called(*words), 2)
    told = complaint(called(*words, "--profile", "club-16x64", input="y\n"), 2)
    assert "must have somebody who types" in told
    both = called(*words, "--profile", "club-16x64", "--dump", "x")
    assert "--looks must be given without" in complaint(both, 2)
