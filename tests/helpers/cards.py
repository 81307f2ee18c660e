"""A card with something on each part of it, and forms typed off it."""

import dataclasses

from helpers.bench_plan import command, look, plan, press, step, text
from termprobe.findings import Findings
from termprobe.link.base import LineFormat
from termprobe.observer.card import answers_on
from termprobe.observer.card_form import form_of
from termprobe.plan.card_items import card_items
from termprobe.plan.model import LineCheck
from termprobe.plan.readings import Band
from termprobe.profile.load import load
from termprobe.report.card.laid_out import card_of

LINE = LineFormat(9600, 7, "even", 1)
HEAD = "board: 0042\ndate: 2026-07-03\n"
PROFILE = load("singlebyte-24x80")
HOSTILE = "<script>alert(1)</script> \x1b[2J"
"""What no card may show as markup, or send raw to a console."""


def card_plan():
    """Return a plan with a step of every kind; two need a computer, one is not fitted."""
    hello = look("hello", "screen", text("HELLO"), caution="Keep one hand behind your back.")
    check = LineCheck("plug-bytes", "line", "Every code comes back", check="plug-bytes")
    return plan(
        step(
            "supply",
            "supplies",
            "measure",
            title="The 5 V supply",
            unit="V",
            low=4.75,
            high=5.25,
            ranges=(Band(4.75, 5.25),),
            stop_if="the regulator gets hot",
            source="made up",
        ),
        step("plug-in", "line", "ask", title="A plug"),
        dataclasses.replace(check, needs=("plug-in",)),
        hello,
        look(
            "more",
            "screen",
            command("return"),
            command("down"),
            text("WORLD"),
            before=hello.groups,
            continues=True,
            needs=("hello",),
            covered_by=("hello",),
        ),
        step("half", "screen", "switch", option="duplex", position="half"),
        step("lamp", "screen", "ask", title=HOSTILE, settings=(("duplex", "full"),)),
        step("gone", "screen", "ask", not_fitted="there is no lamp"),
        step("who", "screen", "reply", reply=b"\x06", groups=(command("bell"),)),
        step("word", "screen", "typed-back", word="OK"),
        step("press/a", "keys", "press"),
        step("press/b", "keys", "press"),
        step("press/break", "keys", "press", press=BREAK),
    )


BREAK = press("press/break", code=b"", is_break=True, sends="a break")
PLAN = card_plan()
ITEMS = card_items(PLAN)
CARD = card_of(PROFILE, PLAN, PLAN)


def typed(*lines, items=ITEMS):
    """Return (what the card says, the findings) of a form with these lines below its head."""
    findings = Findings("f.form")
    form = form_of(HEAD + "\n".join(lines), findings)
    return answers_on(form, items, LINE, findings), findings


def told(*lines, items=ITEMS):
    """Return what the card says; there are no findings."""
    found, findings = typed(*lines, items=items)
    assert findings == []
    return found


def found(*lines):
    """Return the texts of the findings."""
    return [one.text for one in typed(*lines)[1]]
