"""Speed and frame found over a simulated cable."""

import pytest

from helpers.examples import one_in
from helpers.format_boards import COMBINATIONS, FormatBench, is_right
from termprobe.board.cable.host_side import HostAdapter
from termprobe.errors import LinkSettingsError
from termprobe.line.format_finding import MOST_SILENT
from termprobe.link.base import ABILITIES, LineFormat

WANTED = LineFormat(1200, 7, "even")
SAMPLE = one_in(9, COMBINATIONS)


@pytest.mark.parametrize("format", SAMPLE, ids=str)
def test_any_speed_and_frame_is_found_with_three_presses_at_most(format):
    found = FormatBench(format).found()
    assert is_right(found, format) and len(found.presses) <= 3


@pytest.mark.parametrize("slipped", [0, 1])
def test_one_wrong_key_is_borne(slipped):
    found = FormatBench(WANTED, slips=((slipped, "Y"),)).found()
    assert is_right(found, WANTED)


def test_a_builder_who_never_presses_shift_is_borne():
    found = FormatBench(WANTED, slips=[(press, "small") for press in range(9)]).found()
    assert is_right(found, WANTED)


def test_a_press_that_never_came_is_borne():
    bench = FormatBench(WANTED, slips=((0, ""),))
    assert is_right(bench.found(WANTED), WANTED)


@pytest.mark.parametrize("ratio", [4 / 3, 3 / 4, 5 / 3])
def test_a_crystal_of_another_frequency(ratio):
    found = FormatBench(WANTED, ratio).found(WANTED)
    assert found.wire.baud == pytest.approx(1200 * ratio, rel=0.01)
    assert (found.wire.data_bits, found.wire.parity, found.is_sure) == (7, "even", True)


def test_an_inverted_line():
    found = FormatBench(WANTED, levels="rs232-inverted").found(WANTED)
    assert found.wire.is_inverted and is_right(found, WANTED)


@pytest.mark.parametrize("ratio", [0.98, 1.02])
def test_a_clock_that_is_a_little_off_changes_nothing(ratio):
    assert is_right(FormatBench(WANTED, ratio).found(), WANTED)


def test_an_adapter_that_refuses_slow_rates_listens_faster_and_says_so():
    adapter = HostAdapter(lowest_baud=300)
    format = LineFormat(110, 8, "none", 2)
    found = FormatBench(format, adapter=adapter).found()
    assert is_right(found, format) and 110 in found.refused_baud


def test_an_adapter_without_marks_still_finds_seven_bits():
    adapter = HostAdapter(abilities=frozenset(ABILITIES) - {"marks"})
    assert is_right(FormatBench(WANTED, adapter=adapter).found(), WANTED)


def test_a_line_of_which_nothing_comes_is_given_up():
    bench = FormatBench(WANTED, slips=[(press, "") for press in range(9)])
    found = bench.found()
    assert found.is_silent and not found.is_sure and len(found.presses) == MOST_SILENT


def test_the_link_has_its_own_format_again():
    bench = FormatBench(WANTED)
    bench.found()
    assert bench.link.format == LineFormat()


def test_a_link_without_frames_is_refused():
    bench = FormatBench(WANTED, adapter=HostAdapter(abilities=frozenset()))
    with pytest.raises(LinkSettingsError, match="must be able to set speed and frame"):
        bench.found()


@pytest.mark.parametrize("parity", ["none", "odd"])
def test_an_adapter_that_rounds_a_rate_without_a_word_is_doubted_and_does_not_mislead(parity):
    adapter = HostAdapter(rounded_baud={110: 75})
    format = LineFormat(110, 7, parity)
    found = FormatBench(format, adapter=adapter).found()
    assert 110 in found.doubted_baud and is_right(found, format)
