"""A plan as plain dicts and lists, for hashing and for JSON: bytes as hexadecimal."""

import dataclasses


def step_document(step):
    """Return the fields of `step` but its hash, as JSON can hold them."""
    return {
        field.name: _plain(getattr(step, field.name))
        for field in dataclasses.fields(step)
        if field.name != "hash"
    }


def plan_document(plan):
    """Return the plan as JSON can hold it."""
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


def _plain(value):
    if isinstance(value, bytes):
        return value.hex()
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    if isinstance(value, dict):  # renditions: the keys are places
        return sorted([*place, letters] for place, letters in value.items())
    if dataclasses.is_dataclass(value):
        return {
            field.name: _plain(getattr(value, field.name)) for field in dataclasses.fields(value)
        }
    return value
