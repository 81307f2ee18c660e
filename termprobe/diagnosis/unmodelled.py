"""What is seen of a picture that no simulated fault explains, and where to look first. Data.

The model of a board has neither picture timing nor levels, supplies or contacts that come and go.
Where a row says published repairs, builders have told of such cases; all else is common practice.
"""

from collections.abc import Iterable
from typing import NamedTuple

from termprobe.diagnosis.unmodelled_words import named_in

PRACTICE, REPAIRS = "common practice", "published repairs of terminals"
_NO_FAULT = "No simulated fault explains it: the model has"
NO_TIMING = f"{_NO_FAULT} no picture timing."
NO_LEVELS = f"{_NO_FAULT} no levels of the video signal, and no monitor."
NO_SUPPLY = f"{_NO_FAULT} no supplies."
NO_CONTACTS = f"{_NO_FAULT} no contacts that come and go, and no heat."

OF_TUBE = (
    "The monitor: its tube holds thousands of volts long after switching off, and can implode. "
    "Leave what is inside it to somebody who is trained for it."
)
OF_SYNC = (
    "Do not leave a monitor on without sync, or with sync of a wrong rate: its horizontal stage "
    "can overheat."
)
OF_SUPPLY = (
    "The supply: its mains side can kill, and its capacitors stay charged. Measure at the pins of "
    "the board, never inside the supply."
)
OF_LINE = (
    "Turn the brightness down at once and switch off: one bright line burns the phosphor of the "
    "tube."
)


class Unmodelled(NamedTuple):
    """A symptom that no simulated fault explains."""

    name: str
    """As people write it; a name of `unmodelled_words.py`."""
    symptom: str
    why: str
    """Why no simulated fault explains it, as a sentence."""
    look_first: tuple[str, ...]
    """What to look at, in this order."""
    source: str
    cautions: tuple[str, ...] = ()
    """Beside those of a live board."""
    rather: str = ""
    """How to tell it where it is of another kind, which a simulated fault may explain."""
    is_on_live_board: bool = True
    """Whether that is looked at on a board that is on."""


