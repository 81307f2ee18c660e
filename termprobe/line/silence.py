"""Why nothing shows or nothing comes: causes, how common they are, and what each question tells.

The numbers of cases are those of some sixty published repairs and first tries of terminals, counted
by cause; how a cause answers a question is worked out from the circuit around the line, and both
are common practice, without a standard to quote.
"""

from typing import NamedTuple


class SilenceQuestion(NamedTuple):
    """What can be asked, answered with yes or no."""

    name: str
    seconds: int
    """That it takes to answer, about."""
    text: str


class SilenceCause(NamedTuple):
    """What can be wrong."""

    name: str
    cases: int
    """How often it was met."""
    answers: dict[str, bool]
    """Name of a question: its answer where this is the cause. Without one it may be either."""
    title: str
    remedy: str


QUESTIONS = (
    SilenceQuestion("lit", 3, "Is anything lit or warm: a lamp, the tube, a fan that runs?"),
    SilenceQuestion(
        "shows", 5, "Does anything that the computer sends show on the screen as it should?"
    ),
    SilenceQuestion(
        "comes", 5, "Does anything reach the computer when a key of the terminal is pressed?"
    ),
    SilenceQuestion(
        "picture", 8, "Is there a picture, a raster or a cursor, with the brightness up?"
    ),
    SilenceQuestion(
        "local", 15, "With the line switch at LOCAL, do typed keys show on the screen?"
    ),
    SilenceQuestion("straps", 20, "Do all switches of speed and format stand as the profile says?"),
    SilenceQuestion(
        "converters",
        15,
        "Have both sides RS-232 levels: a line driver and receiver on the board, and an adapter "
        "that is no bare logic-level one?",
    ),
    SilenceQuestion(
        "rail", 30, "Are all supply rails of the line driver right, -12 V or -5 V too?"
    ),
    SilenceQuestion(
        "plug", 30, "With a loopback plug on the adapter, does what is sent come back?"
    ),
    SilenceQuestion(
        "cable",
        30,
        "With a loopback plug at the far end of the cable, does what is sent come back?",
    ),
    SilenceQuestion(
        "own-plug",
        40,
        "With a loopback plug on the terminal's connector, the switch at LINE, do keys show?",
    ),
    SilenceQuestion(
        "idle", 40, "Unplugged, is the terminal's transmitted data at -5 V or lower against ground?"
    ),
    SilenceQuestion(
        "reach", 40, "Plugged in, is the terminal's received data at -5 V or lower against ground?"
    ),
    SilenceQuestion("ready", 40, "Plugged in, are the terminal's CTS and DSR above +3 V?"),
    SilenceQuestion(
        "clock", 90, "Does the clock of the UART run, seen by a scope or a logic probe?"
    ),
    SilenceQuestion("others", 5, "Do other boards of this revision do the same?"),
)

_ORDER = (
    "lit shows comes picture local straps converters rail "
    "plug cable own-plug idle reach ready clock others"
)
_YES_NO = {"y": True, "n": False}


def _cause(name: str, cases: int, row: str, title: str, remedy: str) -> SilenceCause:
    """Return a SilenceCause; `row` has for each question of _ORDER y, n, or . for either."""
    pairs = zip(_ORDER.split(), row.split(), strict=True)
    return SilenceCause(
        name, cases, {key: _YES_NO[sign] for key, sign in pairs if sign != "."}, title, remedy
    )


CAUSES = (
    _cause(
        "no-power",
        6,
        "n n n n n . y n y y n n . . n .",
        "the board has no supply, or not all of it",
        "Measure each rail at its regulator and at a socket; look for a part that is hot, a fuse, "
        "a tantalum capacitor the wrong way round.",
    ),
    _cause(
        "tube",
        8,
        "y n y n n y y y y y n y y y y n",
        "the board works and the monitor side shows nothing",
        "Look at sync and video at their pins before the monitor: if they are there, it is the "
        "monitor.",
    ),
    _cause(
        "local-switch",
        2,
        "y n n y y n y y y y n y y y y n",
        "the terminal stands at LOCAL, or its receiver is switched off",
        "Set the switch to LINE, move it a few times, and try again.",
    ),
    _cause(
        "adapter",
        3,
        "y n n y y y y y n n y y n . y n",
        "the adapter does not send or receive, or another port is open than the one plugged in",
        "Run `termprobe ports`, try another adapter and another USB cable.",
    ),
    _cause(
        "cable-broken",
        3,
        "y n n y y y y y y n y y n n y n",
        "the cable does not carry: a wire is open, or not there",
        "Measure pin to pin from end to end; two, three and ground must pass.",
    ),
    _cause(
        "cable-straight",
        6,
        "y n n y y y y y y y y y n n y n",
        "the cable is straight where it must be crossed, or the other way round",
        "Put a null modem in, or take it out: each side's transmitted data must meet the other's "
        "received data.",
    ),
    _cause(
        "handshake",
        4,
        "y y n y y y y y y y y y y n y n",
        "the terminal waits for a control line that nobody raises",
        "Tie CTS and DSR (and DCD) of the terminal to its own RTS and DTR, or use a cable that "
        "carries them.",
    ),
    _cause(
        "levels",
        3,
        "y n n y y y n y y y y n y . y .",
        "one side has logic levels, 0 and 5 V and upside down, where the other has RS-232",
        "Put a level converter in between; never tie RS-232 to a logic pin.",
    ),
    _cause(
        "swapped-on-board",
        4,
        "y n n y y y y y y y y n . . y y",
        "transmitted and received data are exchanged on the board",
        "Exchange them in the cable, try again, and put it on the errata sheet.",
    ),
    _cause(
        "format",
        9,
        "y n n y y n y y y y y y y y y .",
        "speed or format of the two sides differ",
        "Set the switches as the profile says; a legend may say the reverse.",
    ),
    _cause(
        "driver",
        3,
        "y y n y y y y y y y n n y y y n",
        "the line driver of the board does not send",
        "Compare its input and its output with a scope while a key repeats.",
    ),
    _cause(
        "minus-supply",
        2,
        "y y n y y y y n y y n n y y y n",
        "the negative supply of the line driver is missing",
        "Measure the rail at the driver: -0.6 V means that it is pulled to ground by a part.",
    ),
    _cause(
        "receiver",
        2,
        "y n y y y y y y y y n y y y y n",
        "the line receiver of the board does not receive",
        "Compare its input and its output with a scope while a character is sent over and over.",
    ),
    _cause(
        "uart-clock",
        4,
        "y n n y n y y y y y n y y y n n",
        "the clock of the UART does not run, or is far off",
        "Look at crystal, oscillator and divider; `termprobe baud` tells what must come out.",
    ),
    _cause(
        "keyboard",
        10,
        "y y n y n y y y y y n y y y y n",
        "the keyboard gives nothing: contacts, its encoder, or its cable",
        "Look at the strobe of the encoder while a key is pressed; touch a bare pad.",
    ),
)
