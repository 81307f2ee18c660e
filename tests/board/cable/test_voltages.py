"""What an end takes the volts of another one for."""

import pytest

from termprobe.board.cable.voltages import LEVELS


@pytest.mark.parametrize("name", LEVELS)
def test_ends_of_one_kind_understand_each_other(name):
    levels = LEVELS[name]
    for is_space in (True, False):
        assert levels.hears_space(levels.driven_v(is_space)) == is_space
    assert not levels.hears_space(None), "an open pin is a mark, and off (data sheet of the MC1489)"


@pytest.mark.parametrize(
    "driver, is_understood", [("ttl-inverted", True), ("ttl", False), ("rs232-inverted", False)]
)
def test_what_a_receiver_of_eia_232_makes_of_other_levels(driver, is_understood):
    """It switches near 1.3 V (data sheet of the MAX232), so 0 and 5 V the right way round do."""
    for is_space in (True, False):
        heard = LEVELS["rs232"].hears_space(LEVELS[driver].driven_v(is_space))
        assert (heard == is_space) == is_understood


def test_levels_of_eia_232_are_between_5_and_15_v():
    """Data sheet of the MC1488: a driver gives 5 to 15 V, positive for a space."""
    levels = LEVELS["rs232"]
    assert 5 <= levels.space_v <= 15 and -15 <= levels.mark_v <= -5
