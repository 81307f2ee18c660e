"""What is numbered on a card, and what takes a computer."""

from helpers.cards import ITEMS, PLAN
from helpers.scripts import acceptance
from termprobe.plan.card_items import card_items, left_off
from termprobe.plan.choose import choose_stages
from termprobe.plan.model import KeyPress, LineCheck, Measure


def test_readings_presses_and_all_else_are_counted_apart():
    assert [(item.number, item.step.id) for item in ITEMS] == [
        ("V1", "supply"),
        ("1", "hello"),
        ("2", "more"),
        ("3", "half"),
        ("4", "lamp"),
        ("5", "who"),
        ("6", "word"),
        ("K1", "press/a"),
        ("K2", "press/b"),
        ("K3", "press/break"),
    ]


def test_checks_of_the_line_and_what_only_they_need_are_left_off():
    assert [step.id for step in left_off(PLAN)] == ["plug-in", "plug-bytes"]
    part = choose_stages(PLAN, ["screen"])
    assert [item.step.id for item in card_items(part)][:2] == ["hello", "more"]


def test_every_fitted_step_of_a_shipped_script_is_on_the_card_or_left_off():
    plan = acceptance()
    items, off = card_items(plan), left_off(plan)
    fitted = [step.id for step in plan.steps if not step.not_fitted]
    assert sorted([*(item.step.id for item in items), *(step.id for step in off)]) == sorted(fitted)
    assert len({item.number for item in items}) == len(items)
    on_card = {item.step.id for item in items}
    for item in items:
        assert not isinstance(item.step, LineCheck)
        assert item.number.startswith("V") == isinstance(item.step, Measure)
        assert item.number.startswith("K") == isinstance(item.step, KeyPress)
        if item.step.continues:
            assert plan.steps[plan.index[item.step.id] - 1].id in on_card
    checks = {step.id for step in plan.steps if isinstance(step, LineCheck)}
    assert not any(checks & set(item.step.needs) for item in items)
