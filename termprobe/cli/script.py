"""`termprobe script`: lists, shows and checks scripts of what to try."""

import argparse
import json
import os
import sys
from collections.abc import Container, Sequence
from dataclasses import asdict

from termprobe import yamlfile
from termprobe.cli import console
from termprobe.cli.covering import covered
from termprobe.cli.findings_told import tell_findings
from termprobe.cli.opened_line import line_format
from termprobe.cli.request import add_stage_argument, stage_choice
from termprobe.errors import EXIT_PASSED, FileError
from termprobe.plan.choose import wanted_stages
from termprobe.plan.covered import asked_of
from termprobe.plan.document import plan_document
from termprobe.plan.effort import Effort, effort
from termprobe.plan.model import Plan, Stage, Step
from termprobe.plan.possible import check_possible
from termprobe.plan.show import show_step
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.report.facts.numbers import is_or_are
from termprobe.script import load as scripts
from termprobe.script.model import Script, ScriptStage
from termprobe.verdict.counts import counts
from termprobe.verdict.judge import judge

NARROWEST, WIDEST = 60, 100
"""Console columns that a plan is drawn in."""
HOW_TO_SEE_STEPS = "The steps of a stage: --stage, with its id, number or title; of all: --steps"
TEXTS = 3
"""So many cells of a row are texts; the others are numbers."""


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
    show.add_argument(
        "--steps",
        action="store_true",
        help="every step, and not only how many each stage has; those of --stage are shown at once",
    )
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
    try:
        script = _read(name)
        known = [*map(profiles.load, (*yamlfile.shipped_ids("profiles"), *arguments.profile))]
        check_possible(script, known, name).refuse()
        for profile in known:
            compile_plan(profile, script, name)
    except FileError as error:
        return tell_findings(error)
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
        path = yamlfile.find(arguments.profile, "profiles")
        text = yamlfile.read_text(path)
        profile = profiles.parse(text, str(path))
        plan = covered(_plan_of(script, profile, arguments), profile, text)
        shown = _shown_plan(plan, profile, arguments)
    elif arguments.json:
        shown = _outline_json(script)
    else:
        shown = _outline(script, arguments)
    print(shown)
    return EXIT_PASSED


def _shown_plan(plan: Plan, profile: Profile, arguments: argparse.Namespace) -> str:
    """Return the plan as one document, or step by step, or its stages with what they cost."""
    if arguments.json:
        return _plan_json(plan, profile)
    if arguments.steps or arguments.stage or arguments.skip_stage:
        return _plan(plan, profile)
    return _plan_summary(plan, profile)


def _plan_of(script: Script, profile: Profile, arguments: argparse.Namespace) -> Plan:
    """Return the plan of the stages asked for."""
    from termprobe.plan.compile import compile_plan  # it loads pyte

    plan = compile_plan(profile, script, arguments.script)
    choice = stage_choice(arguments.stage, arguments.skip_stage)
    if choice:
        plan = choice(profile, plan)
    return plan


def _outline(script: Script, arguments: argparse.Namespace) -> str:
    """Return the stages with how many steps each has, or those asked for with their steps."""
    stages = [Stage(str(stage.id), stage.title) for stage in script.stages]
    lines = [f"{script.id}: {script.title}"]
    if not (arguments.steps or arguments.stage or arguments.skip_stage):
        return "\n".join([*lines, "", *_stage_counts(script), "", HOW_TO_SEE_STEPS])
    wanted = wanted_stages(stages, arguments.stage, arguments.skip_stage)
    for stage in script.stages:
        if stage.id in wanted:
            lines += ["", *_stage_outline(stage)]
    return "\n".join(lines)


def _stage_counts(script: Script) -> list[str]:
    """Return a row for each stage: number, id, title, steps."""
    rows = [
        (str(number), str(stage.id), stage.title, str(len(stage.steps)))
        for number, stage in enumerate(script.stages, 1)
    ]
    total = str(sum(len(stage.steps) for stage in script.stages))
    return table([("", "stage", "", "steps"), *rows, ("", "", "all", total)])


