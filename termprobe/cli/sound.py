"""Which bells of the console are wanted."""

import argparse

OF_PRESSES, OF_LOOKS = "presses", "looks"


def add_sound_argument(parser: argparse.ArgumentParser) -> None:
    """Add the option that switches a bell off."""
    parser.add_argument(
        "--mute",
        action="append",
        choices=(OF_PRESSES, OF_LOOKS),
        default=[],
        help="no bell for a wrong press, or none when a look is ready; may be given twice",
    )
