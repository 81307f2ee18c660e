"""Fault dictionaries and coverings as bytes, and back."""

import json
import zlib
from typing import Any

from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.evident import Evident
from termprobe.diagnosis.playing import BothWays, Performance
from termprobe.diagnosis.shown import AS_WANTED, Sight
from termprobe.plan.covered import Covering

WRONG_FORM = (ValueError, TypeError, KeyError, IndexError, AttributeError, zlib.error)
"""What may be raised by reading bytes that are not what they should be."""


def dictionary_bytes(dictionary: FaultDictionary) -> bytes:
    """Return `dictionary` as dictionary_of reads it."""
    faults = dictionary.faults.items()
    document = {
        "looks": dictionary.looks,
        "good": _plain(dictionary.good),
        "faults": {name: _plain(performance) for name, performance in faults},
        "stuck_bits": sorted(dictionary.stuck_bits),
        "single_dots": [[code, *pair] for code, pair in dictionary.single_dots.items()],
    }
    return zlib.compress(json.dumps(document).encode())


def dictionary_of(data: bytes) -> FaultDictionary:
    """Return the FaultDictionary in `data`; raise one of WRONG_FORM where there is none."""
    document = json.loads(zlib.decompress(data))
    faults = document["faults"].items()
    return FaultDictionary(
        tuple(document["looks"]),
        _performance(document["good"]),
        {name: _performance(plain) for name, plain in faults},
        frozenset(Evident(*pair) for pair in document["stuck_bits"]),
        {code: Evident(*pair) for code, *pair in document["single_dots"]},
    )


def _plain(performance: Performance) -> list[list[object]]:
    """Return the ways of playing, once where both show the same."""
    ways = dict.fromkeys((performance.in_order, performance.alone))
    return [list(map(_plain_shown, way)) for way in ways]


def _plain_shown(shown: Sight) -> object:
    if shown == AS_WANTED:
        return 0
    return shown


def _performance(plain: list[list[Any]]) -> Performance:
    ways = [tuple(map(_shown, way)) for way in plain]
    return BothWays(ways[0], ways[-1])


def _shown(plain: Any) -> Sight:
    if plain == 0:
        return AS_WANTED
    return Sight(*plain)


def covering_bytes(covering: Covering) -> bytes:
    """Return `covering` as covering_in_bytes reads it."""
    return json.dumps(covering).encode()


def covering_in_bytes(data: bytes) -> Covering:
    """Return the Covering in `data`; raise one of WRONG_FORM where there is none."""
    return {str(look): tuple(map(str, by)) for look, by in json.loads(data).items()}