UNMODELLED = (
    Unmodelled(
        "picture collapsed to one line",
        "the picture has collapsed to a line",
        NO_TIMING,
        (
            "the vertical drive or sync that the board gives the monitor, with the brightness "
            "turned down",
            "the vertical output stage of the monitor",
        ),
        REPAIRS,
        (OF_LINE, OF_TUBE),
    ),
    Unmodelled(
        "wavy",
        "the picture is wavy or sways, or bars drift over it",
        NO_SUPPLY,
        (
            "the supplies, by scope at the pins of the board and under load: more than about 0.1 V "
            "of ripple on +5 V is too much. One bar that drifts is ripple at the rate of the "
            "mains, two are at twice that rate",
            "the vertical rate: a picture that sways about once a second has a rate near that of "
            "the mains, but not the same",
            "whatever has a magnetic field near the tube: a transformer, a fan, a loudspeaker",
        ),
        REPAIRS,
        (OF_SUPPLY, OF_TUBE),
    ),
    Unmodelled(
        "rolling picture",
        "the picture rolls up or down, or does not lock",
        NO_TIMING,
        (
            "the vertical sync of the board: one pulse a frame, 50 or 60 a second, of the "
            "polarity that the monitor takes",
            "the strap for 50 or 60 Hz, where there is one, and the last stages of the counter of "
            "scan lines",
            "where sync and video are mixed, then the cable, then the vertical hold of the monitor",
        ),
        REPAIRS,
        (OF_SYNC, OF_TUBE),
    ),
    Unmodelled(
        "tearing",
        "the picture tears or slants",
        NO_TIMING,
        (
            "the horizontal sync of the board: one pulse a scan line, some 15 to 16 thousand a "
            "second for a monitor of television rates",
            "the dot clock, and the counters that divide it: count the scan lines between two "
            "pulses of the vertical sync",
            "where sync and video are mixed, then the cable, then the horizontal hold of the "
            "monitor",
        ),
        REPAIRS,
        (OF_SYNC, OF_TUBE),
    ),
    Unmodelled(
        "jitter",
        "the picture jitters",
        NO_TIMING,
        (
            "the dot clock: its oscillator must be steady and start each time",
            "the edges of both syncs, then the ground and the decoupling capacitors of the "
            "counters that make them",
            "the supplies, by scope at the pins of the board: ripple, and dips in step with the "
            "picture",
        ),
        PRACTICE,
        (OF_SYNC, OF_SUPPLY),
    ),
    Unmodelled(
        "cursor blinks too fast",
        "what should blink does so too fast, too slowly or not at all",
        NO_TIMING,
        (
            "the oscillator of the blinking: where a timer chip makes it, its capacitor and "
            "resistors; count the blinks of ten seconds",
            "where it is divided from the vertical sync, the divider, stage by stage",
        ),
        REPAIRS,
    ),
    Unmodelled(
        "flickering",
        "the picture flickers",
        NO_TIMING,
        (
            "the vertical rate: 50 Hz flickers on a tube of short persistence, and so does any "
            "rate that the monitor is not made for",
            "the blanking and the video of the board, by scope: is the flicker in them?",
            "joints, sockets and plugs from there to the monitor, and dips of the supplies",
        ),
        PRACTICE,
        (OF_SYNC,),
    ),
    Unmodelled(
        "snow",
        "dots flash up over the picture like snow",
        NO_TIMING,
        (
            "snow while text arrives, and none while the line is quiet: the gates that let the "
            "display RAM be written only while the beam is blanked",
            "snow all the time: the access time of the RAM and of the character generator against "
            "the clock of characters, then the decoupling capacitors and the supplies",
        ),
        PRACTICE,
        (),
        "Characters that stay wrong once the line is quiet are told by --sent and --seen.",
    ),
    Unmodelled(
        "ghosting",
        "characters have ghosts or shadows beside them",
        NO_LEVELS,
        (
            "the video cable: it must end in its own impedance, mostly 75 ohms, at the monitor and "
            "nowhere else",
            "the video output stage of the board, by scope: an edge that rings shows as a ghost",
            "an old picture that stays for some seconds at switching on is mostly a supply that "
            "falls slowly, and no fault",
        ),
        PRACTICE,
    ),
    Unmodelled(
        "smeared",
        "characters are smeared or blurred",
        NO_LEVELS,
        (
            "the contrast and the focus of the monitor; whether another monitor shows the same",
            "the video output stage of the board, by scope: a lit dot must rise and fall within "
            "its own width",
            "the video cable: it must end in its own impedance, mostly 75 ohms, at the monitor",
        ),
        REPAIRS,
        (OF_TUBE,),
        "Letters that come several times, as LLLL for L, are told by --sent and --seen.",
    ),
    Unmodelled(
        "dim",
        "the picture is dim, pale or too bright",
        NO_LEVELS,
        (
            "the brightness and the contrast of the monitor; whether another one shows the same. "
            "Most dim pictures are the monitor's, not the board's",
            "the level of the video at the monitor's input, with the cable on: composite video has "
            "about 0.7 V above black, and 0.3 V of sync below",
            "+5 V at the video output stage, then the resistors that add up half and full "
            "intensity",
        ),
        REPAIRS,
        (OF_TUBE,),
    ),
    Unmodelled(
        "doubled letters",
        "letters come twice",
        "That alone does not say whether the keys, the line or the computer doubles them.",
        (
            "the echo: the computer and the board both show what is typed; switch the local echo "
            "of one of them off, on the board by the switch for full or half duplex",
            "the keys: with the switch at LOCAL, letters that still come twice are of a key that "
            "bounces, or of the keyboard's encoder; `termprobe keys` walks through all of them",
        ),
        REPAIRS,
        (),
        'Tell which: --keys "A>AA" for keys, --sent HELLO --seen HHEELLLLOO for the screen.',
        is_on_live_board=False,
    ),
    Unmodelled(
        "too wide",
        "the picture has the wrong size",
        NO_TIMING,
        (
            "the dot clock: by counter, and against what is printed on its crystal",
            "the column counter and the counter of scan lines: how many dots a line has, and how "
            "many lines a frame",
            "the width and the height of the monitor",
        ),
        PRACTICE,
        (OF_TUBE,),
    ),
    Unmodelled(
        "shifted to the right",
        "the picture does not stand in the middle",
        NO_TIMING,
        (
            "sideways, where in the scan line the horizontal sync comes against the blanking: what "
            "decodes it from the column counter",
            "upwards or downwards, the same of the vertical sync and the counter of scan lines",
            "the centring of the monitor",
        ),
        PRACTICE,
        (OF_SYNC, OF_TUBE),
        "A text that stands whole columns or rows beside its own is told by --sent and --seen.",
    ),
    Unmodelled(
        "comes and goes",
        "it is not always wrong",
        NO_CONTACTS,
        (
            "joints, sockets and plugs: move each chip and plug in its socket once, and look at "
            "the joints with a lens",
            "heat: where it begins after some minutes, cool one chip at a time",
            "how often: `termprobe soak` looks for hours, and `run` makes the same looks cold and "
            "warm",
        ),
        REPAIRS,
    ),
)
BY_NAME = {one.name: one for one in UNMODELLED}


def unmodelled_in(words: str) -> Unmodelled | None:
    """Return what `words` tell of that no simulated fault explains; None where that is nothing."""
    return BY_NAME.get(named_in(words))


def of_texts(pairs: Iterable[tuple[bytes, bytes]]) -> Unmodelled | None:
    """Return what texts tell of that no simulated fault explains; None where that is nothing.

    Each is what was sent and what was seen: of letters that come twice no more need be told.
    """
    if any(comes_twice(sent, seen) for sent, seen in pairs):
        return BY_NAME["doubled letters"]._replace(rather="")
    return None


def comes_twice(sent: bytes, seen: bytes) -> bool:
    """Return whether each character of a text was seen twice."""
    doubled = bytes(code for code in sent for _ in range(2))
    return len(sent) > 1 and doubled.rstrip(b" ") == seen.rstrip(b" ")
