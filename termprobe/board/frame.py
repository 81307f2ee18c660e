"""Characters as levels on a wire: what one end hears of what the other sends, where speed, format or parity differ."""

from math import floor

MARK, SPACE = "1", "0"
IDLE_BITS = 24
PARITY_OF_ONES = {
    "even": lambda ones: ones % 2,
    "odd": lambda ones: 1 - ones % 2,
    "mark": lambda ones: 1,
    "space": lambda ones: 0,
}
"""Parity: the parity bit for a number of ones in the data bits."""


def heard(data, sender, listener, speed_ratio=1.0, parity_fault=""):
    """Return [(code, error)] as `listener` takes `data` from the wire; both ends are Formats.

    The sender's clock runs `speed_ratio` as fast as its format says; `parity_fault` is as in Wiring.parity. error is
    empty, `parity` or `framing`. The wire is idle before and after. The listener samples each bit once, in its middle.
    """
    wire = (
        MARK + "".join(_halves(code, sender, parity_fault) for code in data) + MARK * 2 * IDLE_BITS
    )
    bit = 2 * sender.speed_baud * speed_ratio / listener.speed_baud
    found, start = [], wire.find(MARK + SPACE)
    while start >= 0:
        samples = [
            wire[min(floor(start + 1 + bit * (place + 0.5)), len(wire) - 1)]
            for place in range(_sampled(listener) + 1)
        ]
        if samples[0] == MARK:  # too short for a start bit
            start = wire.find(MARK + SPACE, start + 1)
            continue
        found.append(_decoded(samples[1:], listener))
        start = wire.find(
            MARK + SPACE, max(start + 1, floor(start + 1 + bit * (len(samples) - 0.5)))
        )
    return found


def _halves(code, sender, parity_fault):
    """Return the levels of one character, one level for each half of a bit."""
    bits = [code >> place & 1 for place in range(sender.data_bits)]
    if sender.parity != "none":
        bits.append(_parity_bit(bits, sender.parity, parity_fault))
    return SPACE * 2 + "".join(str(bit) * 2 for bit in bits) + MARK * round(2 * sender.stop_bits)


def _parity_bit(bits, parity, fault):
    if fault in ("0", "1"):
        return int(fault)
    return PARITY_OF_ONES[parity](sum(bits)) ^ (fault == "inverted")


def _sampled(listener):
    """Return how many bits follow the start bit, up to the first stop bit."""
    return listener.data_bits + (listener.parity != "none") + 1


def _decoded(samples, listener):
    bits = [int(sample) for sample in samples]
    code = sum(bit << place for place, bit in enumerate(bits[: listener.data_bits]))
    if not bits[-1]:
        return code, "framing"
    if listener.parity != "none" and bits[-2] != PARITY_OF_ONES[listener.parity](
        sum(bits[: listener.data_bits])
    ):
        return code, "parity"
    return code, ""
