"""One run file in short: from what was kept, from one that says the same, or worked out anew."""

import hashlib
from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

from termprobe.cli.kept_dictionary import dictionary_if_simulated
from termprobe.cli.recorded import Recorded, recorded_of
from termprobe.cli.run_texts import PROFILE_TEXT
from termprobe.diagnosis.diagnose import case_of, diagnose
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.says import says
from termprobe.errata.summary import (
    RunFacts,
    RunSummary,
    UnreadRun,
    needs_diagnosis,
    summary_of,
)
from termprobe.errata.summary_form import WRONG_SUMMARY, summary_from
from termprobe.errors import FileError, TermprobeError
from termprobe.journal.reading import parse
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile

Summarised = RunSummary | UnreadRun
MOST_BYTES = 64_000_000
"""A file that is larger is no run file that a person made."""
MOST_DIAGNOSES, MOST_DICTIONARIES = 500, 4
"""So many are held in this process."""
KeyOf = TypeVar("KeyOf")
Found = TypeVar("Found")
_diagnoses: dict[str, Diagnosis] = {}
"""By what their runs say."""
_dictionaries: dict[tuple[str, str], FaultDictionary | None] = {}
"""By the text of the profile and the hash of the plan."""
_kept: dict[str, object] = {}
"""In this process: digest of a file -> its summary as plain data."""


def begin_with(kept: Mapping[str, object]) -> None:
    """Let this process know what was kept."""
    _kept.clear()
    _kept.update(kept)


def summarised(path: str) -> Summarised:
    """Return what is known of the run file at `path`, whatever stands in it."""
    try:
        data = _bytes_of(path)
        digest = hashlib.sha256(data).hexdigest()
        return _from_kept(path, digest) or _worked_out(path, data)
    except TermprobeError as error:
        first, *_ = str(error).split("\n")
        return UnreadRun(path, first.removeprefix(f"{path}: "))
    except Exception as error:  # no file, however hostile, may keep the others from being read
        return UnreadRun(path, f"what stands in it cannot be judged ({type(error).__name__})")


def _bytes_of(path: str) -> bytes:
    """Return the bytes of the file; raise FileError where it is none, or too large for a run."""
    try:
        with open(path, "rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise FileError([f"must be a run file that can be read ({error.strerror})"]) from None
    if len(data) > MOST_BYTES:
        raise FileError([f"must be a run file of at most {MOST_BYTES:,} bytes, not more"])
    return data


def _from_kept(path: str, digest: str) -> RunSummary | None:
    plain = _kept.get(digest)
    if not isinstance(plain, dict):
        return None
    try:
        return summary_from(plain, path, digest)
    except WRONG_SUMMARY:
        return None


def _worked_out(path: str, data: bytes) -> RunSummary:
    recorded = recorded_of(path, data, leaves_out_sent=True)
    facts = RunFacts(
        path,
        recorded.digest,
        recorded.header,
        recorded.recording.records,
        recorded.plan,
        recorded.verdict,
        recorded.left_out,
        recorded.recording.damages,
    )
    if not needs_diagnosis(facts):
        return summary_of(facts)
    facts = replace(facts, records=parse(data).records)
    return summary_of(facts, _diagnosis(recorded, facts))


def _diagnosis(recorded: Recorded, facts: RunFacts) -> Diagnosis:
    """Return what would explain the run; that of an earlier one that says just the same."""
    case = case_of(recorded.profile, facts.plan, facts.records, facts.verdict)
    key = says(case)
    if key not in _diagnoses:
        profile_text, _ = recorded.text_of(PROFILE_TEXT)
        dictionary = _dictionary(facts.plan, recorded.profile, profile_text)
        own = recorded.profile, facts.plan, facts.records, facts.verdict
        _diagnoses[key] = diagnose(*own, dictionary)
        _forget_oldest(_diagnoses, MOST_DIAGNOSES)
    return _diagnoses[key]


def _dictionary(plan: Plan, profile: Profile, profile_text: str) -> FaultDictionary | None:
    """Return the fault dictionary of the plan, read from the cache only once in this process."""
    key = profile_text, plan.hash
    if key not in _dictionaries:
        _dictionaries[key] = dictionary_if_simulated(plan, profile, profile_text)
        _forget_oldest(_dictionaries, MOST_DICTIONARIES)
    return _dictionaries[key]


def _forget_oldest(known: dict[KeyOf, Found], most: int) -> None:
    while len(known) > most:
        del known[next(iter(known))]
