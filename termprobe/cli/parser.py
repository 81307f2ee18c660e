"""The parser of the command line; what somebody typed stands in its complaints as `visible()`."""

import argparse
from typing import NoReturn

from termprobe.notation import visible


class Parser(argparse.ArgumentParser):
    """Takes the words apart; its subcommands have parsers of this kind too."""

    def error(self, message: str) -> NoReturn:
        """Print `message` with nothing raw in it, and end the program."""
        super().error("\n".join(map(visible, message.split("\n"))))
