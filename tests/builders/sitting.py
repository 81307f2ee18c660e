"""One builder at one board, asked what tells most next until the class of the fault is sure."""

import random
from typing import NamedTuple

from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.journal.records import AS_EXPECTED

from . import stage
from .person import Person, by_errors

MOST_LOOKS = 30
MOST_CONFIRMED = 60
"""So many looks are asked at most where all are, those asked once more among them."""


MOST_ODD = 7
"""So many are asked of a board whose fault may be of no kind that is known."""


class Sitting(NamedTuple):
    """How one builder fared."""

    name: str
    begun: int
    """How many looks it took until one was said to differ."""
    looks: int
    """All of them."""
    again: int
    """How many of these were of a look answered before."""
    confirming: int
    """How many of these, since the class hung on it once it was sure."""
    answers: int
    """All that was answered, regions too."""
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


def sit(name, says, errors, seed, is_fewest, rates=USUAL_RATES):
    """Return the Sitting at a board with the fault `name`; of the answers a share is wrong.

    `says` is one of the words of person.py; `rates` are what is thought of the answers.
    """
    chance = random.Random(seed)
    person = Person(name, says, by_errors(errors, chance), chance, rates)
    return played(person, name, chance, is_fewest)


def played(person, name, chance, is_fewest):
    """Return the Sitting of `person`.

    It begins with looks that show the fault, in an order by chance, until one is said to differ.
    """
    showing = stage.looks_that_show(name)
    for look in chance.sample(showing, len(showing)):
        if person.look(stage.looks()[look]) != AS_EXPECTED:
            break
    person.conclude()
    begun, bits = len(person.asked), person.bits_left()
    confirming = 0
    while True:
        _go_on_until_sure(person, is_fewest)
        if not _confirm(person, MOST_LOOKS, is_fewest):
            break
        confirming += 1
    return Sitting(
        name,
        begun,
        len(person.asked),
        person.again,
        confirming,
        person.answers,
        person.leads(),
        person.is_named(),
        person.leading()[0],
        bits,
        person.pictures_s,
        person.next_s,
    )


def _go_on_until_sure(person, is_fewest, most=MOST_LOOKS):
    """Have `person` look at what tells most next, until a class is sure or nothing tells more."""
    while not person.is_sure() and len(person.asked) < most:
        look = person.next_look(is_fewest)
        if look is None:
            return
        person.look(stage.looks()[look])
        person.conclude()


def _confirm(person, most, is_fewest):
    """Have `person` look at what confirms the class best; return whether there is that.

    At most so many looks are asked altogether.
    """
    if len(person.asked) >= most:
        return False
    look = person.confirming_look(is_fewest)
    if look is None:
        return False
    person.look(stage.looks()[look])
    person.conclude()
    return True


def confirmed(person):
    """Have `person` look once more at all on which the class hangs; return how often that was."""
    before = person.again
    while _confirm(person, MOST_CONFIRMED, True):
        pass
    return person.again - before


def go_on_in_order(person):
    """Have `person` look in order until one look differs, then as a session asks; see MOST_ODD."""
    for step in stage.looks().values():
        if person.look(step) != AS_EXPECTED:
            break
    person.conclude()
    while len(person.asked) < MOST_ODD:
        _go_on_until_sure(person, is_fewest=False, most=MOST_ODD)
        if not _confirm(person, MOST_ODD, is_fewest=False):
            break
