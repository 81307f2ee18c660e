"""One builder at one board, asked what tells most next until the class of the fault is sure."""

import random
from typing import NamedTuple

from termprobe.diagnosis.error_rates import USUAL_RATES

from . import stage
from .person import Person, by_errors

MOST_LOOKS = 30


class Sitting(NamedTuple):
    """How one builder fared."""

    name: str
    looks: int
    is_first: bool
    """The class of the fault leads."""
    is_named: bool
    """The fault is among those of the first suspect, as a report names it."""
    stated: float
    """How probable the leading class was said to be at the end."""
    bits: float
    """What the first look left to be told, as the odds of all faults have it."""
    pictures_s: list[float]
    """How long the pictures took, each time."""
    next_s: list[float]
    """How long it took to choose the next look, each time."""


def sit(name, has_pictures, errors, seed, is_fewest, rates=USUAL_RATES):
    """Return the Sitting at a board with the fault `name`; of the answers a share is wrong.

    The first look is one that shows the fault. `rates` are what is thought of the answers.
    """
    chance = random.Random(seed)
    first = chance.choice(stage.looks_that_show(name))
    person = Person(name, has_pictures, by_errors(errors, chance), chance, rates)
    return played(person, name, first, is_fewest)


def played(person, name, first, is_fewest):
    """Return the Sitting of `person` that begins with the look `first`."""
    look, bits = first, None
    while look in stage.looks() and len(person.asked) < MOST_LOOKS:
        person.look(stage.looks()[look])
        person.conclude()
        if bits is None:
            bits = person.bits_left()
        if person.is_sure():
            break
        look = person.next_look(is_fewest)
    return Sitting(
        name,
        len(person.asked),
        person.leads(),
        person.is_named(),
        person.leading()[0],
        bits,
        person.pictures_s,
        person.next_s,
    )
