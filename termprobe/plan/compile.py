"""Compiles a script against a profile: pure, and the same plan every time."""

import hashlib
import json
from dataclasses import replace
from functools import lru_cache

from termprobe.errors import FileError
from termprobe.notation import show
from termprobe.plan.arrange import moved, ordered
from termprobe.plan.choose import plan_hash
from termprobe.plan.document import step_document
from termprobe.plan.enlarging import enlarged_of
from termprobe.plan.kinds import OF_KIND, PRESSES, of_press
from termprobe.plan.model import Ask, Group, Look, Measure, Plan, Reply, ScreenStep, Stage, Step
from termprobe.plan.presses import coded_presses, codes_of
from termprobe.plan.probes import probe_groups
from termprobe.plan.reply_form import form_of
from termprobe.plan.sending import (
    NotFittedError,
    ScriptError,
    cell_of,
    command_group,
    groups_of,
    text_group,
)
from termprobe.plan.varied import lack, varied
from termprobe.profile.itself import Itself
from termprobe.profile.model import Profile
from termprobe.script.model import Fragment, Script, ScriptStage, ScriptStep
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import Screen

KEPT = 16
"""Plans that are kept: a run has the plan that its report compiles again of the run file."""


def compile_plan(
    profile: Profile, script: Script, name: str | None = None, speed_baud: int | None = None
) -> Plan:
    """Return the Plan of `script` for boards of `profile`, the same for the same two.

    Raises FileError where the script asks for what no profile can do. `name` is what the findings
    call the script's file; its id by default. `speed_baud` is that of the line, which some limits
    go by; the profile's by default.
    """
    speed_baud = speed_baud or profile.link.speed_baud
    try:
        return _good(Itself(profile), Itself(script), speed_baud)
    except FileError:
        return _compiled(profile, script, name or f"script {script.id}", speed_baud)


@lru_cache(maxsize=KEPT)
def _good(profile: Itself[Profile], script: Itself[Script], speed_baud: int) -> Plan:
    return _compiled(profile.held, script.held, "", speed_baud)


def _compiled(profile: Profile, script: Script, name: str, speed_baud: int) -> Plan:
    compiler = _Compiler(profile, script, name, speed_baud)
    stages: list[Stage] = []
    steps: list[Step] = []
    positions = {str(option.name): str(option.normal) for option in profile.options}
    for stage in script.stages:
        caution = _text(script.cautions.get(stage.caution or ""))
        stages.append(Stage(str(stage.id), str(stage.title), caution))
        of_stage = ordered(compiler.stage(stage), positions)
        _, positions = moved(of_stage, positions)
        steps += of_stage
    if compiler.findings:
        raise FileError(compiler.findings)
    return Plan(
        profile_id=str(profile.id),
        script_id=str(script.id),
        title=str(script.title),
        rows=profile.display.rows,
        columns=profile.display.columns,
        stages=tuple(stages),
        steps=tuple(steps),
        hash=plan_hash(steps),
        key_codes=codes_of(coded_presses(profile)),
    )


