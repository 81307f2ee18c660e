"""Plays builders who choose from pictures, on boards with a fault each, and prints how they fare.

    .venv/bin/python -m tests.builders.pictures                  100 faults, drawn by a seed
    .venv/bin/python -m tests.builders.pictures --every          every fault that a look can show
    .venv/bin/python -m tests.builders.pictures --errors 0.05 --count 40 --seed 2

The first look is one that shows the fault; then each look is the one that tells most next (by
--by-seconds in a second of the builder's time), until a class of faults that no look parts has
95 %, or no look tells more. Of the wrong answers half pass a
look that differs, and half choose another picture; a look that is right is then said to differ.
Each line gives the share with its exact 95 % interval (Clopper and Pearson).
"""

import argparse
import random
import statistics
import sys
import time
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from helpers.dictionaries import of_acceptance, shown_faults  # noqa: E402 - behind the path to it
from helpers.intervals import clopper_pearson  # noqa: E402 - behind the path to it
from helpers.picture_eyes import PictureEyes  # noqa: E402 - behind the path to it
from helpers.scripts import SINGLE, acceptance  # noqa: E402 - behind the path to it
from helpers.virtual_builders import looks_to_play  # noqa: E402 - behind the path to it

MOST_LOOKS = 20
PLAN = acceptance()
LOOKS = {step.id: step for step in looks_to_play(PLAN)}


class Sitting(NamedTuple):
    """How one builder fared."""

    name: str
    looks: int
    is_first: bool
    """The class of the fault leads."""
    is_named: bool
    """The fault is among those of the first suspect, as a report names it."""
    shares: list
    """How probable it was said to be that one of the pictures is what is seen, each time."""
    waits_s: list
    """How long the pictures took, each time."""


def sit(dictionary, name, errors, seed, is_fewest):
    chance = random.Random(seed)
    shown = dictionary.faults[name].alone
    showing = [look for look, sight in zip(dictionary.looks, shown, strict=True) if sight.picture]
    eyes = PictureEyes(SINGLE, PLAN, dictionary, name, errors, chance)
    look = chance.choice(showing)
    while look in LOOKS and len(eyes.asked) < MOST_LOOKS:
        eyes.look(LOOKS[look])
        if eyes.is_sure():
            break
        look = eyes.next_look(is_fewest)
    return Sitting(name, len(eyes.asked), eyes.leads(), eyes.is_named(), eyes.shares, eyes.waits_s)


def share(title, count, of):
    lower, upper = clopper_pearson(count, of)
    print(f"  {title}: {count} of {of}, {count / of:.1%} ({lower:.1%} to {upper:.1%})", flush=True)


def play(dictionary, names, errors, seed, is_fewest):
    print(f"Eight pictures, {errors:.0%} of the answers wrong, {len(names)} faults", flush=True)
    start_s = time.monotonic()
    found = [
        sit(dictionary, name, errors, seed + number, is_fewest) for number, name in enumerate(names)
    ]
    share("true class first", sum(one.is_first for one in found), len(found))
    share("fault named by the first suspect", sum(one.is_named for one in found), len(found))
    looks = sorted(one.looks for one in found)
    ninetieth = looks[min(len(looks) * 9 // 10, len(looks) - 1)]
    print(
        f"  looks: {statistics.mean(looks):.1f} on average, {ninetieth} in the 90th percentile, "
        f"{looks[-1]} at most"
    )
    waits_s = sorted(wait_s for one in found for wait_s in one.waits_s)
    print(
        f"  pictures there after {statistics.median(waits_s):.2f} s at the median, "
        f"{waits_s[len(waits_s) * 9 // 10]:.2f} s in the 90th percentile"
    )
    odd = [one.name for one in found if not one.is_first]
    print(f"  not first: {', '.join(odd) or 'none'}")
    print(f"  {time.monotonic() - start_s:.0f} s", flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--every", action="store_true", help="every fault, not a sample")
    parser.add_argument("--count", type=int, default=100, help="faults in a sample")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--errors", type=float, action="append", help="0, 0.05 and 0.1 by default")
    parser.add_argument(
        "--by-seconds", action="store_true", help="the looks that tell most in a second"
    )
    arguments = parser.parse_args()
    dictionary = of_acceptance()
    names = shown_faults(dictionary)
    if not arguments.every:
        names = random.Random(arguments.seed).sample(names, arguments.count)
    for errors in arguments.errors or (0.0, 0.05, 0.1):
        play(dictionary, names, errors, arguments.seed, not arguments.by_seconds)


if __name__ == "__main__":
    main()
