"""Records become plain data, and the schema that is made of them says just that."""

from dataclasses import dataclass, field
from typing import NamedTuple

import jsonschema
import pytest

from termprobe.report.document import UNLESS_NONE
from termprobe.report.plain import plain, plain_record, schema_of, schema_of_one


class Pair(NamedTuple):
    """Two names."""

    one: str
    two: str | None


@dataclass(frozen=True)
class Tree:
    """A tree.

    With more.
    """

    class_: str
    height: float
    pairs: tuple[Pair, ...] = ()
    cells: tuple[tuple[int, str], ...] = ()
    named: dict[str, int] = field(default_factory=dict)
    under: "Tree | None" = field(default=None, metadata={UNLESS_NONE: True})


TREE = Tree("oak", 2, (Pair("a", None),), ((1, "x"),), {"n": 3}, Tree("ash", 0.5))


def test_records_become_plain_data():
    assert plain_record(TREE) == {
        "class": "oak",
        "height": 2,
        "pairs": [{"one": "a", "two": None}],
        "cells": [[1, "x"]],
        "named": {"n": 3},
        "under": {"class": "ash", "height": 0.5, "pairs": [], "cells": [], "named": {}},
    }


def test_a_schema_allows_what_the_records_become_and_a_list_of_it():
    schema = schema_of(Tree, "Trees")
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(plain(TREE), schema)
    jsonschema.validate([plain(TREE), plain(TREE)], schema)
    assert schema["$defs"]["Tree"]["description"] == "A tree."


def test_a_schema_of_one_allows_no_list():
    schema = schema_of_one(Tree, "A tree")
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(plain(TREE), schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate([plain(TREE)], schema)


@pytest.mark.parametrize(
    "change",
    [{"height": "2"}, {"more": 1}, {"cells": [[1]]}, {"pairs": [{"one": "a"}]}, {"named": [1]}],
)
def test_a_schema_allows_nothing_else(change):
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(plain_record(TREE) | change, schema_of(Tree, "Trees"))
