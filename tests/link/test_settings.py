"""Which formats no line has, and how pyserial is told those that one has."""

import pytest

from termprobe.errors import LinkSettingsError
from termprobe.link.base import LineFormat
from termprobe.link.settings import line_settings, refuse_impossible


def test_what_cannot_be_is_named_all_at_once():
    with pytest.raises(LinkSettingsError) as caught:
        refuse_impossible("port", LineFormat(0, 9, "none", 3))
    assert str(caught.value) == (
        "port: speed must be 1 to 4000000 baud, not 0; data bits must be 5 to 8, not 9; "
        "stop bits must be 1 or 2, not 3"
    )
    refuse_impossible("port", LineFormat(110, 5, "mark", 2))


def test_a_format_in_the_words_of_pyserial():
    assert line_settings(LineFormat(300, 7, "space", 2)) == {
        "baudrate": 300,
        "bytesize": 7,
        "parity": "S",
        "stopbits": 2,
    }
