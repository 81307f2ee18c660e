"""The words of commands, what they need, and the commands that bring a known state."""

import pytest

from helpers.mistakes import one_finding


@pytest.mark.parametrize(
    ("old", "new", "part"),
    [
        ("fresh: [clear]", "fresh: []", "fresh must name the commands"),
        (
            "fresh: [clear]",
            "fresh: [address]",
            "fresh must name commands without a row or column, not address",
        ),
        (
            "bytes: BEL",
            "bytes: BEL\n    reply: ESC",
            "reply of bell must be left out: its action is bell",
        ),
        ("action: bell", "action: reply", 'bell must have the key "reply"'),
        (
            "action: bell",
            'action: reply\n    reply: ESC "[" parameters',
            "reply of bell must have bytes before and behind parameters, and no other slot",
        ),
        (
            "action: bell",
            'action: reply\n    reply: ESC row parameters "c"',
            "reply of bell must have bytes before and behind parameters, and no other slot",
        ),
        (
            "bytes: BEL",
            "bytes: BEL\n    fill: {code: '', count: 1, from_baud: 300}",
            "code must be one byte, not 0",
        ),
        (
            "  - name: bell",
            "  - name: Bell",
            "a command's name must be small letters and digits joined by -",
        ),
        ("  - name: bell", "  - name: home", 'each command must stand once, not "home" again'),
        ("action: bell", "action: bel", 'not "bel"; nearest is "bell"'),
        ("action: bell", "action: bell\n    edge: stay", "edge of bell must be left out"),
        ("fresh: [clear]", "fresh: [claer]", 'not "claer"; nearest is "clear"'),
    ],
)
def test_one_mistake_gives_one_finding(old, new, part):
    assert part in one_finding(old, new)
