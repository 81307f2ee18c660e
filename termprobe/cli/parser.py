"""The parser of the command line; what somebody typed stands in its complaints as `visible()`."""

import argparse
import os
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NoReturn

from termprobe.findings import nearest, nearest_word
from termprobe.notation import visible

ENDS_OPTIONS = "--"


class Parser(argparse.ArgumentParser):
    """Takes the words apart; its subcommands have parsers of this kind too.

    Every complaint of one names the nearest to each option that is none, and to a word that is not
    among those to choose from.
    """

    _words: tuple[str, ...] = ()
    """Those that it takes apart, with those of its subcommands."""

    def parse_known_args(
        self, args: Iterable[str] | None = None, namespace: Any = None
    ) -> tuple[Any, list[str]]:
        """Take the words apart; complain of those that are not known."""
        self._words = tuple(args or ())
        found, unknown = super().parse_known_args(self._words, namespace)
        if unknown:
            self.error(_not_known(self.prog, unknown))
        return found, unknown

    def error(self, message: str) -> NoReturn:
        """Print `message` with nothing raw in it and what may have been meant; end the program."""
        told = message + "".join(self._meant())
        super().error("\n".join(map(visible, told.split("\n"))))

    def _meant(self) -> Iterator[str]:
        """Yield for each option that is none which one is nearest."""
        known = [option for option in self._option_string_actions if option.startswith("--")]
        bare = [option.removeprefix("--") for option in known]
        for word in self._words:
            option = word.partition("=")[0]
            if word == ENDS_OPTIONS or (self._subparsers and not word.startswith("-")):
                return
            if option.startswith("--") and not any(one.startswith(option) for one in known):
                near = nearest_word(option.removeprefix("--"), bare)
                if near:
                    yield f'; for {option} nearest is "--{near}"'

    def _check_value(self, action: argparse.Action, value: Any) -> None:
        """Refuse a word that is not among those to choose from."""
        if action.choices is None or value in action.choices:
            return
        choices = [str(one) for one in action.choices]
        raise argparse.ArgumentError(
            action, f'must be one of {", ".join(choices)}, not "{value}"{nearest(value, choices)}'
        )


def _not_known(command: str, unknown: Sequence[str]) -> str:
    """Return what is wrong with words that a command does not know."""
    given = " ".join(unknown)
    if all(map(os.path.isfile, unknown)):
        return (
            f"no more files must be named than `{command} --help` says, and a pattern may fit "
            f"several; not {given} as well"
        )
    return f"words must be those of `{command} --help`, not {given}"
