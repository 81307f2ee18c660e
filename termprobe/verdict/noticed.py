"""What is noticed when a key is pressed: its code, another key's, a bounce, a repeat, nothing, an error of the line. Pure."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from termprobe.notation import show
from termprobe.verdict.model import FAIL, PASS

RIGHT, WRONG_CODE, EIGHTH_BIT, BOUNCE, EXTRA = (
    "right",
    "wrong-code",
    "eighth-bit",
    "bounce",
    "extra",
)
REPEAT, NO_REPEAT, MISSING, ON_RELEASE, SEVERAL = (
    "repeat",
    "no-repeat",
    "missing",
    "on-release",
    "several",
)
BREAK, FRAMING, PARITY, OVERRUN = "break", "framing", "parity", "overrun"
"""Kinds of what is noticed. EXTRA: a second code where the line is too slow to tell a bounce."""
BOUNCE_S = 0.025
"""Nobody presses a key twice within this time: the best typist needs about 80 ms for a key."""
REPEATS_AFTER_S = 0.25
"""Between a bounce and this a second code comes of the release; later it is a repeat. Common practice: repeats start after 0.5 s."""
LOWEST_BAUD = 1200
"""Below this a character takes so long that the moment of arrival says nothing of a bounce."""
START_AND_STOP_BITS = 2


class Noticed(NamedTuple):
    """One thing that was noticed of a press."""

    kind: str
    text: str
    """In one line, safe for a console: `"Q" came, the code of key "Q" with SHIFT, not "q": bit 5 is 0`."""
    fails: bool = True
    """The board did something wrong."""


@dataclass(frozen=True)
class Listening:
    """What is known of the line and the keyboard while presses are judged."""

    speed_baud: float
    data_bits: int
    """As the port has it; with 8 an eighth bit may come."""
    codes: Mapping[bytes, tuple[str, ...]] = field(default_factory=dict)
    """For each code the presses that send it: `key "1 !" with SHIFT`."""
    may_repeat: bool = False
    """The key goes on sending while it is held."""
    asked_to_hold: bool = False
    """The builder was asked to hold the key until it repeats."""

    @property
    def gap_s(self):
        """The longest time between a code and its bounce, start bit to start bit, on this line."""
        return max(
            BOUNCE_S, (START_AND_STOP_BITS + self.data_bits + 1) / self.speed_baud + BOUNCE_S / 2
        )


def notice(press, received, listening):
    """Return the tuple of Noticed for one press; never empty.

    `received` is (seconds after the request, bytes, error) for all that came, by time; errors are the words of a link's
    Received: parity, framing, overrun, break, or empty.
    """
    breaks = [piece for piece in received if _is_break(piece, press)]
    rest = [piece for piece in received if not _is_break(piece, press)]
    found = [_of_break(press, breaks)] if breaks else []
    found += [_of_error(error, data) for _, data, error in rest if error and error != "break"]
    characters = [(at_s, code) for at_s, data, _ in rest for code in data]
    if characters and press.held:
        found.append(_of_chord(press, characters, listening))
    elif characters and press.is_break:
        found.append(
            Noticed(WRONG_CODE, f"{show(bytes(code for _, code in characters))} came, not a break")
        )
    elif characters:
        found += _of_codes(press, _split(press.code, characters, listening), listening)
    return tuple(found) or (
        Noticed(MISSING, f"nothing came, not {'a break' if press.is_break else show(press.code)}"),
    )


def _of_chord(press, characters, listening):
    """Return what is noticed of keys pressed one after the other and held: each must send its code, and no other key's may come.

    Neither order nor number counts, since a key that is held long enough repeats.
    """
    came = _distinct(characters, listening)
    wanted = _distinct([(0.0, code) for code in press.code], listening)
    extra, missing = (
        [data for data in came if data not in wanted],
        [data for data in wanted if data not in came],
    )
    if extra and missing:
        return Noticed(WRONG_CODE, f"{_named(came, listening)} came, not {show(press.code)}")
    if extra:
        return Noticed(
            SEVERAL,
            f"besides {show(press.code)} came {_named(extra, listening)}: a key that nobody pressed",
        )
    if missing:
        return Noticed(
            MISSING, f"{_named(missing, listening)} did not come, though held together with others"
        )
    return Noticed(RIGHT, f"{show(press.code)} came", False)


def _distinct(characters, listening):
    return list(dict.fromkeys(code.data for code in _codes(characters, listening.codes)))


def _named(codes, listening):
    return ", ".join(f"{show(data)}{_whose(data, listening)}" for data in codes)


def outcome(noticed):
    """Return the verdict on a press: pass or fail."""
    return FAIL if any(one.fails for one in noticed) else PASS


def _is_break(piece, press):
    """Tell a break; where one is expected, a 00h with a wrong stop bit is one: some ports report no more."""
    _, data, error = piece
    return error == "break" or press.is_break and error == "framing" and not any(data)


def _of_break(press, breaks):
    if press.is_break and len(breaks) == 1:
        return Noticed(RIGHT, "a break came", False)
    if press.is_break:
        return Noticed(EXTRA, f"{len(breaks)} breaks came, not one")
    return Noticed(BREAK, f"a break came, not {show(press.code)}")


_ERRORS = {
    "framing": (FRAMING, "where the stop bit should be the line was not at rest"),
    "parity": (PARITY, "its parity bit is wrong"),
    "overrun": (OVERRUN, "characters before it were lost"),
}


def _of_error(error, data):
    kind, text = _ERRORS.get(error, (FRAMING, "it was received wrongly"))
    return Noticed(kind, f"{show(data) or 'a character'}: {text}")


class _Code(NamedTuple):
    """Bytes that one press of one key sent."""

    from_s: float
    to_s: float
    """When its first and its last byte came."""
    data: bytes


def _split(expected, characters, listening):
    """Return the characters as a list of _Code, as _codes does.

    As many bytes as were expected, none of it known, are taken for that code, damaged.
    """
    codes = _codes(characters, {expected, *listening.codes})
    if len(characters) == len(expected) > 1 and len(codes) > 1:
        return [_Code(characters[0][0], characters[-1][0], bytes(code for _, code in characters))]
    return codes


def _codes(characters, known):
    """Return the characters as a list of _Code: each the longest of the `known` codes that fits, or a single byte."""
    data = bytes(code for _, code in characters)
    codes, place = [], 0
    while place < len(data):
        fits = [
            code
            for code in known
            if code in (data[place : place + len(code)], _seven(data[place : place + len(code)]))
        ]
        length = len(max(fits, key=len, default=b"?"))
        codes.append(
            _Code(
                characters[place][0],
                characters[place + length - 1][0],
                data[place : place + length],
            )
        )
        place += length
    return codes


def _seven(data):
    return bytes(code & 0x7F for code in data)


def _of_codes(press, codes, listening):
    """Return what is noticed of the codes that came."""
    at_once, later = [codes[0]], []
    for code in codes[1:]:
        near = not later and code.from_s - at_once[-1].to_s <= listening.gap_s
        (at_once if near else later).append(code)
    distinct = list(dict.fromkeys(code.data for code in at_once))
    found = (
        [_of_several(press, distinct, listening)]
        if len(distinct) > 1
        else [_of_one(press, distinct[0], listening)]
    )
    if len(distinct) < len(at_once):
        found.append(_of_bounce(at_once, distinct, listening))
    found += _of_later(press, at_once[-1], later, listening)
    if listening.asked_to_hold and not any(one.kind == REPEAT for one in found):
        found.append(
            Noticed(NO_REPEAT, f"{show(press.code)} did not repeat while the key was held")
        )
    return found


def _of_one(press, data, listening):
    """Return what is noticed of the first code that came."""
    if data == press.code:
        return Noticed(RIGHT, f"{show(data)} came", False)
    if _seven(data) == press.code:
        return Noticed(
            EIGHTH_BIT,
            f"{show(data)} came, not {show(press.code)}: the eighth bit is set, as "
            f"{_eighth_bit_setter(data)} sets it",
        )
    return Noticed(
        WRONG_CODE,
        f"{show(data)} came{_whose(data, listening)}, not {show(press.code)}{_bits(press.code, data)}",
    )


def _eighth_bit_setter(data):
    """Return what would set the eighth bits of `data` as they are."""
    odd = {bin(code & 0x7F).count("1") % 2 for code in data if code & 0x80}
    parity = {frozenset({1}): "even parity or ", frozenset({0}): "odd parity or "}.get(
        frozenset(odd), ""
    )
    return f"{parity}a parity bit fixed at 1"


def _whose(data, listening):
    """Return `, the code of key "Q" with SHIFT`, or nothing where no key sends `data`."""
    names = listening.codes.get(data) or listening.codes.get(_seven(data), ())
    return f", the code of {' and of '.join(names)}" if names else ""


def _bits(expected, data):
    """Return `: bit 5 is 0`, the bits in which single bytes differ; nothing for codes of several bytes."""
    if len(expected) != 1 or len(data) != 1:
        return ""
    wrong = [bit for bit in range(8) if (expected[0] ^ data[0]) >> bit & 1]
    return ": " + ", ".join(f"bit {bit} is {data[0] >> bit & 1}" for bit in wrong)


def _of_several(press, distinct, listening):
    """Return what is noticed where different codes came at once."""
    listed = _listed(press, distinct, listening)
    if press.code in distinct:
        return Noticed(SEVERAL, f"besides {show(press.code)} came {listed}")
    return Noticed(
        SEVERAL, f"{len(distinct)} codes came at once, none of them {show(press.code)}: {listed}"
    )


def _of_bounce(at_once, distinct, listening):
    count = len(at_once) - len(distinct) + 1
    what = f"{show(at_once[0].data)} came {'twice' if count == 2 else f'{count} times'}"
    if listening.speed_baud < LOWEST_BAUD:
        return Noticed(
            EXTRA,
            f"{what}: an extra code; at {listening.speed_baud:g} baud a bounce cannot be told by its time",
        )
    apart_ms = (at_once[-1].from_s - at_once[0].to_s) * 1000 / (len(at_once) - 1)
    return Noticed(BOUNCE, f"{what}, {apart_ms:.0f} ms apart: the contact bounces")


def _of_later(press, last, later, listening):
    """Return what is noticed of codes that came long after the first ones, in a list of one or none."""
    if not later:
        return []
    after_ms = (later[0].from_s - last.to_s) * 1000
    same = all(code.data == last.data for code in later)
    if same and (len(later) > 1 or after_ms >= REPEATS_AFTER_S * 1000):
        word = "" if listening.may_repeat else ", and this key should not repeat"
        return [
            Noticed(
                REPEAT,
                f"{show(last.data)} was repeated {len(later)} times, first after {after_ms:.0f} ms{word}",
                not listening.may_repeat,
            )
        ]
    listed = (
        _listed(press, dict.fromkeys(code.data for code in later), listening)
        or f"{show(press.code)} again"
    )
    return [
        Noticed(ON_RELEASE, f"{after_ms:.0f} ms later, as on the release of the key, came {listed}")
    ]


def _listed(press, codes, listening):
    """Return the codes other than the expected one, each with whose it is."""
    return ", ".join(
        f"{show(data)}{_whose(data, listening)}" for data in codes if data != press.code
    )


def parity_pattern(codes):
    """Return what the eighth bits of `codes`, bytes that came, look like: even, odd, mark, space, or empty for none of these.

    What fits a parity as well as a fixed bit, such as a single byte, counts as undecided: empty.
    """
    ones = {(bin(code & 0x7F).count("1") % 2, code >> 7) for code in codes}
    patterns = {
        "even": {(0, 0), (1, 1)},
        "odd": {(0, 1), (1, 0)},
        "mark": {(0, 1), (1, 1)},
        "space": {(0, 0), (1, 0)},
    }
    return next((name for name, pattern in patterns.items() if ones == pattern), "")


class Rate(NamedTuple):
    """How often a contact works."""

    came: int
    of: int
    """Presses."""

    @property
    def text(self):
        """`6 of 10 presses came: the contact works only sometimes`."""
        word = (
            "works"
            if self.came == self.of
            else "does not work"
            if not self.came
            else "works only sometimes"
        )
        return f"{self.came} of {self.of} presses came: the contact {word}"


def rate(presses):
    """Return the Rate over repeated presses of one key; `presses` is what was noticed of each."""
    return Rate(
        sum(all(one.kind != MISSING for one in noticed) for noticed in presses), len(presses)
    )
