"""A plan as plain dicts and lists, for hashing and for JSON: bytes as hexadecimal."""

import dataclasses
from typing import Any

from termprobe.plan.model import Plan, Step

Document = dict[str, object]
"""What JSON can hold."""
_ALWAYS: Document = {"expected": None, "covered_by": []}
"""Keys that a step of each kind has, so that a reader need not know the kinds."""


def step_document(step: Step) -> Document:
    """Return kind and fields of `step`, all but its hash."""
    return {"kind": step.kind, **_ALWAYS, **_fields_given(step)}


def plan_document(plan: Plan) -> Document:
    """Return the plan, steps with their hashes."""
    return {
        "profile": plan.profile_id,
        "script": plan.script_id,
        "title": plan.title,
        "hash": plan.hash,
        "rows": plan.rows,
        "columns": plan.columns,
        "stages": [dataclasses.asdict(stage) for stage in plan.stages],
        "steps": [step_document(step) | {"hash": step.hash} for step in plan.steps],
    }


_ONLY_WHERE_GIVEN = {
    "form": None,
    "ranges": [],
    "usual": [None, None],
    "possible": [None, None],
    "has_over_range": False,
    "enlarged": [],
    "misdrawn": [],
    "told_by": [],
    "blames": "",
    "variant": "",
    "printed": "",
}
"""Fields that came later, with the value at which they are left out.

Steps without them so keep the hash that they have in older run files.
"""


def _is_left_out(name: str, value: object) -> bool:
    return name in _ONLY_WHERE_GIVEN and value == _ONLY_WHERE_GIVEN[name]


def _fields_given(record: Any) -> Document:
    own = {field.name: _plain(getattr(record, field.name)) for field in _fields(record)}
    return {name: value for name, value in own.items() if not _is_left_out(name, value)}


def _fields(record: Any) -> list[dataclasses.Field[Any]]:
    return [field for field in dataclasses.fields(record) if field.name != "hash"]


def _plain(value: object) -> object:
    if isinstance(value, bytes):
        return value.hex()
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    if isinstance(value, dict):  # renditions: the keys are cells
        return sorted([*cell, letters] for cell, letters in value.items())
    if dataclasses.is_dataclass(value):
        return _fields_given(value)
    return value
