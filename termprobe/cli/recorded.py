"""Run files, read back: recording, profile, script and plan, and the report made of them."""

import hashlib
import pathlib
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from termprobe.cli.run_texts import PROFILE_TEXT, SCRIPT_TEXT, RunText, named, run_texts
from termprobe.errors import FileError
from termprobe.journal.reading import Recording, parse, read_bytes
from termprobe.journal.records import Answered, Header, Record
from termprobe.journal.soaking import SOAK
from termprobe.photo.found import photos_of
from termprobe.plan.model import Look, Plan, Reply, TypedBack
from termprobe.profile.model import Profile
from termprobe.report.block_shown import BlockShown
from termprobe.report.key_findings import KeyFindings
from termprobe.report.record import RunReport, run_report
from termprobe.verdict.ending import as_filed
from termprobe.verdict.judge import judge
from termprobe.verdict.model import FAIL, PASS, AsWithFault, RunVerdict
from termprobe.verdict.texts import texts_used

if TYPE_CHECKING:
    from termprobe.diagnosis.dictionary import FaultDictionary
    from termprobe.diagnosis.model import Diagnosis


@dataclass(frozen=True)
class Recorded:
    """A run file and all that it was made with."""

    path: str
    recording: Recording
    header: Header
    texts: tuple[RunText, ...]
    """Those of profile and script with which it was begun, and each that followed."""
    digest: str = ""
    """SHA-256 of the bytes of the file, in hexadecimal."""

    @property
    def profile(self) -> Profile:
        """The profile as it was last."""
        return self.texts[-1].profile

    @property
    def plan(self) -> Plan:
        """The part that was chosen for the run, by the texts as they were last."""
        return self.texts[-1].text.plan

    @property
    def left_out(self) -> int:
        """How many steps of the script as it was last are fitted, and not in that part."""
        return self.texts[-1].left_out

    @property
    def speed_baud(self) -> int | None:
        """The speed of the line by which the plan's limits go; None where it is not known."""
        return self.texts[-1].speed_baud

    def text_of(self, kind: str) -> tuple[str, str]:
        """Return (text, its name in findings) of the run's profile or script, as `kind` says."""
        pair = self.texts[-1].pair
        return {PROFILE_TEXT: pair.profile, SCRIPT_TEXT: pair.script}[kind], named(self.path, kind)

    @cached_property
    def verdict(self) -> RunVerdict:
        """What the answers say of each step."""
        records = self.recording.records
        return as_filed(judge(self.plan, records), records)

    @cached_property
    def diagnosis(self) -> "Diagnosis":
        """What would explain the run.

        Where it takes longer than a moment, a line on standard error says so.
        """
        from termprobe.cli.kept_dictionary import dictionary_if_simulated
        from termprobe.diagnosis.diagnose import diagnose

        dictionary = dictionary_if_simulated(self.plan, self.profile, self.texts[-1].pair.profile)
        return diagnose(self.profile, self.plan, self.recording.records, self.verdict, dictionary)

    def _diagnosis(self) -> "Diagnosis | None":
        """Return what would explain that screens, replies or words were wrong, if any was."""
        failed = [step.id for step in self.verdict.steps if step.verdict == FAIL]
        if any(isinstance(self.plan.step(step), Look | Reply | TypedBack) for step in failed):
            return self.diagnosis
        return None

    @cached_property
    def report(self) -> RunReport:
        """What the run has shown."""
        from termprobe.plan.edges import edges_tried  # it loads pyte

        texts = texts_used([one.text for one in self.texts], self.recording.records, self.verdict)
        made = run_report(
            self.path,
            self.header,
            self.recording,
            self.plan,
            self.verdict,
            self.profile,
            self.left_out,
            self._key_findings(),
            texts,
            self._diagnosis(),
        )
        edges = edges_tried(self.profile, self.plan, self._proven())
        photos = photos_of(self.path, self.recording.records)
        return replace(made, digest=self.digest, over_edges=edges, photos=photos)

    def report_with_blocks(self, works_out: bool) -> RunReport:
        """Return the report, with what the steps that passed show of each block of the circuit.

        That needs boards with every fault to be simulated, once for all runs of a plan. Where it
        has not been done yet it is done if `works_out`, with a line on standard error where it
        takes longer than a moment; else nothing is told of the blocks.
        """
        from termprobe.cli.kept_dictionary import dictionary_found, dictionary_if_simulated

        text = self.texts[-1].pair.profile
        if self.profile.circuit is None or not self._proven():
            return self.report
        if works_out:
            dictionary = dictionary_if_simulated(self.plan, self.profile, text)
        else:
            dictionary = dictionary_found(self.plan, text)
        if dictionary is None:
            return self.report
        return replace(self.report, blocks=self._blocks(dictionary))

    def _blocks(self, dictionary: "FaultDictionary") -> tuple[BlockShown, ...]:
        from termprobe.diagnosis.passed_coverage import excluded_by_block

        found = excluded_by_block(dictionary, self.plan, self.profile, self._proven())
        return tuple(BlockShown(block, *counted) for block, counted in found.items())

    def _proven(self) -> set[str]:
        """Return the ids of the steps that passed as on a good board."""
        proven = (step for step in self.verdict.steps if step.verdict == PASS)
        return {step.id for step in proven if not isinstance(step.because, AsWithFault)}

    def _key_findings(self) -> KeyFindings | None:
        """Return what is concluded of the presses that were made; None where there were none."""
        if self.profile.keyboard is None or not any(map(_is_press, self.recording.records)):
            return None
        from termprobe.diagnosis.key_conclusion import conclude
        from termprobe.diagnosis.key_outcomes import outcomes_of
        from termprobe.diagnosis.probing import named_for_probing, probe_of

        outcomes = outcomes_of(self.recording.records)
        conclusion = conclude(self.profile, outcomes)
        named = named_for_probing(conclusion.suspects)
        probes = tuple(filter(None, (probe_of(name, self.profile) for name in named)))
        return KeyFindings(self.profile.keyboard, conclusion, probes)


def _is_press(record: Record) -> bool:
    return isinstance(record, Answered) and record.answer.heard is not None


def load_run(path: str | pathlib.Path) -> Recorded:
    """Return the run of the file at `path`; raise FileError where it cannot be read as one."""
    return recorded_of(path, read_bytes(path))


def recorded_of(path: str | pathlib.Path, data: bytes, leaves_out_sent: bool = False) -> Recorded:
    """Return the run in the bytes of the file at `path`; raise FileError where they are none.

    What was sent may be left out where only verdicts are wanted.
    """
    recording = parse(data, leaves_out_sent)
    if recording.damages and leaves_out_sent:
        recording = parse(data)
    header = recording.header
    if header is None or not header.profile_text or not header.script_text:
        raise _no_run_file(path, recording)
    texts = run_texts(str(path), header, recording.records)
    return Recorded(str(path), recording, header, texts, hashlib.sha256(data).hexdigest())


def _no_run_file(path: str | pathlib.Path, recording: Recording) -> FileError:
    if recording.header is not None and recording.header.script == SOAK:
        told = "must be the run file of a board's steps, and this one is the soak of a line"
        return FileError([f"{path}: {told}; `termprobe report` shows it"])
    damage = "".join(f" ({text})" for text in recording.damages[:1])
    wanted = "must be a run file, BOARD-DATE.run.jsonl, whose first line holds profile and script"
    return FileError([f"{path}: {wanted}; this one does not{damage}"])
