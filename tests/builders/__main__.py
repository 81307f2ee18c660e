"""Plays builders with given error rates on boards with every fault, and prints how they fare.

    .venv/bin/python -m tests.builders                 a sample
    .venv/bin/python -m tests.builders --every         every fault that a look can show
    .venv/bin/python -m tests.builders --errors 0.05 --count 40 --seed 2

Read: all looks of acceptance, whole screens read. Yes and no: looks chosen one by one, each the one
that tells most next, until a class that no look parts
has 95 %, or no look tells more. Pairs: two faults at once.
Each line gives the share with its exact 95 % interval (Clopper and Pearson).
"""

import argparse
import random
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from helpers.dictionaries import of_acceptance, shown_faults  # noqa: E402 - behind the path to it
from helpers.intervals import clopper_pearson  # noqa: E402 - behind the path to it
from helpers.scripts import SINGLE, acceptance  # noqa: E402 - behind the path to it
from helpers.virtual_builders import (  # noqa: E402 - behind the path to it
    Eyes,
    Reader,
    looks_to_play,
    records_of,
)
from termprobe.diagnosis.diagnose import diagnose  # noqa: E402 - behind the path to it
from termprobe.verdict.judge import judge  # noqa: E402 - behind the path to it

ENOUGH = 0.95
MOST_LOOKS = 20
PLAN = acceptance()
LOOKS = {step.id: step for step in looks_to_play(PLAN)}


def signature(performance):
    """Return by which looks a fault is shown."""
    return tuple(bool(sight.picture) for sight in performance.alone)


def conclusion(dictionary, faults, observer, looks=None):
    records = records_of(SINGLE, PLAN, faults, observer, looks)
    return diagnose(SINGLE, PLAN, records, judge(PLAN, records), dictionary)


def place_of(name, found):
    """Return which of the suspects has the fault, from 0; None where none has."""
    for number, suspect in enumerate(found.suspects):
        if name in suspect.faults:
            return number
    return None


def share(title, count, of):
    lower, upper = clopper_pearson(count, of)
    print(f"  {title}: {count} of {of}, {count / of:.1%} ({lower:.1%} to {upper:.1%})", flush=True)


def read(dictionary, names):
    print(f"Whole screens read, {len(names)} faults")
    found = {name: conclusion(dictionary, [name], Reader()) for name in names}
    places = [place_of(name, one) for name, one in found.items()]
    share("true class first", places.count(0), len(places))
    share("explained", sum(one.is_explained for one in found.values()), len(found))


class Sitting:
    """A builder with `errors` at a board with one fault, asked what tells most next."""

    def __init__(self, dictionary, name, errors, seed):
        self._dictionary, self._name = dictionary, name
        chance = random.Random(seed)
        shown = dictionary.faults[name].alone
        showing = [
            look for look, sight in zip(dictionary.looks, shown, strict=True) if sight.picture
        ]
        self.asked = [chance.choice(showing or list(LOOKS))]
        self._seed, self._errors = seed, errors
        self.found = None

    def play(self):
        """Ask on, look after look; the answers to those before stay as they were."""
        while True:
            observer = Eyes(self._seed, self._errors)
            looks = [LOOKS[look] for look in self.asked]
            self.found = conclusion(self._dictionary, [self._name], observer, looks)
            is_done = self._is_sure() or self.found.next not in LOOKS
            if is_done or len(self.asked) >= MOST_LOOKS:
                return self
            self.asked.append(self.found.next)

    def _is_sure(self):
        """Return whether one class has enough, and no look could part it."""
        if not self.found.suspects or self.found.suspects[0].probability < ENOUGH:
            return False
        known = self._dictionary.faults
        shown = {signature(known[name]) for name in self.found.suspects[0].faults if name in known}
        return len(shown) == 1


def yes_and_no(dictionary, names, errors, seed):
    print(f"Yes and no, {errors:.0%} of the answers wrong, {len(names)} faults")
    start_s = time.monotonic()
    sittings = {
        name: Sitting(dictionary, name, errors, seed + number).play()
        for number, name in enumerate(names)
    }
    places = [place_of(name, one.found) for name, one in sittings.items()]
    looks = [len(one.asked) for one in sittings.values()]
    share("true class first", places.count(0), len(places))
    share("among the first three", sum(place in (0, 1, 2) for place in places), len(places))
    print(f"  looks: {statistics.mean(looks):.1f} on average, {max(looks)} at most")
    each_s = (time.monotonic() - start_s) / sum(looks)
    print(f"  {each_s * 1000:.0f} ms for each look, playing included")


def pairs(dictionary, names, count, seed):
    print(f"Two faults at once, whole screens read, {count} pairs")
    chance = random.Random(seed)
    drawn = [chance.sample(names, 2) for _ in range(count)]
    found = [conclusion(dictionary, pair, Reader()) for pair in drawn]
    named = sum(
        any(set(one.faults) == set(pair) for one in each.pairs)
        for pair, each in zip(drawn, found, strict=True)
    )
    share("held for one fault", sum(one.is_explained for one in found), count)
    share("both named", named, count)


def good_boards(dictionary, errors, count, seed):
    print(f"A good board, {errors:.0%} of the answers wrong, {count} runs of all looks")
    found = [conclusion(dictionary, [], Eyes(seed + number, errors)) for number in range(count)]
    accused = sum(one.is_explained and bool(one.suspects) for one in found)
    share("a fault said to explain it", accused, count)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--every", action="store_true", help="every fault, not a sample")
    parser.add_argument("--count", type=int, default=24, help="faults in a sample, and pairs")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--errors", type=float, action="append", help="0, 0.05 and 0.1 by default")
    arguments = parser.parse_args()
    dictionary = of_acceptance()
    names = shown_faults(dictionary)
    drawn = names
    if not arguments.every:
        drawn = random.Random(arguments.seed).sample(names, arguments.count)
    read(dictionary, drawn)
    for errors in arguments.errors or (0.0, 0.05, 0.1):
        yes_and_no(dictionary, drawn, errors, arguments.seed)
        good_boards(dictionary, errors, arguments.count, arguments.seed)
    pairs(dictionary, names, arguments.count, arguments.seed)


if __name__ == "__main__":
    main()
