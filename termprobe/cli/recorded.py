"""Run files, read back: recording, profile, script and plan, and the report made of them."""

import pathlib
from dataclasses import dataclass

from termprobe.errors import FileError
from termprobe.journal.reading import Recording, read
from termprobe.journal.records import Header
from termprobe.plan.choose import choose
from termprobe.plan.model import Plan
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.report.record import RunReport, run_report
from termprobe.script import load as scripts
from termprobe.verdict.judge import judge


@dataclass(frozen=True)
class Recorded:
    """A run file and all that it was made with."""

    path: str
    recording: Recording
    header: Header
    profile: Profile
    plan: Plan
    """The part that was chosen for the run."""

    def text_of(self, kind: str) -> tuple[str, str]:
        """Return (text, its name in findings) of the run's profile or script, as `kind` says."""
        return _text_of(self.header, self.path, kind)

    @property
    def report(self) -> RunReport:
        """What the run has shown."""
        verdict = judge(self.plan, self.recording.records)
        return run_report(self.path, self.header, self.recording, self.plan, verdict)


def load_run(path: str | pathlib.Path) -> Recorded:
    """Return the run of the file at `path`; raise FileError where it cannot be read as one."""
    from termprobe.plan.compile import compile_plan  # it loads pyte

    recording = read(path)
    header = recording.header
    if header is None or not header.profile_text or not header.script_text:
        raise _no_run_file(path, recording)
    profile = profiles.parse(*_text_of(header, path, "profile"))
    script_text, script_name = _text_of(header, path, "script")
    script = scripts.parse(script_text, script_name)
    plan = compile_plan(profile, script, script_name, speed_of(header))
    if header.chosen is not None:
        plan = choose(plan, header.chosen)
    return Recorded(str(path), recording, header, profile, plan)


def speed_of(header: Header) -> int | None:
    """Return the speed of the line at the beginning of a run; None where it is not known."""
    if header.link is None:
        return None
    speed, *_ = header.link.format.split() or [""]
    return int(speed) if speed.isdecimal() else None


def _text_of(header: Header, path: str | pathlib.Path, kind: str) -> tuple[str, str]:
    texts = {"profile": header.profile_text, "script": header.script_text}
    return texts[kind], f"{path} ({kind})"


def _no_run_file(path: str | pathlib.Path, recording: Recording) -> FileError:
    damage = "".join(f" ({text})" for text in recording.damages[:1])
    wanted = "must be a run file, BOARD-DATE.run.jsonl, whose first line holds profile and script"
    return FileError([f"{path}: {wanted}; this one does not{damage}"])
