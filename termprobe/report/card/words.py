"""The sentences and headings of a card, the same in every format of it. Pure."""

from collections.abc import Iterator

from termprobe.notation import visible
from termprobe.report.card.facts import Card

AS_EXPECTED_BOX, DIFFERS_BOX, NOT_TRIED_BOX = "as expected", "differs", "not tried"
BOXES = (AS_EXPECTED_BOX, DIFFERS_BOX, NOT_TRIED_BOX)
BLANKS = (
    "Board, serial number",
    "Revision",
    "Builder",
    "Batch of parts",
    "What is fitted, if not all",
    "Date, and time if you like",
)
"""What is written at the top, a line each, in the order of the form."""
CAUTIONS, HOW, CODES = "Cautions: read these first", "How to go on", "Codes that are no character"
LEFT_OFF, NOTES = "Not on this card", "Notes on the whole"
READING_BLANK = "Reading, with its unit"
KEY_HEADS = ("No.", "Press", "Must send", "Hex", *BOXES, "Code seen, or note")
CODE_HEADS = ("Code", "Hex", "On the board's keyboard")


def card_title(card: Card) -> str:
    """Return what heads the card."""
    return f"Test card: {card.title}"


def made_of(card: Card) -> str:
    """Return in one line of what the card is made."""
    return f"{card.terminal}; script {card.script}; plan {card.plan}"


def how_to(card: Card) -> Iterator[str]:
    """Yield how the card is used, a sentence or two each."""
    yield (
        "No computer is needed. In local mode the board shows what its own keyboard types; for "
        "longer texts use any sender of bytes, such as another terminal, set to "
        f"{card.line}."
    )
    yield (
        'Bytes stand as sent: text in quotes, control codes by name, "*" x 80 for eighty of them. '
        "Each screen is drawn as it must be once all bytes of its item are sent, rows and columns "
        "counted from 0."
    )
    yield (
        "Tick one box an item, and write what differs. What is not ticked counts as not answered. "
        "Where something says SWITCH OFF, do so before you write."
    )
    yield (
        "Back at a computer, termprobe card --format form makes an empty form of this card, and "
        "termprobe card --fill FORM a run file of what you type into it."
    )


def left_off_in_words(card: Card) -> str:
    """Return what takes a computer on the line, in one sentence; empty for nothing."""
    if not card.left_off:
        return ""
    return f"It takes a computer on the line: {'; '.join(card.left_off)}."


def titled(number: str, title: str) -> str:
    """Return `3. The code chart`."""
    return f"{number}. {visible(title)}"


def cautions_in_words(numbers: tuple[int, ...]) -> str:
    """Return `Caution 2 and 3 hold here.`; nothing where none does."""
    if not numbers:
        return ""
    told = " and ".join(map(str, numbers))
    return f"Caution {told} must have been read."
