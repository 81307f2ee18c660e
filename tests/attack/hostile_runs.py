"""Run files whose every line is whole, with hostile texts in their records."""

import functools
import json
import pathlib
import tempfile
import zlib

from termprobe.journal.kinds import RECORD_KINDS

from .good_inputs import PROFILE, SCRIPT
from .guarded import called

FAULTY_BOARD = "sim:receiver-data/stuck/1/0"
ANSWER = {"word": "differs", "seen": ["AB", "CD"], "note": "so", "observer": "eyes", "drawn": ["x"]}
SHOWN = {"faults": ["echo-gate/stuck-open"], "rows": ["AB"], "misdrawn": [["A", "#.|.#"]]}
HEARD = {"speed_baud": 4800.0, "data_bits": 7, "events": [[0.1, "71", "parity"]]}
FAULT = {"fault": "receiver-data/stuck/1/0", "alike": ["b"], "title": "Stuck", "explains": ["word"]}
MORE = (
    {"kind": "comes-after", "run": "a.run.jsonl", "begun": "2026-01-02", "failed": ["word"]},
    {"kind": "attention", "rate": 0.1, "seed": 1},
    {"kind": "attention-check", "step": "on", "answer": ANSWER},
    {"kind": "note", "text": "A note", "step": "word"},
    {"kind": "note", "text": "Another"},
    {"kind": "caution", "step": "supply", "text": "Unplug it first."},
    {"kind": "option", "option": "duplex", "position": "half"},
    {"kind": "linked", "link": {"name": "sim:", "format": "4800 baud 7O1", "note": "rounded"}},
    {"kind": "link-lost", "reason": "pulled", "step": "word"},
    {"kind": "sent-late", "characters": 9, "late": 3, "worst_s": 0.5},
    {"kind": "received", "step": "word", "data": "1b5b324a", "arrived_s": 1.0, "error": "framing"},
    {"kind": "received", "step": None, "data": "9b33316d"},
    {"kind": "asked-again", "step": "word"},
    {"kind": "answer", "step": "word", "answer": ANSWER, "against": SHOWN},
    {"kind": "answer", "step": "lamp", "answer": {"word": "unsure", "note": "dim"}},
    {"kind": "answer", "step": "supply", "answer": {"value": 4.1, "note": "low", "observer": "me"}},
    {"kind": "answer", "step": "keys/q", "answer": {"data": "71", "heard": HEARD}},
    {"kind": "taken-back", "step": "lamp"},
    {"kind": "known-fault", **FAULT},
    {"kind": "to-repair", **FAULT},
    {"kind": "of-a-later-version", "words": ["new"]},
    {"kind": "stopped", "reason": "the builder stopped it"},
)
"""Records as a run may have them besides those of a run unattended."""


def documents_in(data):
    """Return the records in the bytes of a run file as JSON holds them."""
    return [json.loads(line[9:]) for line in data.splitlines() if line]


@functools.cache
def run_documents():
    """Return the records of a run as JSON holds them, with one of each kind at its end."""
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        words = ["run", "--profile", str(PROFILE), "--script", str(SCRIPT), "--board", "0007"]
        called([*words, "--port", FAULTY_BOARD, "--out", folder])
        documents = documents_in(next(pathlib.Path(folder).glob("*.jsonl")).read_bytes())
    stamp = {"t": documents[-1]["t"], "at": documents[-1]["at"]}
    return documents + [stamp | document for document in MORE]


@functools.cache
def soak_documents():
    """Return the records of a soak."""
    with tempfile.TemporaryDirectory(prefix="termprobe-attack-") as folder:
        called(
            ["soak", "--port", "loop://", "--characters", "100", "--board", "7", "--out", folder]
        )
        return documents_in(next(pathlib.Path(folder).glob("*.jsonl")).read_bytes())


def run_file(documents):
    """Return the bytes of the run file with these records, numbered anew."""
    return b"".join(line_of({**one, "seq": number}) for number, one in enumerate(documents))


def line_of(document):
    """Return the line of one record."""
    data = json.dumps(document, separators=(",", ":")).encode("ascii")
    return b"%08x %s\n" % (zlib.crc32(data), data)


def hostile_run(chance, text, documents):
    """Return the bytes of a run file in which `text` stands in some places drawn by `chance`.

    These are some of all texts, or all texts that are called alike.
    """
    leaves = [leaf for one in documents for leaf in _leaves(one, ())]
    if chance.random() < 0.5:
        name = chance.choice(leaves)[-1]
        chosen = {leaf for leaf in leaves if leaf[-1] == name}
    else:
        chosen = set(chance.sample(leaves, chance.choice((1, 3, 10))))
    changed = [_changed(one, (), chosen, chance, text) for one in documents]
    return run_file(changed)


def _leaves(value, path):
    """Yield where texts stand: the names on the way to each."""
    if isinstance(value, dict):
        for name, own in value.items():
            yield from _leaves(own, (*path, name))
    elif isinstance(value, list):
        for own in value:
            yield from _leaves(own, path)
    elif isinstance(value, str) and path[-1] != "kind":
        yield path


def _changed(value, path, chosen, chance, text):
    """Return `value` with `text` in the chosen places, for what stood there or in it."""
    if isinstance(value, dict):
        return {
            key: _changed(own, (*path, key), chosen, chance, text) for key, own in value.items()
        }
    if isinstance(value, list):
        return [_changed(own, path, chosen, chance, text) for own in value]
    if path not in chosen or not isinstance(value, str):
        return value
    index = chance.choice((0, len(value), None))
    if index is None:
        return text
    return value[:index] + text + value[index:]


assert {one["kind"] for one in MORE} - {"of-a-later-version"} <= set(RECORD_KINDS)
