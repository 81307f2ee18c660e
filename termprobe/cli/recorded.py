"""Run files, read back: recording, profile, script and plan, and the report made of them."""

import pathlib
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from termprobe.errors import FileError
from termprobe.journal.reading import Recording, read
from termprobe.journal.records import Answered, Header, Record
from termprobe.plan.choose import choose, left_out
from termprobe.plan.covered import with_covering
from termprobe.plan.model import Look, Plan, Reply, TypedBack
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.report.key_findings import KeyFindings
from termprobe.report.record import RunReport, run_report
from termprobe.script import load as scripts
from termprobe.verdict.judge import judge
from termprobe.verdict.model import FAIL, RunVerdict

if TYPE_CHECKING:
    from termprobe.diagnosis.model import Diagnosis


@dataclass(frozen=True)
class Recorded:
    """A run file and all that it was made with."""

    path: str
    recording: Recording
    header: Header
    profile: Profile
    plan: Plan
    """The part that was chosen for the run."""
    left_out: int = 0
    """How many steps of the script that are fitted are not in it."""

    def text_of(self, kind: str) -> tuple[str, str]:
        """Return (text, its name in findings) of the run's profile or script, as `kind` says."""
        return _text_of(self.header, self.path, kind)

    @cached_property
    def verdict(self) -> RunVerdict:
        """What the answers say of each step."""
        return judge(self.plan, self.recording.records)

    @cached_property
    def diagnosis(self) -> "Diagnosis":
        """What would explain the run.

        Where it takes longer than a moment, a line on standard error says so.
        """
        from termprobe.cli.kept_dictionary import dictionary_if_simulated
        from termprobe.diagnosis.diagnose import diagnose

        dictionary = dictionary_if_simulated(self.plan, self.profile, self.header.profile_text)
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
        return run_report(
            self.path,
            self.header,
            self.recording,
            self.plan,
            self.verdict,
            self.profile,
            self.left_out,
            self._key_findings(),
            self._diagnosis(),
        )

    def _key_findings(self) -> KeyFindings | None:
        """Return what is concluded of the presses that were made; None where there were none."""
        if self.profile.keyboard is None or not any(map(_is_press, self.recording.records)):
            return None
        from termprobe.diagnosis.key_conclusion import conclude
        from termprobe.diagnosis.key_outcomes import outcomes_of

        outcomes = outcomes_of(self.recording.records)
        return KeyFindings(self.profile.keyboard, conclude(self.profile, outcomes))


def _is_press(record: Record) -> bool:
    return isinstance(record, Answered) and record.answer.heard is not None


def load_run(path: str | pathlib.Path) -> Recorded:
    """Return the run of the file at `path`; raise FileError where it cannot be read as one."""
    from termprobe.plan.compile import compile_plan  # it loads pyte

    recording = read(path)
    header = recording.header
    if header is None or not header.profile_text or not header.script_text:
        raise _no_run_file(path, recording)
    profile = profiles.parse(*_text_of(header, path, "profile"))
    script_text, script_name = _text_of(header, path, "script")
    script = scripts.parse_recorded(script_text, script_name)
    plan = whole = compile_plan(profile, script, script_name)
    if header.chosen is not None:
        plan = choose(whole, header.chosen)
    missed = left_out(whole, plan)
    plan = with_covering(plan, dict(header.covered))
    return Recorded(str(path), recording, header, profile, plan, missed)


def _text_of(header: Header, path: str | pathlib.Path, kind: str) -> tuple[str, str]:
    texts = {"profile": header.profile_text, "script": header.script_text}
    return texts[kind], f"{path} ({kind})"


def _no_run_file(path: str | pathlib.Path, recording: Recording) -> FileError:
    damage = "".join(f" ({text})" for text in recording.damages[:1])
    wanted = "must be a run file, BOARD-DATE.run.jsonl, whose first line holds profile and script"
    return FileError([f"{path}: {wanted}; this one does not{damage}"])
