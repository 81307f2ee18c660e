"""What a step sends, shows and asks, for each kind of step, and lists of what there is."""

import pytest

from helpers.golden import check
from helpers.paths import TESTS
from termprobe.cli.main import main
from termprobe.plan.compile import compile_plan
from termprobe.plan.kinds import OF_KIND
from termprobe.plan.model import KeyPress
from termprobe.plan.show import show_step
from termprobe.profile import load as profiles
from termprobe.script import load as scripts

pytestmark = pytest.mark.golden

SCRIPT = TESTS / "golden" / "one-of-each-kind.yaml"
PROFILES = ("ecma48-24x80", "singlebyte-24x80")
WIDTHS = (80, 60)


def script():
    return scripts.parse(SCRIPT.read_text(encoding="utf-8"), SCRIPT.name)


def plan_for(profile_id):
    return compile_plan(profiles.load(profile_id), script(), SCRIPT.name)


def some_steps(plan):
    """Return the plan's steps; of the presses the first, the first with a modifier, and a chord."""
    presses = [step for step in plan.steps if isinstance(step, KeyPress)]
    modified = [step for step in presses if step.press.modifiers]
    chords = [step for step in presses if step.press.held]
    kept = [*presses[:1], *modified[:1], *chords[:1]]
    return [step for step in plan.steps if not isinstance(step, KeyPress) or step in kept]


def test_the_script_has_a_step_of_each_kind():
    kinds = {step.kind for stage in script().stages for step in stage.steps}
    assert kinds == set(OF_KIND)


@pytest.mark.parametrize("columns", WIDTHS)
@pytest.mark.parametrize("profile_id", PROFILES)
def test_each_step(profile_id, columns):
    steps = some_steps(plan_for(profile_id))
    shown = "\n\n".join(show_step(step, columns) for step in steps)
    check(f"plans/{profile_id}-{columns}.txt", f"{shown}\n")


LISTS = {
    "script-list": ["script", "list"],
    "script-show": ["script", "show", "acceptance"],
    "script-check": ["script", "check", "acceptance"],
    "script-show-stage": [
        *["script", "show", "acceptance", "--stage", "bell", "--stage", "replies"],
        *["--profile", "ecma48-24x80"],
    ],
    "profile-list": ["profile", "list"],
    "profile-show": ["profile", "show", "singlebyte-24x80"],
    "profile-check": ["profile", "check", "ecma48-24x80"],
    "keys-list": ["keys", "--profile", "singlebyte-24x80", "--list", "--quick"],
}


@pytest.mark.parametrize("name", LISTS)
def test_each_list(name, capsys):
    assert main(LISTS[name]) == 0
    check(f"plans/{name}.txt", capsys.readouterr().out)


def test_the_faults_one_of_each_place_and_kind(capsys):
    assert main(["sim", "--profile", "singlebyte-24x80", "--faults", "all"]) == 0
    first = {}
    for line in capsys.readouterr().out.splitlines():
        first.setdefault(tuple(line.split("/")[:2]), line)
    check("plans/faults.txt", "\n".join(first.values()) + "\n")
