"""`termprobe profile`: list the profiles of terminals, show one, check a file."""

import argparse
import json
import os

from termprobe import yamlfile
from termprobe.cli.findings_told import tell_findings
from termprobe.errors import EXIT_PASSED, FileError
from termprobe.folding import folded
from termprobe.notation import visible
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.profile.show import as_data, page
from termprobe.profile.simulated import lack_in_words

LIST_WIDTH = 80


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare `list`, `show P [--json]` and `check FILE`."""
    actions = parser.add_subparsers(dest="action", metavar="ACTION", required=True)
    actions.add_parser(
        "list",
        help="the profiles that come with termprobe",
        description="List the profiles that come with termprobe.",
    )
    show = actions.add_parser(
        "show", help="all that a profile says", description="Show all that a profile says."
    )
    show.add_argument("profile", metavar="P", help="id of a profile, or path to a .yaml file")
    show.add_argument(
        "--json", action="store_true", help="one JSON document, under the names of the file"
    )
    check = actions.add_parser(
        "check",
        help="every mistake in a profile",
        description="Read a profile and name every mistake with its line and column.",
    )
    check.add_argument("file", metavar="FILE", help="path to a .yaml file, or id of a profile")


def run(arguments: argparse.Namespace) -> int:
    """Carry out the action; return the exit code."""
    return {"list": _list, "show": _show, "check": _check}[arguments.action](arguments)


def _list(_: argparse.Namespace) -> int:
    ids = yamlfile.shipped_ids("profiles")
    width = max(map(len, ids))
    for profile_id in ids:
        profile = profiles.load(profile_id)
        print("\n".join(folded(f"{profile_id:{width}}  ", profile.title, LIST_WIDTH)))
        lack = lack_in_words(profile)
        if lack:
            print("\n".join(folded(" " * (width + 2), lack, LIST_WIDTH)))
    return EXIT_PASSED


def _show(arguments: argparse.Namespace) -> int:
    profile = profiles.load(arguments.profile)
    if arguments.json:
        print(json.dumps(as_data(profile), indent=2))
    else:
        print("\n".join(page(profile)))
    return EXIT_PASSED


def _check(arguments: argparse.Namespace) -> int:
    try:
        profile = _read(arguments.file)
    except FileError as error:
        return tell_findings(error)
    holds = f"{len(profile.commands)} commands"
    if profile.keyboard:
        holds += f", {len(profile.keyboard.keys)} keys"
    print(f"{visible(arguments.file)}: good ({visible(profile.id)}, {holds})")
    return EXIT_PASSED


def _read(name: str) -> Profile:
    """Return the profile of the file `name`, whatever its ending, or of that id."""
    if os.path.exists(name):
        return profiles.parse(yamlfile.read_text(name), name)
    return profiles.load(name)
