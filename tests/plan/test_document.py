"""A plan as JSON holds it: bytes in hexadecimal, each step with its kind and its own fields."""

import json

from helpers.bench import look, plan
from helpers.bench_plan import step
from termprobe.plan.document import plan_document, step_document
from termprobe.terminal.screen import Screen


def test_a_look_with_bytes_and_screen():
    screen = Screen(("AB",), (0, 1), {(0, 1): "b", (0, 0): "u"}, bells=1)
    document = step_document(look("a", "AB", expected=screen, covered_by=("b",)))
    assert (document["kind"], document["id"], document["covered_by"]) == ("look", "a", ["b"])
    assert document["groups"] == [
        {"data": "1a", "label": "clear", "settle_s": 0.02},
        {"data": "4142", "label": 'text "AB"', "settle_s": 0.0},
    ]
    shown = document["expected"]
    assert (shown["rows"], shown["cursor"], shown["bells"]) == (["AB"], [0, 1], 1)
    assert shown["renditions"] == [[0, 0, "u"], [0, 1, "b"]]
    assert "hash" not in document


def test_each_kind_has_its_own_fields_and_those_that_a_reader_always_finds():
    press = step_document(step("press/a", "s", "press", may_repeat=True))
    assert press["press"]["code"] == "61" and press["press"]["may_repeat"] is True
    reply = step_document(step("r", "s", "reply", reply=b"ok"))
    assert reply["reply"] == "6f6b" and "press" not in reply
    for document in (press, reply):
        assert (document["expected"], document["covered_by"]) == (None, [])


def test_a_plan_with_its_stages_and_the_hash_of_each_step():
    document = plan_document(plan(look("a")))
    assert json.loads(json.dumps(document)) == document
    assert document["stages"] == [{"id": "looks", "title": "Looks", "caution": None}]
    assert (document["hash"], document["rows"], document["columns"]) == ("f" * 64, 3, 8)
    assert [(one["id"], one["hash"]) for one in document["steps"]] == [("a", "hash of a")]
