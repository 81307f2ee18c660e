"""What a command prints: into a file of the user's choice, or on standard output."""

import argparse
import contextlib
import io
import sys
from collections.abc import Callable, Iterator
from typing import TextIO

from termprobe.errors import FileError


def add_output_argument(parser: argparse.ArgumentParser) -> None:
    """Add the option that names the file."""
    parser.add_argument(
        "-o", dest="output", metavar="FILE", help="write to FILE instead of standard output"
    )


def add_json_argument(parser: argparse.ArgumentParser) -> None:
    """Add the short word for one of the formats, which every command understands."""
    parser.add_argument(
        "--json",
        action="store_const",
        const="json",
        dest="format",
        help="print one JSON document: the same as --format json",
    )


def add_printing_argument(
    parser: argparse.ArgumentParser, option: str, print_it: Callable[[], None], help: str
) -> None:
    """Add an option by which `print_it` is called, and the program ends."""

    class Print(argparse.Action):
        """Does so, whatever else the command line must have."""

        def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
            print_it()
            parser.exit()

    parser.add_argument(option, action=Print, nargs=0, help=help)


def add_schema_argument(parser: argparse.ArgumentParser, print_schema: Callable[[], None]) -> None:
    """Add the option by which `print_schema` is called, and the program ends."""
    told = "print the JSON Schema of --format json and end"
    add_printing_argument(parser, "--schema", print_schema, told)


WITH_REFERENCES = ("html", "junit", "markdown")
"""Formats in which any character can be written as a number."""


@contextlib.contextmanager
def output(path: str | None, format: str) -> Iterator[TextIO]:
    """Yield what is to be written to in `format`: the file at `path`, or standard output.

    Raises FileError where that file cannot be written.
    """
    if path is None:
        if format in WITH_REFERENCES and isinstance(sys.stdout, io.TextIOWrapper):
            sys.stdout.reconfigure(errors="xmlcharrefreplace")
        yield sys.stdout
        return
    try:
        with open(path, "w", encoding="utf-8") as file:
            yield file
    except OSError as error:
        raise FileError(
            [f"{path}: must be a file that can be written ({error.strerror}); try another -o FILE"]
        ) from None
