"""`termprobe script`: lists, shows and checks scripts of what to try."""

import os
import sys

from termprobe.cli import console
from termprobe.errors import EXIT_PASSED


def add_arguments(parser):
    """Add the words of this command to `parser`."""
    actions = parser.add_subparsers(dest="action", metavar="ACTION", required=True)
    actions.add_parser(
        "list",
        help="the scripts that come with termprobe",
        description="Lists the scripts that come with termprobe.",
    )
    show = actions.add_parser(
        "show",
        help="one script; with --profile the plan that it makes",
        description="Shows what a script tries; with --profile each step's bytes, expected screen and question.",
    )
    show.add_argument("script", metavar="S", help="id or path of the script")
    show.add_argument("--profile", metavar="P", help="id or path of a profile")
    show.add_argument(
        "--stage",
        metavar="STAGE",
        action="append",
        default=[],
        help="only this stage; may be given several times",
    )
    show.add_argument("--json", action="store_true", help="print one JSON document")
    check = actions.add_parser(
        "check",
        help="whether a file is a good script, with every finding",
        description="Reads a script, compiles it against every profile that comes with termprobe, and names every mistake.",
    )
    check.add_argument("file", metavar="FILE", help="path to a .yaml file, or id of a script")


def run(arguments):
    """Carry out the action; return the exit code."""
    return {"list": _list, "show": _show, "check": _check}[arguments.action](arguments)


def _list(_):
    from termprobe import yamlfile
    from termprobe.script.load import load

    for script_id in yamlfile.shipped_ids("scripts"):
        print(f"{script_id:<16}{load(script_id).title}")
    return EXIT_PASSED


def _check(arguments):
    from termprobe import yamlfile
    from termprobe.plan.compile import compile_plan
    from termprobe.profile.load import load as load_profile
    from termprobe.script.load import load, parse

    name = arguments.file
    script = parse(yamlfile.read_text(name), name) if os.path.exists(name) else load(name)
    for profile_id in yamlfile.shipped_ids("profiles"):
        compile_plan(load_profile(profile_id), script, arguments.file)
    steps = sum(len(stage.steps) for stage in script.stages)
    print(f"{arguments.file}: good, {len(script.stages)} stages, {steps} steps")
    return EXIT_PASSED


def _show(arguments):
    from termprobe.profile.load import load as load_profile
    from termprobe.script.load import load

    script = load(arguments.script)
    if not arguments.profile:
        print(_outline_json(script) if arguments.json else _outline(script))
        return EXIT_PASSED
    from termprobe.plan.choose import choose_stages
    from termprobe.plan.compile import compile_plan

    profile = load_profile(arguments.profile)
    plan = compile_plan(profile, script, arguments.script)
    if arguments.stage:
        plan = choose_stages(plan, arguments.stage)
    print(_plan_json(plan, profile) if arguments.json else _plan(plan, profile))
    return EXIT_PASSED


def _outline(script):
    lines = [f"{script.id}: {script.title}"]
    for stage in script.stages:
        needs = f" (needs {', '.join(stage.needs)})" if stage.needs else ""
        lines += ["", f"{stage.id}: {stage.title}{needs}"]
        lines += [f"  {step.id:<34}{step.kind:<12}{step.title}" for step in stage.steps]
    return "\n".join(lines)


def _outline_json(script):
    import json

    return json.dumps(
        {
            "id": script.id,
            "title": script.title,
            "stages": [
                {
                    "id": stage.id,
                    "title": stage.title,
                    "needs": list(stage.needs),
                    "steps": [
                        {"id": step.id, "kind": step.kind, "title": step.title}
                        for step in stage.steps
                    ],
                }
                for stage in script.stages
            ],
        },
        indent=1,
    )


def _line(profile):
    from termprobe.link.base import LineFormat

    needs = profile.link
    return LineFormat(needs.speed_baud, needs.data_bits, needs.parity, needs.stop_bits)


def _plan(plan, profile):
    from termprobe.plan.effort import effort
    from termprobe.plan.show import show_step

    columns = max(60, min(100, console.columns(sys.stdout) or 100))
    line = _line(profile)
    cost = effort(plan.steps, line.character_s)
    blocks = [
        f"{plan.script_id} for {plan.profile_id}: {len(plan.steps)} steps, plan {plan.hash[:12]}\n"
        f"{_counted(cost.looks, 'look')}, {cost.sending_s:.0f} s of sending at {line}, about {cost.looking_s:.0f} s of looking, "
        f"{_counted(cost.presses, 'key press')} of the builder"
    ]
    for stage in plan.stages:
        steps = plan.of_stage(stage.id)
        if steps:
            blocks.append(f"==== {stage.title} ({stage.id})")
            blocks += [show_step(step, columns) for step in steps]
    return "\n\n".join(blocks)


def _counted(count, word):
    """Return `1 look`, `2 looks`, `2 key presses`."""
    return f"{count} {word}" + ("" if count == 1 else "es" if word.endswith("s") else "s")


def _plan_json(plan, profile):
    import dataclasses
    import json

    from termprobe.plan.document import plan_document
    from termprobe.plan.effort import effort

    cost = dataclasses.asdict(effort(plan.steps, _line(profile).character_s))
    return json.dumps(
        plan_document(plan) | {"effort": {name: round(value, 1) for name, value in cost.items()}},
        indent=1,
    )
