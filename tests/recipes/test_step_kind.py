"""The recipe for a step kind, followed in a copy of the program: a sound, compared by ear."""

import json

import pytest

from helpers.checkout import Checkout, files_named

SCRIPT = """\
id: sounds
title: Sounds
stages:
  - id: heard
    title: Heard
    steps:
      - id: tone
        kind: listen
        title: The tone of the bell
        question: A short high tone?
        start: none
        send: [{bytes: BEL}]
"""
RECORD = '''\
@dataclass(frozen=True)
class Listen(Step):
    """A sound is compared by ear."""

    kind = "listen"


@dataclass(frozen=True)
class Reply(Step):
'''
MODE = '''\
"""A sound is listened to and answered."""

from termprobe.plan.model import Listen
from termprobe.session.mode import Mode
from termprobe.session.modes.ask import NO, YES
from termprobe.session.shared_keys import AROUND, AT_ANY_TIME

MODE = Mode(
    name="listen",
    title="listen",
    keys=(YES, NO, *AROUND, *AT_ANY_TIME),
    kind=Listen.kind,
    is_of_step=True,
)
'''
FILES = {
    "termprobe/script/model.py",
    "termprobe/script/load.py",
    "termprobe/plan/model.py",
    "termprobe/plan/kinds.py",
    "termprobe/verdict/judge.py",
    "termprobe/observer/builder.py",
    "termprobe/session/modes/ask.py",
}
MODE_OF_KIND = (
    "from termprobe.session.mode_table import mode_of_kind; print(mode_of_kind('listen').title)"
)


@pytest.fixture
def checkout(tmp_path):
    made = Checkout(tmp_path)
    made.edit("termprobe/script/model.py", '"reply", "ask",', '"reply", "ask", "listen",')
    made.edit(
        "termprobe/script/load.py",
        '    "ask": ("question",),\n',
        '    "ask": ("question",),\n    "listen": ("question",),\n',
    )
    made.edit("termprobe/plan/model.py", "@dataclass(frozen=True)\nclass Reply(Step):\n", RECORD)
    made.edit("termprobe/plan/kinds.py", "    KeyPress,\n", "    KeyPress,\n    Listen,\n")
    made.edit(
        "termprobe/plan/kinds.py",
        '    "reply": ',
        '    "listen": lambda step: Listen(*_begun(step)),\n    "reply": ',
    )
    imported = "import Ask, Look, Measure,"
    made.edit("termprobe/observer/builder.py", imported, "import Ask, Listen, Look, Measure,")
    made.edit("termprobe/observer/builder.py", "(step, Look | Ask", "(step, Look | Listen | Ask")
    made.add("termprobe/session/modes/listen.py", MODE)
    made.add("scripts/sounds.yaml", SCRIPT)
    return made


@pytest.mark.parametrize("typed, verdict", [("y\n", "pass"), ("n\nlow\n", "fail")])
def test_a_step_kind_is_asked_judged_and_reported(checkout, typed, verdict):
    assert files_named("Add a step kind") == FILES
    assert checkout.run("script", "check", "sounds").returncode == 0
    words = ("--profile", "singlebyte-24x80", "--script", "sounds", "--board", "1", "--out", "runs")
    asked = checkout.run("session", "--plain", *words, "--port", "sim:", input=typed)
    assert "A short high tone?" in asked.stdout, asked.stderr
    (path,) = (checkout.folder / "runs").glob("*.run.jsonl")
    shown = json.loads(checkout.run("report", "--format", "json", path).stdout)
    assert [(step["id"], step["verdict"]) for step in shown["steps"]] == [("tone", verdict)]


def test_the_session_has_its_mode(checkout):
    assert checkout.python(MODE_OF_KIND) == "listen\n"
