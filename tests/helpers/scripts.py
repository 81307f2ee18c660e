"""Scripts of a few steps, compiled against the shipped profiles."""

import functools
import json

from termprobe import yamlfile
from termprobe.cli.covering import covered
from termprobe.plan.compile import compile_plan
from termprobe.plan.covered import asked_of
from termprobe.plan.model import Look
from termprobe.profile.load import load
from termprobe.profile.load import parse as parse_profile
from termprobe.script.load import load as load_script
from termprobe.script.load import parse

SINGLE, ECMA = load("singlebyte-24x80"), load("ecma48-24x80")


def plan_of(steps, profile=SINGLE):
    """Return the plan of a script with one stage of `steps`, a line of YAML each."""
    text = "id: try\ntitle: A try\nstages:\n  - id: first\n    title: First\n    steps:\n"
    text += "".join(f"      - {step}\n" for step in steps)
    return compile_plan(profile, parse(text, "try.yaml"), "try.yaml")


def look(step_id, send, **fields):
    """Return the line of a look that sends these fragments."""
    usual = {
        "id": step_id,
        "kind": "look",
        "title": step_id,
        "question": "Is it so?",
        "send": send,
    }
    return json.dumps(usual | fields)


def acceptance(profile=SINGLE):
    """Return the plan of the acceptance script; that of the usual profile is kept."""
    if profile is SINGLE:
        return _usual_acceptance()
    return compile_plan(profile, load_script("acceptance"))


@functools.cache
def _usual_acceptance():
    return compile_plan(SINGLE, load_script("acceptance"))


@functools.cache
def spared(script_id, profile_id):
    """Return the plan of a shipped script, its looks covered as a run would have them."""
    path = yamlfile.find(profile_id, "profiles")
    text = yamlfile.read_text(path)
    profile = parse_profile(text, str(path))
    return covered(compile_plan(profile, load_script(script_id)), profile, text)


def asked(plan):
    """Return the looks of `plan` that are asked on a good board."""
    fitted = [step for step in plan.steps if not step.not_fitted]
    return [step for step in asked_of(fitted) if isinstance(step, Look)]
