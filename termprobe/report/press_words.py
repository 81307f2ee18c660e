"""What was noticed of a press, in words: one line, safe for a console."""

from collections.abc import Iterable

from termprobe.notation import show
from termprobe.verdict.noticed import (
    Bounce,
    Break,
    Code,
    EighthBit,
    Extra,
    LineError,
    Missing,
    Noticed,
    OnRelease,
    Rate,
    Repeat,
    Right,
    Several,
    WrongCode,
)

_ERRORS = {
    "framing": "where the stop bit should be the line was not at rest",
    "parity": "its parity bit is wrong",
    "overrun": "characters before it were lost",
}
_ANY_ERROR = "it was received wrongly"
_SET_BY_PARITY = {frozenset({1}): "even parity or ", frozenset({0}): "odd parity or "}
"""By whether the codes with an eighth bit have an odd number of ones."""


def error_in_words(error: str) -> str:
    """Return what an error of the line means, as a sentence about a character."""
    return _ERRORS.get(error, _ANY_ERROR)


def in_words(noticed: Noticed) -> str:
    """Return what was noticed: `"Q" came, the code of key "Q" with SHIFT, not "q": bit 5 is 0`."""
    match noticed:
        case Right(code):
            return f"{_wanted(code)} came"
        case WrongCode():
            return _wrong_code(noticed)
        case EighthBit(data, wanted):
            setter = _eighth_bit_setter(data)
            what = f"{show(data)} came, not {show(wanted)}"
            return f"{what}: the eighth bit is set, as {setter} sets it"
        case Several():
            return _several(noticed)
        case Bounce(code, count, apart_ms):
            apart = f"{apart_ms:.0f} ms apart"
            return f"{show(code)} came {_times(count)}, {apart}: the contact bounces"
        case Extra(code, count, speed_baud):
            return _extra(code, count, speed_baud)
        case Repeat(code, count, after_ms, is_allowed):
            more = "" if is_allowed else ", and this key should not repeat"
            times = f"{count} times, first after {after_ms:.0f} ms"
            return f"{show(code)} was repeated {times}{more}"
        case Missing(wanted, of_chord):
            return _missing(wanted, of_chord)
        case OnRelease(others, wanted, after_ms):
            what = _listed(others) or f"{show(wanted)} again"
            return f"{after_ms:.0f} ms later, as on the release of the key, came {what}"
        case Break(wanted):
            return f"a break came, not {show(wanted)}"
        case LineError(error, data):
            return f"{show(data) or 'a character'}: {error_in_words(error)}"
    raise TypeError(f"no words for {type(noticed).__name__}")


def rate_in_words(rate: Rate) -> str:
    """Return `6 of 10 presses came: the contact works only sometimes`."""
    word = "works only sometimes"
    if rate.came == rate.of:
        word = "works"
    elif not rate.came:
        word = "does not work"
    return f"{rate.came} of {rate.of} presses came: the contact {word}"


def _wrong_code(noticed: WrongCode) -> str:
    wanted = noticed.wanted
    if noticed.is_chord:
        return f"{_listed(noticed.came)} came, not {show(wanted)}"
    (code,) = noticed.came
    return f"{show(code.data)} came{_whose(code)}, not {_wanted(wanted)}{_bits(wanted, code.data)}"


def _several(noticed: Several) -> str:
    others = _listed(noticed.others)
    if noticed.is_chord:
        return f"besides {show(noticed.wanted)} came {others}: a key that nobody pressed"
    if noticed.has_wanted:
        return f"besides {show(noticed.wanted)} came {others}"
    count = len(noticed.others)
    return f"{count} codes came at once, none of them {show(noticed.wanted)}: {others}"


def _extra(code: bytes, count: int, speed_baud: float) -> str:
    if not code:
        return f"{count} breaks came, not one"
    why = f"at {speed_baud:g} baud a bounce cannot be told by its time"
    return f"{show(code)} came {_times(count)}: an extra code; {why}"


def _missing(wanted: bytes, of_chord: tuple[Code, ...]) -> str:
    if of_chord:
        return f"{_listed(of_chord)} did not come, though held together with others"
    return f"no code received, not {_wanted(wanted)}"


def _wanted(code: bytes) -> str:
    return show(code) or "a break"


def _times(count: int) -> str:
    return "twice" if count == 2 else f"{count} times"


def _listed(codes: Iterable[Code]) -> str:
    """Return the codes, each with whose it is."""
    return ", ".join(_named(code) for code in codes)


def _named(code: Code) -> str:
    return show(code.data) + _whose(code)


def _whose(code: Code) -> str:
    """Return `, the code of key "Q" with SHIFT`, or nothing where no key sends it."""
    return f", the code of {' and of '.join(code.names)}" if code.names else ""


def _bits(wanted: bytes, came: bytes) -> str:
    """Return `: bit 5 is 0`, the bits in which single bytes differ.

    It is empty for codes of several bytes.
    """
    if len(wanted) != 1 or len(came) != 1:
        return ""
    code = came[0]
    wrong = [bit for bit in range(8) if (wanted[0] ^ code) >> bit & 1]
    return ": " + ", ".join(f"bit {bit} is {code >> bit & 1}" for bit in wrong)


def _eighth_bit_setter(data: bytes) -> str:
    """Return what would set the eighth bits of `data` as they are."""
    odd = frozenset((code & 0x7F).bit_count() % 2 for code in data if code & 0x80)
    return f"{_SET_BY_PARITY.get(odd, '')}a parity bit fixed at 1"
