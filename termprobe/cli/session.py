"""`termprobe session`: the full-screen companion at the bench, or plain prompts without one."""

import argparse

from termprobe.cli.held_session import hold_session
from termprobe.cli.request import (
    add_attention_argument,
    add_bench_arguments,
    add_stage_argument,
)
from termprobe.cli.sound import add_sound_argument


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    add_bench_arguments(parser)
    add_stage_argument(parser)
    add_attention_argument(parser)
    add_sound_argument(parser)
    parser.add_argument(
        "--plain",
        action="store_true",
        help="plain prompts, line by line, as for screen readers; "
        "by itself where input or output is no terminal",
    )
    parser.epilog = (
        "Port, profile, script and board are asked for where they are not told; the\n"
        "last answers are offered again.\n\n"
        "Practice: --port sim: is a simulated board, sim:FAULT one with that fault, and\n"
        "sim:random one with a fault that is told only at the end."
    )


def run(arguments: argparse.Namespace) -> int:
    """Hold the session; return the exit code of its verdict, 130 where it was interrupted."""
    return hold_session(arguments)
