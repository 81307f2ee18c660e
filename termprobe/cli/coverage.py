"""`termprobe coverage`: which faults of the display a script shows, and which it misses."""

import argparse
import json
from typing import TYPE_CHECKING

from termprobe import yamlfile
from termprobe.cli.covering import covered
from termprobe.cli.opened_line import line_format
from termprobe.errors import EXIT_PASSED
from termprobe.plan.effort import Effort, effort
from termprobe.profile import load as profiles
from termprobe.script import load as scripts

if TYPE_CHECKING:
    from termprobe.diagnosis.coverage import Coverage

MISSED_SHOWN = 12


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("--profile", metavar="P", required=True, help="id or path of the profile")
    parser.add_argument("--script", metavar="S", required=True, help="id or path of the script")
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.epilog = (
        "Faults are those of `termprobe sim --faults` that have a part in the display.\n"
        "What no screen can show is among the missed; no reason is proven."
    )


def run(arguments: argparse.Namespace) -> int:
    """Print what the script shows of the faults; return the exit code."""
    from termprobe.cli.kept_dictionary import kept_dictionary
    from termprobe.diagnosis.coverage import coverage_of
    from termprobe.plan.compile import compile_plan  # it loads pyte

    path = yamlfile.find(arguments.profile, "profiles")
    text = yamlfile.read_text(path)
    profile = profiles.parse(text, str(path))
    plan = compile_plan(profile, scripts.load(arguments.script), arguments.script)
    found = coverage_of(kept_dictionary(plan, profile, text), profile)
    cost = effort(covered(plan, profile, text).steps, line_format(profile).character_s)
    if arguments.json:
        print(json.dumps(_document(found, cost), indent=1))
    else:
        print(_page(found, cost, f"{plan.script_id} for {plan.profile_id}"))
    return EXIT_PASSED


def _document(found: "Coverage", cost: Effort) -> dict[str, object]:
    blocks = found.by_block.items()
    return {
        "faults": found.faults,
        "undetectable": [],
        "detected": len(found.detected),
        "missed": list(found.missed),
        "looks": cost.looks,
        "presses": cost.presses,
        "classes": found.classes,
        "by_block": {block: {"faults": of.faults, "detected": of.detected} for block, of in blocks},
        "seconds_of_builder": round(cost.sending_s + cost.looking_s, 1),
        "smallest_set": list(found.smallest_set),
    }


def _page(found: "Coverage", cost: Effort, title: str) -> str:
    seconds = cost.sending_s + cost.looking_s
    proof = "fewest" if found.is_smallest else "fewest found"
    lines = [
        f"{title}: {cost.looks} looks on a good board, about {seconds:.0f} s of the builder",
        f"Shown: {len(found.detected)} of {found.faults} faults that have a part in the display; "
        f"{found.classes} can be told apart by what is seen",
        f"The {proof} looks that show all of these: {', '.join(found.smallest_set)}",
        "",
    ]
    for block, of in found.by_block.items():
        lines.append(f"  {block:<16}{of.detected:>5} of {of.faults:>4}  {100 * of.share:5.1f} %")
    if found.missed:
        lines += ["", f"Missed ({len(found.missed)}): {_some(found.missed)}"]
    return "\n".join(lines)


def _some(names: tuple[str, ...]) -> str:
    shown = ", ".join(names[:MISSED_SHOWN])
    if len(names) > MISSED_SHOWN:
        return f"{shown} and {len(names) - MISSED_SHOWN} more; all with --json"
    return shown
