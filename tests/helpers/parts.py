"""The command line of what is played or attacked in parts, each a module of its own."""

import argparse
import time


def parser_of(program, doc, parts):
    """Return a parser that takes words of `parts`, a seed and a count.

    `parts` maps a word to a module, whose first line says what it is for.
    """
    told = "".join(f"\n  {name:<15}{_first_line(part)}" for name, part in parts.items())
    parser = argparse.ArgumentParser(
        prog=f"python -m {program}",
        description=f"{doc}\nParts:{told}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("parts", nargs="*", metavar="PART", help="all of them by default")
    parser.add_argument("--seed", type=int, default=1)
    return parser


def parsed(parser, parts):
    """Return the arguments; refuse a part that there is not."""
    arguments = parser.parse_args()
    unknown = [part for part in arguments.parts if part not in parts]
    if unknown:
        parser.error(f"PART must be one of {', '.join(parts)}, not {unknown[0]}")
    return arguments


def _first_line(part):
    return part.__doc__.partition("\n")[0]


def in_turn(arguments, parts, carry_out):
    """Return what `carry_out` makes of each part; print how long each took."""
    found = []
    for name in arguments.parts or parts:
        start_s = time.monotonic()
        found.append(carry_out(parts[name]))
        print(f"\n{name}: {time.monotonic() - start_s:.0f} s, seed {arguments.seed}", flush=True)
    return found