def _stage_outline(stage: ScriptStage) -> list[str]:
    needs = f" (needs {', '.join(stage.needs)})" if stage.needs else ""
    steps = [f"  {step.id:<34}{step.kind:<12}{step.title}" for step in stage.steps]
    return [f"{stage.id}: {stage.title}{needs}", *steps]


def _outline_json(script: Script) -> str:
    stages = [_stage_entry(stage) for stage in script.stages]
    return json.dumps({"id": script.id, "title": script.title, "stages": stages}, indent=1)


def _stage_entry(stage: ScriptStage) -> dict[str, object]:
    steps = [{"id": step.id, "kind": step.kind, "title": step.title} for step in stage.steps]
    return {"id": stage.id, "title": stage.title, "needs": list(stage.needs), "steps": steps}


def table(rows: Sequence[Sequence[str]]) -> list[str]:
    """Return rows of cells as lines: texts to the left, numbers behind them to the right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [_line(row, widths) for row in rows]


def _line(row: Sequence[str], widths: Sequence[int]) -> str:
    number, *texts = (cell.ljust(width) for cell, width in zip(row[:TEXTS], widths, strict=False))
    figures = [cell.rjust(width) for cell, width in zip(row[TEXTS:], widths[TEXTS:], strict=True)]
    return "  ".join(["", number.strip().rjust(widths[0]), *texts, *figures]).rstrip()


def _effort(plan: Plan, profile: Profile) -> Effort:
    return effort(plan.steps, line_format(profile).character_s)


def _head(plan: Plan, profile: Profile) -> str:
    """Return what the plan is, and in the second line what it costs."""
    named = f"{plan.script_id} for {plan.profile_id}"
    return f"{named}: {_size(plan)}, plan {plan.hash[:12]}\n{_cost(plan, profile)}"


def _plan_summary(plan: Plan, profile: Profile) -> str:
    """Return the stages with how many steps each has, and what these cost."""
    fitted = [step for step in plan.steps if not step.not_fitted]
    asked = {step.id for step in asked_of(fitted)}
    rows = [
        (str(number), stage.id, stage.title, *_stage_cost(plan.of_stage(stage.id), asked, profile))
        for number, stage in enumerate(plan.stages, 1)
    ]
    head = ("", "stage", "", "steps", "not fitted", "looks", "sending", "looking", "presses")
    lines = [_head(plan, profile), "", *table([head, *rows]), ""]
    spared = len(fitted) - len(asked)
    if spared:
        lines.append(
            f"Not counted: {_counted(spared, 'look', 'looks')} spared by others; each is asked "
            "where one of those fails"
        )
    return "\n".join([*lines, HOW_TO_SEE_STEPS])


def _stage_cost(steps: Sequence[Step], asked: Container[str], profile: Profile) -> tuple[str, ...]:
    """Return how many steps are fitted and how many are not, and what those `asked` cost."""
    unfitted = sum(bool(step.not_fitted) for step in steps)
    of_stage = [step for step in steps if step.id in asked]
    cost = effort(of_stage, line_format(profile).character_s)
    counts = (len(steps) - unfitted, unfitted, cost.looks)
    times = (f"{cost.sending_s:.0f} s", f"{cost.looking_s:.0f} s")
    return *map(str, counts), *times, str(cost.presses)


def _plan(plan: Plan, profile: Profile) -> str:
    columns = console.columns(sys.stdout) or WIDEST
    columns = max(NARROWEST, min(WIDEST, columns))
    blocks = [_head(plan, profile)]
    for stage in plan.stages:
        steps = plan.of_stage(stage.id)
        if steps:
            blocks.append(f"==== {stage.title} ({stage.id})")
            blocks += [show_step(step, columns) for step in steps]
    return "\n\n".join(blocks)


def _size(plan: Plan) -> str:
    """Return `192 steps (35 more are not fitted)`."""
    found = counts(judge(plan, ()).steps)
    if not found.not_fitted:
        return f"{found.all} steps"
    beside = f"{found.not_fitted} more {is_or_are(found.not_fitted)} not fitted"
    return f"{found.all} steps ({beside})"


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
