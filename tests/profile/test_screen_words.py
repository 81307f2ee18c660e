"""What the page of a profile says of graphics, of screens that are sent, and of options."""

from helpers.special import special, with_fields
from termprobe.profile.show import page


def test_what_options_and_replies_have_to_do_with_the_screen_is_told():
    told = " ".join(" ".join(page(special())).split())
    assert "german: # $ § Ä Ö Ü ^ ` ä ö ü ß for the open codes of ISO 646 (ISO-IR 21 " in told
    assert "12: 12 rows lit" in told
    assert "sends line CR; without the blanks at the end of a row; source" in told
    assert "sends screen-to-cursor EOT; CR between rows" in told
    assert "graphics set, 60h to 6Ch: ◆▒├┤┬┴┼─│┌┐└┘" in " ".join(page(with_fields()))
