"""A soak with looks now and then: one character lost of thousands is seen at the next look."""

import argparse

import pytest

from helpers.program import called, complaint, run_file
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.cli import soak, soak_looks
from termprobe.cli.console import Console
from termprobe.cli.soak_looks import SEEN_WRONG, LookedSoak, looks_every, refuse_unseen
from termprobe.cli.soaked import load_soak
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
    looked = Looked(SoakLength(characters=5000), said=["y", "?", "q"])
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


class Bench:
    """Soaks with looks as commands, each of a board that is switched on anew, by its eyes."""

    def __init__(self, monkeypatch, folder):
        self.folder, self.clock, self.looks, self.stops_at = folder, CrankedClock(), [], None
        monkeypatch.setattr(soak, "unwatched_clock", lambda port: self.clock)
        monkeypatch.setattr(soak, "line_at", self.opened)
        monkeypatch.setattr(soak_looks, "is_typed_at", lambda: True)
        monkeypatch.setattr(Console, "ask", lambda console, prompt: self.look(prompt))
        self.lost = None

    def opened(self, port, format, clock):
        self.board = Board(CLUB)
        link = LossyLink(self.board, clock, name="tty")
        link.lost = self.lost
        return link

    def look(self, prompt):
        row = prompt.split("read ")[1].split("... from")[0]
        self.looks.append(row)
        if len(self.looks) == self.stops_at:
            return "stop"
        shown = [text for text in self.board.screen().rows if text.strip()]
        return "yn"[any(not text.startswith(row) for text in shown)]

    def soak(self, *words):
        parser = argparse.ArgumentParser()
        soak.add_arguments(parser)
        return soak.run(parser.parse_args(["--out", str(self.folder), *map(str, words)]))

    def far(self):
        return load_soak(run_file(self.folder)).far


NEW = ("--port", "tty", "--profile", "club-16x64", "--looks", "4000", "--characters", "12000")


def test_one_that_was_stopped_goes_on_to_its_end_with_other_rows(monkeypatch, tmp_path, capsys):
    bench = Bench(monkeypatch, tmp_path)
    bench.stops_at = 2
    with pytest.raises(KeyboardInterrupt):
        bench.soak(*NEW)
    stopped = bench.far()
    assert 4000 <= stopped.tally.sent < 4100 and "--resume" in capsys.readouterr().err
    assert bench.soak("--resume", run_file(tmp_path)) == 0
    assert 12_000 <= bench.far().tally.sent < 12_300 and bench.far().tally.wrong == 0
    assert len(bench.looks) == len(set(bench.looks)) == 4
    assert bench.far().seconds == pytest.approx(bench.far().tally.sent * LINE_S, rel=0.02)
    assert capsys.readouterr().out.startswith("PASS")


def test_what_was_seen_wrong_before_a_stop_still_counts_after_it(monkeypatch, tmp_path):
    bench = Bench(monkeypatch, tmp_path)
    bench.lost, bench.stops_at = 2000, 2
    with pytest.raises(KeyboardInterrupt):
        bench.soak(*NEW)
    bench.lost = None
    assert bench.soak("--resume", run_file(tmp_path)) == 1
    assert dict(bench.far().tally.errors) == {SEEN_WRONG: 1} and len(bench.looks) == 4


def test_a_soak_with_looks_keeps_to_them_when_it_goes_on(monkeypatch, tmp_path):
    bench = Bench(monkeypatch, tmp_path)
    bench.soak(*NEW)
    with pytest.raises(UsageError, match="so --looks must not be given"):
        bench.soak("--resume", run_file(tmp_path), "--looks", "10m")
    with pytest.raises(UsageError, match="--looks must be given without --dump"):
        bench.soak("--resume", run_file(tmp_path), "--dump", "show")
