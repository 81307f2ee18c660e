"""Records of run files of format 1 as those of format 2. Pure."""

import re

from termprobe.journal.codec import JsonObject

_OF_ANSWER = ("word", "seen", "cursor", "bells", "value", "data", "heard", "note", "strength")


def upgraded(document: JsonObject) -> JsonObject:
    """Return the JSON object of a record in today's shape.

    One that has it already is returned as it is.
    """
    if document.get("kind") == "header" and document.get("format") == 1:
        return _header(document)
    if document.get("kind") == "answer" and "answer" not in document:
        return _answer(document)
    return document


def _header(document: JsonObject) -> JsonObject:
    """A script said `settled_by` where it now says `covered_by`."""
    text = document.get("script_text")
    if isinstance(text, str):
        document = {**document, "script_text": re.sub(r"\bsettled_by:", "covered_by:", text)}
    return document


def _answer(document: JsonObject) -> JsonObject:
    """What was answered stood beside number and step.

    Steps were hashed in another way: which step was meant is not known.
    """
    own = {key: document[key] for key in _OF_ANSWER if document.get(key) is not None}
    own["observer"] = document.get("witness", "")
    taken = (*_OF_ANSWER, "witness", "hash")
    rest = {key: value for key, value in document.items() if key not in taken}
    return {**rest, "answer": own}
