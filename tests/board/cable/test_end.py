"""An end of either kind: what it drives, and what it hears."""

import pytest

from termprobe.board.cable.end import CableEnd
from termprobe.link.base import LineFormat


@pytest.mark.parametrize(
    "kind, driven, heard",
    [
        ("dte", {"txd", "rts", "dtr"}, {"rxd", "cts", "dsr", "dcd", "ri"}),
        ("dce", {"rxd", "cts", "dsr", "dcd", "ri"}, {"txd", "rts", "dtr"}),
    ],
)
def test_a_terminal_and_a_modem_drive_each_what_the_other_hears(kind, driven, heard):
    end = CableEnd(LineFormat(), kind=kind)
    assert (set(end.outputs), set(end.inputs)) == (driven, heard)


def test_a_control_line_is_heard_once_it_is_joined_and_on():
    first, second = CableEnd(LineFormat()), CableEnd(LineFormat(), kind="dce")
    first.outputs["rts"].join(0.0, second.inputs["rts"])
    assert not second.is_on(0.0, "rts")
    first.drive(1.0, "rts", True)
    assert not second.is_on(0.9, "rts") and second.is_on(1.0, "rts")


def test_both_halves_take_another_format():
    end = CableEnd(LineFormat())
    end.set_format(LineFormat(300, 7, "even"), 1.02)
    assert end.transmitter.format == end.receiver.format == LineFormat(300, 7, "even")
    assert end.transmitter.speed_ratio == 1.02
