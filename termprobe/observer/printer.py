"""The board's printer port, read by a second port of this computer, and what comes compared."""

from termprobe.clock import Clock
from termprobe.errors import LinkError, ObserverError, UsageError
from termprobe.journal.records import AS_EXPECTED, DIFFERS, RETURNED, Answer
from termprobe.link.base import LineFormat, Link
from termprobe.link.frame_text import frame_from
from termprobe.notation import show
from termprobe.observer.base import Offer
from termprobe.plan.model import Ask, Step, expected_of

OPTION = "--printer"
QUIET_S = 1.0
"""Where nothing has come for so long, nothing more will."""
MAX_BYTES = 4096
USUAL = LineFormat()
"""Speed and frame of a printer port where none are given."""


class PrinterObserver:
    """Reads `link`, which ends at the printer port."""

    strength = RETURNED
    name = "printer port"

    def __init__(self, link: Link) -> None:
        self._link = link

    def begin(self) -> None:
        """Forget what has come: a step is about to be sent."""
        self._read(0.0)

    def can_answer(self, step: Step) -> bool:
        """Return whether something must come at the printer port of the step."""
        expected = expected_of(step)
        return isinstance(step, Ask) and expected is not None and bool(expected.printed)

    def answer(self, step: Step) -> Answer:
        """Return the Answer by what has come, once it is quiet; raise ObserverError."""
        expected, came = expected_of(step), b""
        assert expected is not None
        while len(came) < MAX_BYTES and (more := self._read(QUIET_S)):
            came += more
        word = AS_EXPECTED if came == expected.printed else DIFFERS
        wanted = f"{show(expected.printed)} must come at the printer port"
        return Answer(word, data=came, note=f"{wanted}; there came {show(came) or 'nothing'}")

    def _read(self, wait_s: float) -> bytes:
        try:
            return b"".join(received.data for received in self._link.read(wait_s))
        except LinkError as error:
            raise ObserverError(f"the printer port cannot be read: {error}") from None


def printer_at(text: str, clock: Clock) -> PrinterObserver:
    """Return the observer at the port that `text` names: URL, or URL,SPEED or URL,SPEED,FRAME.

    Raise UsageError or LinkError.
    """
    url, *rest = text.split(",")
    format = USUAL
    if len(rest) > 1:
        format = frame_from(rest[1], OPTION)
    if rest:
        format = LineFormat(_speed(rest[0]), format.data_bits, format.parity, format.stop_bits)
    if not url or len(rest) > 2:
        raise UsageError(
            f'{OPTION} must be a port, with its speed and frame behind commas, not "{text}"; '
            "try /dev/ttyUSB1,1200,7E1"
        )
    from termprobe.link.open import open_port  # it loads pyserial, which no help may wait for

    return PrinterObserver(open_port(url, format, clock))


def _speed(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 10_000_000:
        raise UsageError(f'the speed of {OPTION} must be a number of baud, not "{text}"; try 1200')
    return int(text)


OFFER = Offer(
    option=OPTION,
    metavar="PORT",
    help="a second port of this computer, on the printer port of the board: PORT, or "
    "PORT,SPEED,FRAME, 9600 8N1 if not told; what comes there answers the step of the printer port",
    make=lambda text, plan, clock: printer_at(text, clock),
)
