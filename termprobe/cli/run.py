"""`termprobe run`: carries out a script, unattended or at plain prompts."""

import argparse

from termprobe.cli.observers import add_observer_arguments
from termprobe.cli.request import (
    add_attention_argument,
    add_bench_arguments,
    add_stage_argument,
)
from termprobe.cli.unattended import carry_out_script


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser)
    add_stage_argument(parser)
    add_attention_argument(parser)
    add_observer_arguments(parser)
    once_named = parser.add_mutually_exclusive_group()
    once_named.add_argument(
        "--carry-on",
        action="store_true",
        help="once one fault explains what failed, go on and expect each screen as a board with "
        "that fault shows it; everything else is judged, and the board fails",
    )
    once_named.add_argument(
        "--until-sure",
        action="store_true",
        help="once looks differ, ask first what tells their causes apart, and stop for the repair "
        "where one fault explains what failed; nobody is asked what to do",
    )
    parser.add_argument(
        "--json", action="store_true", help="print one JSON document instead of the report"
    )
    parser.add_argument(
        "--junit",
        metavar="FILE",
        help="write JUnit XML to FILE as well, for continuous integration",
    )


def run(arguments: argparse.Namespace) -> int:
    """Carry out the run and print its report; return the exit code of its verdict."""
    return carry_out_script(arguments)
