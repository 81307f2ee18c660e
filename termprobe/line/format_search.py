"""Which speed and frame a board has, by what is heard of known keys; and which key to ask for next.

Listened to is always with eight data bits and no parity: seven data bits and a parity bit are then
eight bits, and a parity bit behind eight is where the stop bit is expected. What each possibility
would be heard as is worked out by link/frame.py.
"""

import functools
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from math import log2
from typing import NamedTuple

from termprobe.line.formats import WireFormat
from termprobe.link.base import LineFormat
from termprobe.link.frame import Sampled, heard

FORMAT_KEYS = "UCT"
"""U has four ones, and alternates on the wire; C and T have three: another parity bit."""
LISTENING_BAUD = (110, 150, 300, 600, 1200, 1800, 2400, 4800, 9600, 19200)
UNIT_BAUD = 9600
"""Stands for both rates where their ratio says all."""
DRIFTS = {1.0: 0.6, 0.985: 0.2, 1.015: 0.2}
"""How far off its rate a clock may be: how common that is. It moves samples near an edge."""
RIGHT_KEY, OTHER_CASE = 0.9, 0.02
"""How often the key is pressed that was asked for; how often with SHIFT where without is usual."""
SMALL_LETTERS = 0.05
"""How often somebody presses no SHIFT for the capital letters that are asked for."""
ANYTHING = 1e-4
"""The chance of whatever else is heard, such as another key."""
EXPLAINED = 0.01
"""The least chance of what was heard where something explains it."""
UNPRESSED = 0.03
"""How often nothing is heard since nobody has pressed."""
SAME_BEGINNING = 0.1
"""How well something fits of which the first character alone fits: receivers go on differently."""
SURE = 0.98
LEAST_PRESSES, MOST_PRESSES = 2, 10
LEAST_ODDS = 1e-4
TIE_BITS = 0.02
WORTH_A_RATE = 0.15
"""A rate that is none of the usual ones is listened at where something with it is so probable."""
MOST_SILENT_SHARE = 0.1
"""Where silence is so probable, it could as well mean that nobody has pressed: not listened at."""
SLOWEST_SHARE = 0.45
"""Listening so much slower hardly notices a start bit, so it counts for no difference."""
MOST_HEARD = 24
"""Characters of one press that are looked at."""


_Signature = tuple[tuple[Sampled, ...], ...]


class AskedPress(NamedTuple):
    """What to do next: the key to be pressed while this side listens at a rate."""

    key: str
    baud: int


class Listened(NamedTuple):
    """What was heard of one press."""

    asked: AskedPress
    heard: tuple[Sampled, ...]


@functools.cache
def predicted(
    wire: WireFormat, code: int, listening_baud: float, drift: float = 1.0
) -> tuple[Sampled, ...]:
    """Return what is heard of `code` where the board sends so, `drift` as fast as it should."""
    sender = LineFormat(UNIT_BAUD, wire.data_bits, wire.parity)
    ratio = wire.baud / listening_baud * drift
    return heard(bytes([code]), sender, LineFormat(UNIT_BAUD), ratio, is_inverted=wire.is_inverted)[
        :MOST_HEARD
    ]


def without_marks(sampled: Iterable[Sampled]) -> tuple[Sampled, ...]:
    """Return what a port tells that does not tell errors."""
    return tuple(one._replace(error="") for one in sampled)


class _Chances(NamedTuple):
    """The chance of what was heard, together with that of the letters."""

    capital: float
    small: float

    @property
    def whole(self) -> float:
        """Whichever letters come."""
        return self.capital + self.small


