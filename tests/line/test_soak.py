"""A soak over a line that loses, changes and doubles characters, stops, or brings nothing back."""

import pytest

from helpers.looped_line import LoopedLine
from termprobe.clock import CrankedClock
from termprobe.errors import LinkError, LinkLostError
from termprobe.line.soak import FAIL, INCOMPLETE, PASS, Far, Soak, SoakLength
from termprobe.line.stream import Stream, carried_codes
from termprobe.link.base import LineFormat

STREAM = Stream(carried_codes(8), seed=3)


class Soaked:
    """A soak and what it kept."""

    def __init__(self, wanted, far=None, speed_baud=19200, **spoiling):
        self.clock, self.kept, self.told = CrankedClock(), [], 0
        self.link = LoopedLine(self.clock, LineFormat(speed_baud), **spoiling)
        self.far, self.wanted = far or Far(), wanted

    def carry_out(self):
        soak = Soak(self.link, self.clock, STREAM, self.far, self._keep, self._told)
        soak.carry_out(self.wanted)
        return self

    def _keep(self, far):
        self.kept.append((far.block, far.tally.sent, far.tally.received, far.tally.wrong))

    def _told(self, far):
        self.told += 1

    @property
    def verdict(self):
        return self.far.verdict(self.wanted)


def every(number, change):
    """Let `change` spoil each write of that number; the others come as they were sent."""
    count = [0]

    def spoiled(data):
        count[0] += 1
        return change(data) if count[0] % number == 0 else data

    return spoiled


def test_a_sound_line_passes_at_the_speed_of_the_line():
    soaked = Soaked(SoakLength(100_000)).carry_out()
    tally = soaked.far.tally
    assert soaked.verdict == PASS and tally.wrong == 0
    assert tally.sent == tally.received == 100_000
    at_best_s = 100_000 * soaked.link.format.character_s
    assert at_best_s <= soaked.far.seconds < at_best_s / 0.98
    assert soaked.far.bound == pytest.approx(3 / 100_000, rel=0.01)


def test_it_goes_on_for_the_time_that_is_wanted():
    soaked = Soaked(SoakLength(seconds=60.0), speed_baud=1200).carry_out()
    assert soaked.verdict == PASS and 60 <= soaked.far.seconds < 63
    assert soaked.far.tally.sent == pytest.approx(7200, abs=65)


@pytest.mark.parametrize(
    "kind, change",
    [
        ("lost", lambda data: data[1:]),
        ("doubled", lambda data: data[:3] + data[2:]),
        ("changed", lambda data: data[:2] + bytes([data[2] ^ 0x40]) + data[3:]),
    ],
)
def test_each_error_is_counted_by_its_kind(kind, change):
    soaked = Soaked(SoakLength(20_000), spoil=every(100, change)).carry_out()
    assert soaked.verdict == FAIL and soaked.far.tally.errors == {kind: 25}
    assert soaked.far.tally.sent == 20_000
    if kind == "changed":
        assert soaked.far.tally.bits == {6: 25}


def test_what_the_port_reports_is_counted_as_well():
    marks = iter(["", "framing", "", "parity"])
    soaked = Soaked(SoakLength(640), mark=lambda data: next(marks, "")).carry_out()
    assert soaked.far.tally.errors == {"framing": 8, "parity": 8}


def test_a_line_that_was_open_for_a_while_loses_what_was_sent_meanwhile_and_goes_on():
    count = [0]

    def gap(data):
        count[0] += len(data)
        return b"" if 5_000 < count[0] <= 15_000 else data

    soaked = Soaked(SoakLength(40_000), spoil=gap).carry_out()
    assert soaked.far.tally.sent == 40_000
    assert soaked.far.tally.errors["lost"] == pytest.approx(10_000, abs=16)
    assert soaked.far.tally.received == 40_000 - soaked.far.tally.errors["lost"]


def test_where_nothing_ever_comes_it_is_told_what_to_do_and_nothing_is_counted():
    soaked = Soaked(SoakLength(10_000), spoil=lambda data: b"")
    with pytest.raises(LinkError, match="loopback plug"):
        soaked.carry_out()
    assert soaked.far.tally.sent == 0 and soaked.verdict == INCOMPLETE


def test_one_that_is_stopped_keeps_all_that_is_known_and_another_goes_on_from_there():
    soaked = Soaked(SoakLength(50_000))
    soaked.link.write = stopping(soaked.link.write, 1000)
    with pytest.raises(KeyboardInterrupt):
        soaked.carry_out()
    far, kept = soaked.far, soaked.kept[-1]
    assert soaked.verdict == INCOMPLETE
    assert kept == (far.block, far.tally.sent, far.tally.received, far.tally.wrong)
    sent_before = far.tally.sent
    again = Soaked(SoakLength(50_000), far).carry_out()
    assert again.far.tally.sent == 50_000 > sent_before > 7_000


def stopping(write, after):
    count = [0]

    def one(data):
        count[0] += 1
        if count[0] == after:
            raise KeyboardInterrupt
        write(data)

    return one


def test_a_line_that_is_lost_leaves_what_was_counted():
    soaked = Soaked(SoakLength(50_000))

    def lost(wait_s):
        raise LinkLostError("gone")

    soaked._told = lambda far: setattr(soaked.link, "read", lost) if far.block == 300 else None
    with pytest.raises(LinkLostError):
        soaked.carry_out()
    assert soaked.far.tally.sent == pytest.approx(300 * 64, abs=100)


def test_a_day_keeps_a_record_every_half_minute_and_no_more_characters_than_are_on_their_way():
    soaked = Soaked(SoakLength(seconds=3600.0), speed_baud=300).carry_out()
    assert 110 <= len(soaked.kept) <= 121 and soaked.told > 1000
    assert all(sent <= 64 * block for block, sent, _, _ in soaked.kept)


def test_how_much_of_it_is_done():
    far = Far(seconds=30.0)
    far.tally.sent = 250
    assert SoakLength(1000).share(far) == 0.25
    assert SoakLength(seconds=60.0).share(far) == 0.5
    assert SoakLength(1000, 60.0).share(far) == 0.5
    assert SoakLength(100).share(far) == 1.0
