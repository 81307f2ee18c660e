"""From what came of a press to what is noticed of it. Pure."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from termprobe.link.base import Received
from termprobe.plan.model import Press
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
    Repeat,
    Right,
    Several,
    WrongCode,
)

BOUNCE_S = 0.025
"""Nobody presses a key twice within this time: by the keystroke-level model (Card, Moran, Newell)
the best typist needs 80 ms for a key. Contacts bounce for less, from memory.
"""
REPEATS_AFTER_S = 0.25
"""Between a bounce and this a second code comes of the release; later it is a repeat. Common
practice: repeats start after 0.5 s.
"""
LOWEST_BAUD = 1200
"""Below this a character takes so long that the moment of arrival says nothing of a bounce."""
START_AND_STOP_BITS = 2


@dataclass(frozen=True)
class Listening:
    """What is known of the line and the keyboard while presses are judged."""

    speed_baud: float
    data_bits: int
    """As the port has it; with 8 an eighth bit may come."""
    codes: Mapping[bytes, tuple[str, ...]] = field(default_factory=dict)
    """For each code the presses that send it: `key "1 !" with SHIFT`."""

    @property
    def gap_s(self) -> float:
        """The longest time between a code and its bounce, start bit to start bit, on this line."""
        character_s = (START_AND_STOP_BITS + self.data_bits + 1) / self.speed_baud
        return max(BOUNCE_S, character_s + BOUNCE_S / 2)

    def code(self, data: bytes) -> Code:
        """Return `data` with the presses that send it.

        Its eighth bits are left aside where nothing sends it with them.
        """
        return Code(data, self.codes.get(data) or self.codes.get(_seven(data), ()))


@dataclass(frozen=True)
class _Came:
    """Bytes that one press of one key sent."""

    from_s: float
    to_s: float
    """When its first and its last byte came."""
    data: bytes


_Characters = list[tuple[float, int]]
"""Moment and code of each character."""


def notice(press: Press, events: Iterable[Received], listening: Listening) -> tuple[Noticed, ...]:
    """Return what is noticed of one press by all that came, in order of time; never empty."""
    breaks, rest = _parted(press, events)
    found: list[Noticed] = []
    if breaks:
        found.append(_of_breaks(press, breaks))
    wrong = [event for event in rest if event.error and event.error != "break"]
    found += [LineError(event.error, event.data) for event in wrong]
    characters: _Characters = []
    for event in rest:
        characters += [(event.at_s, code) for code in event.data]
    if characters:
        found += _of_characters(press, characters, listening)
    return tuple(found) or (Missing(press.code),)


def _parted(press: Press, events: Iterable[Received]) -> tuple[int, list[Received]]:
    """Return (how many breaks came, all else).

    Where a break is expected, a 00h with a wrong stop bit is one: some ports report no more.
    """
    breaks, rest = 0, []
    for event in events:
        looks_like_one = press.is_break and event.error == "framing" and not any(event.data)
        if event.error == "break" or looks_like_one:
            breaks += 1
        else:
            rest.append(event)
    return breaks, rest


def _of_breaks(press: Press, count: int) -> Noticed:
    if not press.is_break:
        return Break(press.code)
    return Right(b"") if count == 1 else Extra(b"", count)


def _of_characters(press: Press, characters: _Characters, listening: Listening) -> list[Noticed]:
    if press.held:
        return [_of_chord(press, characters, listening)]
    if press.is_break:
        came = bytes(code for _, code in characters)
        return [WrongCode((Code(came),), b"")]
    return _of_codes(press, _split(press.code, characters, listening), listening)


def _of_chord(press: Press, characters: _Characters, listening: Listening) -> Noticed:
    """Return what is noticed of keys pressed one after the other and held.

    Each must send its code, and no other key's may come. Neither order nor number counts, since a
    key that is held long enough repeats.
    """
    came = _distinct(characters, listening)
    wanted = _distinct([(0.0, code) for code in press.code], listening)
    extra = tuple(listening.code(data) for data in came if data not in wanted)
    missing = tuple(listening.code(data) for data in wanted if data not in came)
    if extra and missing:
        others = tuple(listening.code(data) for data in came)
        return WrongCode(others, press.code, is_chord=True)
    if extra:
        return Several(extra, press.code, has_wanted=True, is_chord=True)
    return Missing(press.code, missing) if missing else Right(press.code)


def _distinct(characters: _Characters, listening: Listening) -> list[bytes]:
    return list(dict.fromkeys(came.data for came in _codes(characters, listening.codes)))


def _split(expected: bytes, characters: _Characters, listening: Listening) -> list[_Came]:
    """Return the codes in `characters`, as _codes does.

    As many bytes as were expected, none of it known, are taken for that code, damaged.
    """
    codes = _codes(characters, {expected, *listening.codes})
    if len(characters) == len(expected) > 1 and len(codes) > 1:
        return [_joined(characters)]
    return codes


def _codes(characters: _Characters, known: Collection[bytes]) -> list[_Came]:
    """Return the codes in `characters`.

    Each is the longest of the `known` ones that fits, or a single byte.
    """
    data = bytes(code for _, code in characters)
    seven, codes = _seven(data), set(known)
    lengths = sorted({len(code) for code in codes if code}, reverse=True)
    found: list[_Came] = []
    start = 0
    while start < len(data):
        ends = (start + length for length in lengths)
        fits = (end for end in ends if data[start:end] in codes or seven[start:end] in codes)
        end = next(fits, start + 1)
        found.append(_joined(characters[start:end]))
        start = end
    return found


def _joined(characters: _Characters) -> _Came:
    data = bytes(code for _, code in characters)
    return _Came(characters[0][0], characters[-1][0], data)


def _seven(data: bytes) -> bytes:
    return bytes(code & 0x7F for code in data)


def _of_codes(press: Press, codes: Sequence[_Came], listening: Listening) -> list[Noticed]:
    at_once, later = _parted_by_time(codes, listening.gap_s)
    distinct = list(dict.fromkeys(came.data for came in at_once))
    if len(distinct) > 1:
        others = tuple(listening.code(data) for data in distinct if data != press.code)
        found: list[Noticed] = [Several(others, press.code, press.code in distinct)]
    else:
        found = [_of_one(press, distinct[0], listening)]
    if len(distinct) < len(at_once):
        count = len(at_once) - len(distinct) + 1
        found.append(_of_bounce(at_once, count, listening))
    if later:
        found.append(_of_later(press, at_once[-1], later, listening))
    return found


def _parted_by_time(codes: Sequence[_Came], gap_s: float) -> tuple[list[_Came], list[_Came]]:
    """Return (the codes that follow one another at once, those that come later)."""
    for index in range(1, len(codes)):
        if codes[index].from_s - codes[index - 1].to_s > gap_s:
            return list(codes[:index]), list(codes[index:])
    return list(codes), []


def _of_one(press: Press, data: bytes, listening: Listening) -> Noticed:
    if data == press.code:
        return Right(data)
    if _seven(data) == press.code:
        return EighthBit(data, press.code)
    return WrongCode((listening.code(data),), press.code)


def _of_bounce(at_once: Sequence[_Came], count: int, listening: Listening) -> Noticed:
    code = at_once[0].data
    if listening.speed_baud < LOWEST_BAUD:
        return Extra(code, count, listening.speed_baud)
    apart_s = (at_once[-1].from_s - at_once[0].to_s) / (len(at_once) - 1)
    return Bounce(code, count, apart_s * 1000)


def _of_later(press: Press, last: _Came, later: Sequence[_Came], listening: Listening) -> Noticed:
    after_s = later[0].from_s - last.to_s
    is_same = all(came.data == last.data for came in later)
    if is_same and (len(later) > 1 or after_s >= REPEATS_AFTER_S):
        return Repeat(last.data, len(later), after_s * 1000, press.may_repeat)
    distinct = dict.fromkeys(came.data for came in later)
    others = tuple(listening.code(data) for data in distinct if data != press.code)
    return OnRelease(others, press.code, after_s * 1000)
