"""Rows of a monitor, and its count."""

from termprobe.line.bursts import CAME, SENT, Burst
from termprobe.report.monitor_lines import MonitorLines


def rows(*bursts):
    lines, told = MonitorLines(), []
    for burst in bursts:
        told.append(lines.row(burst))
        lines.count(burst)
    return [*told, lines.end(12.0)]


def test_each_burst_tells_when_which_way_and_what():
    assert rows(
        Burst(1.0, SENT, b"\x1b=  HELLO", "", 0.008),
        Burst(1.108, CAME, b"A\r"),
        Burst(20_000.0, CAME, b"\x9b2J", "framing"),
    ) == [
        '    1.000  +1.000  -->  ESC "=  HELLO"  (1,000 a second)',
        '    1.108  +0.100  <--  "A" CR',
        '20000.000    long  <--  9Bh "2J"  [framing]',
        "9 bytes to the board, 5 from it, in 12 s; 3 with a framing error",
    ]


def test_where_nothing_went_over_that_is_said():
    assert rows() == ["0 bytes to the board, 0 from it, in 12 s"]
