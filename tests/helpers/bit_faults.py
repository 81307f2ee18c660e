"""Screens of random text, and faults of single bits put into them."""

import random

from termprobe.report.evidence_words import sentences
from termprobe.terminal.screen import differences
from termprobe.verdict.evidence import of_screen

ROWS, COLUMNS = 24, 80
TEXT = [chr(code) for code in range(0x20, 0x7F)]


def screen(seed, blank_share=0.0):
    """Return rows of random characters, so large a share of them blank."""
    chance = random.Random(seed)

    def character():
        return " " if chance.random() < blank_share else chance.choice(TEXT[1:])

    cells = [character() for _ in range(ROWS * COLUMNS)]
    starts = range(0, len(cells), COLUMNS)
    return tuple("".join(cells[start : start + COLUMNS]) for start in starts)


def shown(code):
    """Return the character that a screen record shows for a code.

    Control codes are shown as control pictures.
    """
    pictures = {0x7F: "\u2421"} | {control: chr(0x2400 + control) for control in range(0x20)}
    return pictures.get(code, chr(code))


def stuck(bit, value):
    """Return the function of a code that sets one bit."""
    mask = 1 << bit
    return {1: lambda code: code | mask, 0: lambda code: code & ~mask}[value]


def faulty(rows, change, holds=lambda row, column, character: True):
    """Return the rows with each code changed where `holds` says so."""

    seen = [list(text) for text in rows]
    for row, text in enumerate(rows):
        for column, character in enumerate(text):
            if holds(row, column, character):
                seen[row][column] = shown(change(ord(character)))
    return tuple(map("".join, seen))


def told(expected, seen, **options):
    """Return what the evidence says in words, nothing where nothing differs."""
    evidence = of_screen(expected, differences(expected, seen), **options)
    return sentences(evidence) if evidence else ()
