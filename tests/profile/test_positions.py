"""What a display shows by where the options of its board stand."""

from helpers.special import special
from termprobe.profile.load import load
from termprobe.profile.positions import is_halved, variant_at


def test_an_option_that_is_not_named_stands_in_its_normal_position():
    assert variant_at(special(), {}) == "" and not is_halved(special(), {})


def test_each_position_has_its_variant_and_its_rows():
    assert variant_at(special(), {"character-set": "swedish"}) == "swedish-names"
    assert variant_at(special(), {"character-set": "ascii", "rows": "12"}) == ""
    assert is_halved(special(), {"rows": "12"}) and not is_halved(special(), {"rows": "24"})


def test_a_terminal_without_such_options_shows_ascii_in_all_its_rows():
    assert variant_at(load("singlebyte-24x80"), {"duplex": "half"}) == ""
    assert not is_halved(load("singlebyte-24x80"), {"duplex": "half"})
