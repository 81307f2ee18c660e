"""`termprobe profile`: list the profiles of terminals, show one, check a file."""

import os
import sys

from termprobe.errors import EXIT_USAGE, FileError


def add_arguments(parser):
    """Declare `list`, `show P [--json]` and `check FILE`."""
    actions = parser.add_subparsers(dest="action", metavar="list|show|check", required=True)
    actions.add_parser(
        "list",
        help="the profiles that come with termprobe",
        description="Lists the profiles that come with termprobe.",
    )
    show = actions.add_parser(
        "show", help="all that a profile says", description="Shows all that a profile says."
    )
    show.add_argument("profile", metavar="P", help="id of a profile, or path to a .yaml file")
    show.add_argument(
        "--json", action="store_true", help="one JSON document, under the names of the file"
    )
    check = actions.add_parser(
        "check",
        help="every mistake in a profile",
        description="Reads a profile and names every mistake with its line and column.",
    )
    check.add_argument("file", metavar="FILE", help="path to a .yaml file, or id of a profile")


def run(arguments):
    """Carry out the action; return the exit code."""
    return {"list": _list, "show": _show, "check": _check}[arguments.action](arguments)


def _list(_):
    from termprobe import yamlfile
    from termprobe.notation import visible
    from termprobe.profile.load import load

    ids = yamlfile.shipped_ids("profiles")
    for name in ids:
        print(f"{name:{max(map(len, ids))}}  {visible(load(name).title)}")
    return 0


def _show(arguments):
    from termprobe.profile.load import load
    from termprobe.profile.show import as_data, page

    profile = load(arguments.profile)
    if arguments.json:
        import json

        print(json.dumps(as_data(profile), indent=2))
    else:
        print("\n".join(page(profile)))
    return 0


def _check(arguments):
    from termprobe import yamlfile
    from termprobe.notation import visible
    from termprobe.profile import load

    name = arguments.file
    try:
        profile = (
            load.parse(yamlfile.read_text(name), name) if os.path.exists(name) else load.load(name)
        )
    except FileError as error:
        print("\n".join(visible(text) for text in error.findings), file=sys.stderr)
        return EXIT_USAGE
    keys = f", {len(profile.keyboard.keys)} keys" if profile.keyboard else ""
    print(f"{visible(name)}: good ({visible(profile.id)}, {len(profile.commands)} commands{keys})")
    return 0
