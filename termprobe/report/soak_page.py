"""What a soak of a line has shown: a page of text, and a document."""

from collections.abc import Iterable, Iterator

from termprobe.folding import folded
from termprobe.journal.records import Header, Record
from termprobe.journal.soaking import SoakBegun, SoakTold
from termprobe.line.compare import CHANGED, LOST
from termprobe.line.soak import Far, SoakLength
from termprobe.link.base import LineFormat
from termprobe.notation import visible
from termprobe.report.spans_in_words import span_in_words

WIDTH = 78
ARRIVED = {False: "came back", True: "reached the screen"}
EIGHTH = 7
"""The highest data bit."""


def far_of(records: Iterable[Record]) -> Far:
    """Return how far a soak is by the records of its run file."""
    far = Far()
    for told in records:
        if isinstance(told, SoakTold):
            far = Far(told.block, seconds=told.seconds)
            far.tally.sent, far.tally.received = told.sent, told.received
            far.tally.errors.update(dict(told.errors))
            far.tally.bits.update(dict(told.bits))
    return far


def told_of(far: Far) -> SoakTold:
    """Return the record that tells how far a soak is."""
    tally = far.tally
    errors = tuple(sorted((kind, count) for kind, count in tally.errors.items() if count))
    bits = tuple(sorted(tally.bits.items()))
    return SoakTold(far.block, tally.sent, tally.received, round(far.seconds, 3), errors, bits)


def begun_of(records: Iterable[Record]) -> SoakBegun | None:
    """Return how the soak was begun, by the records of its run file; None where it is of none."""
    return next((record for record in records if isinstance(record, SoakBegun)), None)


def line_format_of(begun: SoakBegun) -> LineFormat:
    """Return the format of the line that was soaked."""
    return LineFormat(begun.speed_baud, begun.data_bits, begun.parity, begun.stop_bits)


def wanted_of(begun: SoakBegun) -> SoakLength:
    """Return how long it was to go on."""
    return SoakLength(begun.characters, begun.seconds)


def soak_document(path: str, begun: SoakBegun, far: Far) -> dict[str, object]:
    """Return what the page says: counts, errors by kind, the bound of the error rate, verdict."""
    tally = far.tally
    return {
        "sent": tally.sent,
        "received": tally.received,
        "errors": dict(sorted((kind, count) for kind, count in tally.errors.items() if count)),
        "bound_95": far.bound,
        "verdict": far.verdict(wanted_of(begun)),
        "bits": {str(bit): count for bit, count in sorted(tally.bits.items())},
        "seconds": round(far.seconds, 3),
        "line": str(line_format_of(begun)),
        "handshake": begun.handshake,
        "seed": begun.seed,
        "run": path,
    }


def soak_page(path: str, header: Header, begun: SoakBegun, far: Far) -> str:
    """Return the page for people, folded, its first line the verdict."""
    verdict = far.verdict(wanted_of(begun)).upper()
    port = header.link.name if header.link else "the line"
    line = f"{line_format_of(begun)}, handshake {begun.handshake}"
    texts = [f"{verdict}  soak of {visible(port)}, {line}"]
    if header.board.serial:
        texts.append(f"Board {visible(header.board.serial)}")
    texts += _counted(begun, far)
    texts += _rate(begun, far)
    texts += _meaning(begun, far)
    texts.append(f"Run file: {visible(path)}")
    return "\n".join(line for text in texts for line in folded("", text, WIDTH, 2))


def _counted(begun: SoakBegun, far: Far) -> Iterator[str]:
    sent, wrong = far.tally.sent, far.tally.wrong
    if not sent:
        yield f"Nothing was proven: no character {ARRIVED[begun.is_of_screen]}."
    elif not wrong:
        yield f"All {sent:,} characters {ARRIVED[begun.is_of_screen]} as they were sent."
    else:
        kinds = (f"{count:,} {kind}" for kind, count in far.tally.errors.most_common() if count)
        yield f"Of {sent:,} characters, errors: {', '.join(kinds)}."
    if far.tally.bits:
        bits = (f"bit {bit} {count:,} times" for bit, count in far.tally.bits.most_common())
        yield f"Of the changed ones: {', '.join(bits)} (bit 0 is the least significant)."


def _rate(begun: SoakBegun, far: Far) -> Iterator[str]:
    """Say what the count proves of the line, and how fast it went."""
    if not far.tally.sent:
        return
    one_in = 1 / far.bound
    yield (
        f"By this count at most one character in {one_in:,.0f} goes wrong "
        f"(a rate of {far.bound:.2g}, at 95 % confidence)."
    )
    at_best_s = far.tally.sent * line_format_of(begun).character_s
    share = at_best_s / max(far.seconds, at_best_s)
    yield f"It took {span_in_words(far.seconds)}, {share:.1%} of the speed of the line."


def _meaning(begun: SoakBegun, far: Far) -> Iterator[str]:
    """Say what errors of the kinds that were met most often come from; from experience."""
    errors, bits = far.tally.errors, far.tally.bits
    if errors[LOST] and not errors[CHANGED]:
        yield (
            "Characters that are lost while none is changed mean a buffer that ran over, or a "
            "contact that was open: try a slower speed or another handshake than "
            f"{begun.handshake}, then move the cable while it runs."
        )
    if set(bits) == {EIGHTH}:
        yield "The eighth bit alone is changed: one side is set to seven data bits, or to parity."
    if errors["framing"] or errors["parity"]:
        yield (
            "Framing or parity errors mean that the two ends differ in speed or format: "
            "see the switches of both."
        )
