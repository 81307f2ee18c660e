"""Run files, read back: recording, profile, script and plan, and the report made of them."""

import sys
from dataclasses import dataclass

from termprobe.errors import FileError
from termprobe.journal.file import Recording, read
from termprobe.plan.choose import choose
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import Plan
from termprobe.profile import load as profiles
from termprobe.profile.model import Profile
from termprobe.report.record import run_report
from termprobe.script import load as scripts
from termprobe.verdict.judge import judge


@dataclass(frozen=True)
class Recorded:
    """A run file and all that it was made with."""

    path: str
    recording: Recording
    profile: Profile
    plan: Plan


def load_run(path):
    """Return the Recorded run of the file at `path`; raise FileError where it cannot be read as one."""
    recording = read(path)
    header = recording.header
    if not header.get("profile_text") or not header.get("script_text"):
        damage = f" ({recording.damages[0]})" if recording.damages else ""
        raise FileError(
            [
                f"{path}: must be a run file, BOARD-DATE.run.jsonl, whose first line holds profile and script; this one does not{damage}"
            ]
        )
    profile = profiles.parse(header["profile_text"], f"{path} (profile)")
    script = scripts.parse(header["script_text"], f"{path} (script)")
    plan = compile_plan(profile, script, f"{path} (script)")
    if "chosen" in header:
        plan = choose(plan, header["chosen"])
    return Recorded(str(path), recording, profile, plan)


def report_of(path):
    """Return the RunReport of the run file at `path`."""
    run = load_run(path)
    return run_report(run.path, run.recording, run.plan, judge(run.plan, run.recording.records))


def write_out(text, path=None):
    """Write `text` to the file `path`, or to standard output."""
    if path is None:
        sys.stdout.write(text)
        return
    try:
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
    except OSError as error:
        raise FileError(
            [f"{path}: must be a file that can be written ({error.strerror}); try another -o FILE"]
        ) from None
