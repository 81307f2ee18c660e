"""Keys of a console as bytes: each as it is typed, Ctrl-C and Escape too."""

from prompt_toolkit.input import create_pipe_input

from termprobe.session.raw_keys import LEAVE, RawKeys


def typed(text):
    """Return what two readings give of `text`."""
    with create_pipe_input() as console:
        console.send_text(text)
        keys = RawKeys(console)
        return keys.read(), keys.read()


def test_keys_are_the_bytes_that_they_type():
    assert typed("aZ ~") == (b"aZ ~", b"")
    assert typed("\x03\x04\r\x7f")[0] == b"\x03\x04\r\x7f"
    assert typed("\x1d")[0] == LEAVE


def test_an_escape_alone_is_given_once_no_more_follows():
    assert typed("\x1b") == (b"", b"\x1b")


def test_a_key_of_several_bytes_is_all_of_them():
    assert typed("\x1b[A")[0] == b"\x1b[A"


def test_what_no_byte_can_hold_is_left_out():
    assert typed("a\N{EURO SIGN}b")[0] == b"ab"