@dataclass(frozen=True)
class FormatSearch:
    """How far a search is."""

    odds: dict[WireFormat, float]
    """How probable each is; they sum to 1."""
    has_marks: bool = True
    """The port tells which characters had wrong frames."""
    rates_baud: tuple[int, ...] = LISTENING_BAUD
    """At which this side can listen."""
    keys: str = FORMAT_KEYS
    """That may be asked for; the first one is asked for first."""
    small_shares: Mapping[WireFormat, float] = field(default_factory=dict)
    """How probable it is, in each format, that the keyboard sends small letters for capital ones.

    SMALL_LETTERS where nothing is said.
    """
    refused_baud: tuple[int, ...] = ()
    """At which the adapter does not listen."""
    unexplained_baud: tuple[int, ...] = ()
    """The rate of each press of which nothing that was still likely explains what was heard."""
    listened: tuple[Listened, ...] = ()

    def after(self, listened: Listened) -> "FormatSearch":
        """Return the search with one more press heard."""
        both = {wire: self._chances(wire, listened) for wire in self.odds}
        chances = {wire: each.whole for wire, each in both.items()}
        weights = {wire: odds * chances[wire] for wire, odds in self.odds.items()}
        total = sum(weights.values())
        odds = {wire: weight / total for wire, weight in weights.items()}
        unexplained = self.unexplained_baud
        if listened.heard and max(chances[wire] for wire in self._alive()) < EXPLAINED:
            unexplained = (*unexplained, listened.asked.baud)
        return replace(
            self,
            odds=odds,
            small_shares={wire: each.small / each.whole for wire, each in both.items()},
            unexplained_baud=unexplained,
            listened=(*self.listened, listened),
        )

    def without(self, baud: int) -> "FormatSearch":
        """Return the search without a rate that the adapter refuses."""
        rates = tuple(rate for rate in self.rates_baud if rate != baud)
        return replace(self, rates_baud=rates, refused_baud=(*self.refused_baud, baud))

    def _chances(self, wire: WireFormat, listened: Listened) -> "_Chances":
        """Return the chance of what was heard, where capital letters come and where small ones."""
        key = listened.asked.key
        fits = [self._fit(wire, ord(letter), listened) for letter in (key, key.lower())]
        least = ANYTHING if listened.heard else UNPRESSED
        capital, small = (
            RIGHT_KEY * fits[mine] + OTHER_CASE * fits[1 - mine] + least for mine in (0, 1)
        )
        share = self.small_shares.get(wire, SMALL_LETTERS)
        return _Chances((1 - share) * capital, share * small)

    def _fit(self, wire: WireFormat, code: int, listened: Listened) -> float:
        """Return how well what was heard fits, 0 to 1."""
        return sum(
            share * _likeness(self._told(wire, code, listened.asked.baud, drift), listened.heard)
            for drift, share in DRIFTS.items()
        )

    def _told(
        self, wire: WireFormat, code: int, baud: int, drift: float = 1.0
    ) -> tuple[Sampled, ...]:
        sampled = predicted(wire, code, baud, drift)
        if self.has_marks:
            return sampled
        return without_marks(sampled)

    def classes(self) -> tuple[tuple[tuple[WireFormat, ...], float], ...]:
        """Return those that no key and no rate tells apart, and how probable they are together.

        The most probable class stands first, and in each the most probable format.
        """
        alike: dict[_Signature, list[WireFormat]] = defaultdict(list)
        for wire in sorted(self._alive(), key=lambda wire: -self.odds[wire]):
            alike[self._signature(wire)].append(wire)
        found = [(tuple(wires), self._odds_of(wires)) for wires in alike.values()]
        return tuple(sorted(found, key=lambda pair: -pair[1]))

    def _odds_of(self, wires: Iterable[WireFormat]) -> float:
        return sum(self.odds[wire] for wire in wires)

    def is_sure(self) -> bool:
        """Return whether one class can be named."""
        if len(self.listened) < LEAST_PRESSES:
            return False
        return self.classes()[0][1] >= SURE

    def _alive(self) -> list[WireFormat]:
        return [wire for wire, odds in self.odds.items() if odds >= LEAST_ODDS]

    def _signature(self, wire: WireFormat) -> _Signature:
        """Return all that can be heard of it, but for rates so slow that it is no start bit."""
        rates = [baud for baud in self.rates_baud if baud >= wire.baud * SLOWEST_SHARE]
        return tuple(self._told(wire, ord(key), baud) for baud in rates for key in self.keys)

    def next_press(self) -> AskedPress:
        """Return what tells most; of what tells about as much, the key and rate of before."""
        keys = self.keys if self.listened else self.keys[:1]
        options = [AskedPress(key, baud) for key in keys for baud in self._listening_baud()]
        gains = {asked: self.gain_bits(asked) for asked in options}
        most = max(gains.values())
        good = [asked for asked in options if gains[asked] >= most - TIE_BITS]
        if self.listened:
            before = self.listened[-1].asked
            good.sort(key=lambda asked: asked.baud != before.baud)
        return good[0]

    def _listening_baud(self) -> tuple[int, ...]:
        """Return the rates to choose from: the usual ones, and the one that is most probable."""
        wire = max(self.odds, key=lambda wire: self.odds[wire])
        own = round(wire.baud)
        rates = self.rates_baud
        if self.odds[wire] >= WORTH_A_RATE and own not in (*rates, *self.refused_baud):
            rates = (*rates, own)
        doubted = self.doubted_baud
        return tuple(baud for baud in rates if baud not in doubted) or self.rates_baud

    @property
    def doubted_baud(self) -> tuple[int, ...]:
        """Return the rates at which the adapter seems to listen at another one than it says.

        One press that nothing explains is a wrong key, or two keys at once; two are no chance.
        """
        count = Counter(self.unexplained_baud)
        return tuple(sorted(baud for baud, times in count.items() if times > 1))

    def _expected_letter(self, key: str) -> str:
        wire = max(self.odds, key=lambda wire: self.odds[wire])
        if self.small_shares.get(wire, SMALL_LETTERS) > 1 / 2:
            return key.lower()
        return key

    def gain_bits(self, asked: AskedPress) -> float:
        """Return how much is expected to be learnt by it.

        Half of it is what the first character alone tells, which every receiver takes alike.
        """
        code = ord(self._expected_letter(asked.key))
        whole: dict[tuple[Sampled, ...], float] = defaultdict(float)
        first: dict[tuple[Sampled, ...], float] = defaultdict(float)
        for wire in self._alive():
            told = self._told(wire, code, asked.baud)
            whole[told] += self.odds[wire]
            first[told[:1]] += self.odds[wire]
        if whole[()] > MOST_SILENT_SHARE:
            return 0.0
        return (_entropy_bits(whole.values()) + _entropy_bits(first.values())) / 2


def _entropy_bits(shares: Iterable[float]) -> float:
    return -sum(share * log2(share) for share in shares if share)


def _likeness(told: tuple[Sampled, ...], came: tuple[Sampled, ...]) -> float:
    """Return 1 where all is the same, and little where only the first character is."""
    if told == came:
        return 1.0
    if told[:1] == came[:1]:
        return SAME_BEGINNING
    return 0.0
