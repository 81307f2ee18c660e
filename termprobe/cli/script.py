"""`termprobe script`: lists, shows and checks scripts of what to try."""

import argparse
import json
import os
import sys
from dataclasses import asdict

from termprobe import yamlfile
from termprobe.cli import console
from termprobe.cli.opened_line import line_format
from termprobe.cli.request import add_stage_argument, stage_choice
from termprobe.errors import EXIT_PASSED
from termprobe.plan.document import plan_document
from termprobe.plan.effort import Effort, effort
from termprobe.plan.model import Plan
from termprobe.plan.possible import check_possible
from termprobe.plan.show import show_step
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.script import load as scripts
from termprobe.script.model import Script, ScriptStage

NARROWEST, WIDEST = 60, 100
"""Console columns that a plan is drawn in."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    actions = parser.add_subparsers(dest="action", metavar="ACTION", required=True)
    actions.add_parser(
        "list",
        help="the scripts that come with termprobe",
        description="List the scripts that come with termprobe.",
    )
    show = actions.add_parser(
        "show",
        help="one script; with --profile the plan that it makes",
        description="Show what a script tries; with --profile each step's bytes, "
        "expected screen and question.",
    )
    show.add_argument("script", metavar="S", help="id or path of the script")
    show.add_argument("--profile", metavar="P", help="id or path of a profile")
    add_stage_argument(show)
    show.add_argument("--json", action="store_true", help="print one JSON document")
    check = actions.add_parser(
        "check",
        help="whether a file is a good script, with every finding",
        description="Read a script, compile it against every profile that comes with "
        "termprobe, and name every mistake.",
    )
    check.add_argument("file", metavar="FILE", help="path to a .yaml file, or id of a script")
    check.add_argument(
        "--profile",
        action="append",
        default=[],
        metavar="P",
        help="id or path of a profile of your own to check it with as well; may be given "
        "several times",
    )


def run(arguments: argparse.Namespace) -> int:
    """Carry out the action; return the exit code."""
    return {"list": _list, "show": _show, "check": _check}[arguments.action](arguments)


def _list(_: argparse.Namespace) -> int:
    for script_id in yamlfile.shipped_ids("scripts"):
        print(f"{script_id:<16}{scripts.load(script_id).title}")
    return EXIT_PASSED


def _check(arguments: argparse.Namespace) -> int:
    from termprobe.plan.compile import compile_plan  # it loads pyte

    name = arguments.file
    script = _read(name)
    known = [profiles.load(id) for id in (*yamlfile.shipped_ids("profiles"), *arguments.profile)]
    check_possible(script, known, name).refuse()
    for profile in known:
        compile_plan(profile, script, name)
    steps = sum(len(stage.steps) for stage in script.stages)
    print(f"{name}: good, {len(script.stages)} stages, {steps} steps")
    return EXIT_PASSED


def _read(name: str) -> Script:
    """Return the script of the file `name`, whatever its ending, or of that id."""
    if os.path.exists(name):
        return scripts.parse(yamlfile.read_text(name), name)
    return scripts.load(name)


def _show(arguments: argparse.Namespace) -> int:
    script = scripts.load(arguments.script)
    if arguments.profile:
        profile = profiles.load(arguments.profile)
        plan = _plan_of(script, profile, arguments)
        shown = _plan_json(plan, profile) if arguments.json else _plan(plan, profile)
    else:
        shown = _outline_json(script) if arguments.json else _outline(script)
    print(shown)
    return EXIT_PASSED


def _plan_of(script: Script, profile: Profile, arguments: argparse.Namespace) -> Plan:
    """Return the plan of the stages asked for."""
    from termprobe.plan.compile import compile_plan  # it loads pyte

    plan = compile_plan(profile, script, arguments.script)
    choice = stage_choice(arguments.stage)
    if choice:
        plan = choice(profile, plan)
    return plan


def _outline(script: Script) -> str:
    lines = [f"{script.id}: {script.title}"]
    for stage in script.stages:
        needs = f" (needs {', '.join(stage.needs)})" if stage.needs else ""
        lines += ["", f"{stage.id}: {stage.title}{needs}"]
        lines += [f"  {step.id:<34}{step.kind:<12}{step.title}" for step in stage.steps]
    return "\n".join(lines)


def _outline_json(script: Script) -> str:
    stages = [_stage_entry(stage) for stage in script.stages]
    return json.dumps({"id": script.id, "title": script.title, "stages": stages}, indent=1)


def _stage_entry(stage: ScriptStage) -> dict[str, object]:
    steps = [{"id": step.id, "kind": step.kind, "title": step.title} for step in stage.steps]
    return {"id": stage.id, "title": stage.title, "needs": list(stage.needs), "steps": steps}


def _effort(plan: Plan, profile: Profile) -> Effort:
    return effort(plan.steps, line_format(profile).character_s)


def _plan(plan: Plan, profile: Profile) -> str:
    columns = console.columns(sys.stdout) or WIDEST
    columns = max(NARROWEST, min(WIDEST, columns))
    blocks = [
        f"{plan.script_id} for {plan.profile_id}: {len(plan.steps)} steps, plan {plan.hash[:12]}\n"
        f"{_cost(plan, profile)}"
    ]
    for stage in plan.stages:
        steps = plan.of_stage(stage.id)
        if steps:
            blocks.append(f"==== {stage.title} ({stage.id})")
            blocks += [show_step(step, columns) for step in steps]
    return "\n\n".join(blocks)


def _cost(plan: Plan, profile: Profile) -> str:
    """Return in one line what the plan costs of line and builder."""
    cost = _effort(plan, profile)
    return (
        f"{_counted(cost.looks, 'look', 'looks')}, "
        f"{cost.sending_s:.0f} s of sending at {line_format(profile)}, "
        f"about {cost.looking_s:.0f} s of looking, "
        f"{_counted(cost.presses, 'key press', 'key presses')} of the builder"
    )


def _counted(count: int, one: str, many: str) -> str:
    """Return `1 look`, `2 looks`."""
    return f"{count} {one if count == 1 else many}"


def _plan_json(plan: Plan, profile: Profile) -> str:
    cost = asdict(_effort(plan, profile))
    rounded = {name: round(value, 1) for name, value in cost.items()}
    return json.dumps(plan_document(plan) | {"effort": rounded}, indent=1)
