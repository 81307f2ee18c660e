"""A plan on the 24 x 80 profile with a step of every kind, for tests of the session.

It is made without a script.
"""

import dataclasses

from termprobe.notation import show
from termprobe.plan.model import (
    Ask,
    Group,
    KeyPress,
    Look,
    Measure,
    NoChords,
    NoPresses,
    Plan,
    Press,
    Reply,
    Stage,
    Switch,
    TypedBack,
)
from termprobe.profile.encode import encode
from termprobe.profile.load import load
from termprobe.terminal.reference import Reference

PROFILE = load("singlebyte-24x80")
CAUTION = "Mains and the tube's anode voltage are in reach. One hand behind your back."


def command(name, **where):
    return Group(encode(PROFILE, name, **where), " ".join([name, *map(str, where.values())]))


def text(characters):
    return Group(characters.encode("ascii"), f'text "{characters}"')


def shown(groups):
    reference = Reference(PROFILE)
    reference.feed(b"".join(group.data for group in groups))
    return reference.screen()


def look(step_id, stage, *groups, before=(), **fields):
    own = (command("clear"), *groups)
    if fields.get("continues"):
        own = groups
    usual = {
        "title": f"Look at {step_id}",
        "question": f"Is the figure of {step_id} whole, and the cursor in its place?",
        "groups": own,
        "expected": shown((*before, *own)),
        "hash": f"hash of {step_id}",
    }
    return Look(id=step_id, stage=stage, **usual | fields)


KINDS = {
    kind.kind: kind
    for kind in (Look, Ask, TypedBack, Reply, Measure, Switch, KeyPress, NoPresses, NoChords)
}
_OF_PRESS = {field.name for field in dataclasses.fields(Press)} - {"id"}


def step(step_id, stage, kind, **fields):
    """Return a step of the kind called `kind`; a press takes the fields of its Press as well."""
    usual = {
        "title": f"Do {step_id}",
        "question": f"What about {step_id}?",
        "hash": f"hash of {step_id}",
    }
    if kind == KeyPress.kind and "press" not in fields:
        of_press = {name: value for name, value in fields.items() if name in _OF_PRESS}
        fields = {name: value for name, value in fields.items() if name not in _OF_PRESS}
        fields["press"] = press(step_id, **of_press)
    return KINDS[kind](id=step_id, stage=stage, **usual | fields)


def press(press_id, **fields):
    """Return a Press; the key is the one that its id names, which sends its name by default."""
    key = fields.get("key", press_id.removeprefix("press/").split("+")[0])
    legend = fields.get("legend", key)
    code = fields.get("code", key.encode("ascii"))
    usual = {
        "key": key,
        "legend": legend,
        "modifiers": (),
        "code": code,
        "asked": f'"{legend}"',
        "sends": show(code),
    }
    return Press(id=press_id, **usual | fields)


CORNERS = (
    text("A"),
    command("address", row=0, column=79),
    text("B"),
    command("address", row=22, column=40),
    text("C"),
    command("home"),
)


def plan(*steps):
    names = dict.fromkeys(one.stage for one in steps)
    stages = tuple(Stage(name, name.title()) for name in names)
    return Plan(
        "singlebyte-24x80",
        "made-up",
        "Acceptance of a made-up board",
        24,
        80,
        stages,
        steps,
        "f" * 64,
    )


def full_plan():
    """Return a plan with every kind of step that a builder answers at the screen."""
    start = look("hello", "screen", text("HELLO"))
    return plan(
        _supply(),
        start,
        look(
            "more",
            "screen",
            command("return"),
            command("down"),
            text("WORLD"),
            before=start.groups,
            continues=True,
        ),
        look("corners", "screen", *CORNERS),
        look("solid", "screen", text("*" * 1919)),
        *_keyboard(),
        look("bell", "end", Group(b"\a", "bell"), text("RING"), needs=("hello",)),
        step("lamp", "end", "ask", title="Is the lamp lit?"),
    )


def _supply():
    return step(
        "supply-5v",
        "supplies",
        "measure",
        unit="V",
        low=4.75,
        high=5.25,
        source="board notes, page 3",
        caution=CAUTION,
        stop_if="the regulator is too hot to touch",
    )


def _keyboard():
    half = {"option": "duplex", "position": "half", "title": "Half duplex"}
    yield step("half-duplex", "keyboard", "switch", **half)
    yield step(
        "word",
        "keyboard",
        "typed-back",
        word="any\r",
        title="Type a word",
        groups=(command("clear"),),
        settings=(("duplex", "full"),),
    )
