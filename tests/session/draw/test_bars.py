"""The rows below the screen."""

from helpers.bench_state import state
from termprobe.session.draw import bars


def test_bytes_that_do_not_fit_are_counted():
    assert bars.shown_bytes(b"HELLO", 20) == '"HELLO"'
    assert bars.shown_bytes(b"*" * 1919, 20) == '"*****… (1919 bytes)'


def test_help_stays_in_the_footer_of_a_narrow_console():
    made = state()
    wide = "".join(text for _, text in bars.footer_row(made, 200))
    narrow = "".join(text for _, text in bars.footer_row(made, 36))
    assert "q stop" in wide and wide.rstrip().endswith("? help")
    assert narrow == " y as expected  q stop  ? help".ljust(36)
