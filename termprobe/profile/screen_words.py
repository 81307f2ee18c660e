"""What the page of a profile says of graphics, of screens that are sent, and of options."""

from collections.abc import Iterator

from termprobe.notation import show
from termprobe.profile.model import Command, Display, Option
from termprobe.profile.variants import variants
from termprobe.profile.vocabulary import OF_CONTENTS, OF_SCREEN, OF_SCREEN_TO_CURSOR
from termprobe.yamlvalues import Template


def graphics_in_words(display: Display) -> Iterator[str]:
    """Yield what the graphics set shows, where there is one."""
    graphics = display.graphics
    if graphics is not None:
        last = graphics.first + len(graphics.shows) - 1
        yield f"graphics set, {graphics.first:02X}h to {last:02X}h: {graphics.shows}"
        yield f"source: {graphics.source}"


def contents_in_words(command: Command) -> Iterator[str]:
    """Yield how rows of the screen are sent, where a reply has some."""
    slots = set((command.reply or Template()).slots)
    if slots & set(OF_CONTENTS) and not command.sends_blanks:
        yield "without the blanks at the end of a row"
    if slots & {OF_SCREEN, OF_SCREEN_TO_CURSOR}:
        yield f"{show(command.row_end)} between rows"


def shown_by(option: Option) -> Iterator[str]:
    """Yield what the display shows by where an option stands."""
    for position, variant in option.variants.items():
        shown = variants()[variant]
        yield f"{position}: {shown.shows} for the open codes of ISO 646 ({shown.source})"
    for position, rows in option.rows.items():
        yield f"{position}: {rows} rows lit"