class _Compiler:
    """Goes through the steps in order, since a step may go on from the screen of the one before."""

    def __init__(self, profile: Profile, script: Script, name: str, speed_baud: int) -> None:
        self._profile, self._script, self._name = profile, script, name
        self._speed_baud = speed_baud
        self.findings: list[str] = []
        self._members: dict[str, tuple[str, ...]] = {}
        """Id of each stage and step of the script -> the ids of the plan's steps that it becomes.
        """
        for stage in script.stages:
            members = {str(step.id): self._ids(step) for step in stage.steps}
            self._members |= members
            self._members[str(stage.id)] = tuple(id for ids in members.values() for id in ids)
        steps = [step for stage in script.stages for step in stage.steps]
        moved = [one.settings for step in steps for one in varied(profile, step)]
        self._moved = {str(option) for settings in moved for option in settings}
        self._before: Reference | None = None
        """A terminal that shows the screen of the step before; None where that is unknown."""

    def _ids(self, step: ScriptStep) -> tuple[str, ...]:
        presses = PRESSES[step.kind].of(self._profile) if step.kind in PRESSES else ()
        own = tuple(str(one.id) for one in varied(self._profile, step))
        return tuple(press.id for press in presses) or own

    def stage(self, stage: ScriptStage) -> list[Step]:
        """Return the steps of one stage, in the order of the script."""
        found: list[Step] = []
        for step in stage.steps:
            for one in varied(self._profile, step):
                found += self._steps(stage, one)
        return found

    def _steps(self, stage: ScriptStage, step: ScriptStep) -> list[Step]:
        """Return the compiled Steps: one, but for the presses of a keyboard."""
        record = self._compiled(stage, step)
        if step.kind not in PRESSES:
            return [_hashed(record, step)]
        kind = PRESSES[step.kind]
        presses = kind.of(self._profile)
        if not presses:
            why = f"profile {self._profile.id} describes {kind.lacks}"
            return [_hashed(replace(record, not_fitted=why), step)]
        return [_hashed(of_press(record, press), step) for press in presses]

    def _compiled(self, stage: ScriptStage, step: ScriptStep) -> Step:
        record = replace(
            OF_KIND[step.kind](step),
            stage=str(stage.id),
            source=_text(step.source),
            settings=self._settings(step),
            needs=self._needs(stage, step),
            caution=_text(self._script.cautions.get(step.caution or stage.caution or "")),
            stop_if=_text(step.stop_if),
            blames=step.blames or "",
            continues=step.start == "keep",
        )
        if isinstance(record, Measure) and step.per_baud:
            record = record.times(self._speed_baud)
        try:
            return self._with_bytes(step, record)
        except NotFittedError as reason:
            self._before = None
            return replace(record, not_fitted=str(reason), continues=False)
        except ScriptError as reason:
            place = reason.place or step.place
            where = f"{self._name}:{place.line}:{place.column}"
            self.findings.append(f"{where}: {step.id}: {reason}")
            return record

    def _with_bytes(self, step: ScriptStep, record: Step) -> Step:
        self._refuse_unfitted_option(step)
        groups = self._groups(step)
        terminal = self._earlier(step)
        self._before = terminal
        record = replace(record, groups=tuple(groups))
        shown = _shown(terminal, record)
        if isinstance(record, Look) and step.enlarged:
            record = replace(record, enlarged=enlarged_of(self._profile, step.enlarged, shown))
        if isinstance(record, Reply):
            return self._replying(step, record, shown)
        is_drawn = bool(groups) or step.start == "keep" or not isinstance(record, Ask)
        if isinstance(record, ScreenStep) and is_drawn:
            return replace(record, expected=shown and replace(shown, replies=b""))
        return record

    def _replying(self, step: ScriptStep, record: Reply, shown: Screen | None) -> Reply:
        if shown is None or not shown.replies:
            raise NotFittedError(f"profile {self._profile.id} gives {step.command} no reply")
        command = self._profile.command(str(step.command))
        assert command is not None and command.reply is not None
        self._refuse_unknown_reply(step)
        return replace(record, reply=shown.replies, form=form_of(command.reply))

    def _refuse_unknown_reply(self, step: ScriptStep) -> None:
        """Refuse a reply behind another one that only the unit knows."""
        for fragment in step.send:
            before = self._profile.command(str(fragment.command))
            if before is not None and before.reply is not None and form_of(before.reply):
                raise NotFittedError(f"what comes back of {fragment.command} only the unit knows")

    def _groups(self, step: ScriptStep) -> list[Group]:
        """Return what the step sends."""
        if step.word:
            self._refuse_word(str(step.word))
        groups: list[Group] = []
        if step.start == "fresh" and _draws(step):
            groups += [command_group(self._profile, str(name)) for name in self._profile.fresh]
        for fragment in step.send:
            groups += self._of_fragment(fragment)
        if step.word:
            groups.append(text_group(str(step.word)))
        if step.kind == "reply":
            groups.append(command_group(self._profile, str(step.command), short=step.short))
        return groups

    def _of_fragment(self, fragment: Fragment) -> list[Group]:
        try:
            if fragment.probe is not None:
                row, column = cell_of(self._profile, fragment)
                return probe_groups(self._profile, str(fragment.probe), row or 0, column or 0)
            return groups_of(self._profile, fragment)
        except ScriptError as reason:
            reason.place = fragment.place
            raise

    def _earlier(self, step: ScriptStep) -> Reference | None:
        """Return a terminal with the screen on which the step begins, None where it is unknown."""
        if step.start == "fresh":
            return Reference(self._profile)
        if step.start == "keep":
            if self._before is None:
                raise NotFittedError(
                    "it goes on from the screen of the step before, which is not fitted"
                )
            return self._before
        return None

    def _refuse_unfitted_option(self, step: ScriptStep) -> None:
        if lack(self._profile, step):
            raise NotFittedError(lack(self._profile, step))
        wanted = list(step.settings.items())
        if step.option is not None:
            wanted.insert(0, (step.option, step.position or ""))
        options = self._profile.options
        fitted = {str(option.name): option.positions for option in options}
        for option, position in wanted:
            if position not in fitted.get(option, ()):
                what = f"option {option} with a position {position}"
                raise NotFittedError(f"profile {self._profile.id} has no {what}")

    def _refuse_word(self, word: str) -> None:
        """Refuse a word to be typed back that cannot be shown or typed.

        It needs its glyphs on the screen and its codes, RETURN too, on the keyboard.
        """
        printing = self._profile.display.printing
        for code in word.encode("ascii"):
            if not printing.first <= code <= printing.last:
                raise NotFittedError(f"profile {self._profile.id} shows no {show(bytes([code]))}")
        codes = {press.code for press in coded_presses(self._profile)}
        for code in word.encode("ascii") + b"\r" if codes else b"":
            if bytes([code]) not in codes:
                keyboard = f"the keyboard of profile {self._profile.id}"
                raise NotFittedError(f"{keyboard} sends no {show(bytes([code]))}")

    def _settings(self, step: ScriptStep) -> tuple[tuple[str, str], ...]:
        if step.kind == "switch":
            return ()
        options = [option for option in self._profile.options if option.name in self._moved]
        normal = {str(option.name): str(option.normal) for option in options}
        wanted = {str(option): str(position) for option, position in step.settings.items()}
        return tuple(sorted((normal | wanted).items()))

    def _needs(self, stage: ScriptStage, step: ScriptStep) -> tuple[str, ...]:
        needed: list[str] = []
        for need in (*stage.needs, *step.needs):
            needed += self._members[str(need)]
        return tuple(dict.fromkeys(need for need in needed if need != step.id))


def _shown(terminal: Reference | None, record: Step) -> Screen | None:
    """Let `terminal` receive what `record` sends, its options set; return what it then shows.

    Bells, replies and what is printed are those of these bytes alone. It is None where nothing is
    known of it.
    """
    if terminal is None:
        return None
    terminal.set_options(dict(record.settings))
    start = terminal.screen()
    terminal.feed(record.data)
    shown = terminal.screen()
    own, printed = shown.replies[len(start.replies) :], shown.printed[len(start.printed) :]
    return replace(shown, replies=own, printed=printed, bells=shown.bells - start.bells)


def _draws(step: ScriptStep) -> bool:
    return step.kind in ("look", "typed-back", "reply") or bool(step.send)


def _text(value: str | None) -> str | None:
    return None if value is None else str(value)


def _hashed(record: Step, step: ScriptStep) -> Step:
    """Return `record` with the SHA-256 of its kind and all its other fields.

    What a script of an old run file said of covering counts here, so that hashes stay the same.
    """
    document = step_document(record)
    if isinstance(record, Look):
        document["covered_by"] = [str(look) for look in step.covered_by]
    text = json.dumps(document, sort_keys=True)
    return replace(record, hash=hashlib.sha256(text.encode()).hexdigest())
