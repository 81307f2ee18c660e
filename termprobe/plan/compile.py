"""Compiles a script against a profile: pure, and the same plan every time."""

import dataclasses
import hashlib
import json

from termprobe.errors import FileError
from termprobe.notation import show
from termprobe.plan.choose import plan_hash
from termprobe.plan.document import step_document
from termprobe.plan.model import PRESS, Plan, Stage, Step
from termprobe.plan.arrange import moved, ordered
from termprobe.plan.presses import chord_presses, coded_presses, codes_of
from termprobe.plan.sending import NotFitted, Wrong, command_group, groups_of
from termprobe.terminal.reference import Reference

PRESSES = {"keys": coded_presses, "chords": chord_presses}
"""Kinds of script steps that stand for many presses."""


def compile_plan(profile, script, name=None):
    """Return the Plan of `script` for boards of `profile`; raise FileError where the script asks for what no profile can do.

    `name` is what the findings call the script's file; its id by default.
    """
    findings = []
    compiler = _Compiler(profile, script, name or f"script {script.id}", findings)
    stages, steps = [], []
    positions = {str(option.name): str(option.normal) for option in profile.options}
    for stage in script.stages:
        stages.append(
            Stage(str(stage.id), str(stage.title), _text(script.cautions.get(stage.caution)))
        )
        of_stage = ordered(
            [compiled for step in stage.steps for compiled in compiler.steps(stage, step)],
            positions,
        )
        _, positions = moved(of_stage, positions)
        steps += of_stage
    if findings:
        raise FileError(findings)
    return Plan(
        str(profile.id),
        str(script.id),
        str(script.title),
        profile.display.rows,
        profile.display.columns,
        tuple(stages),
        tuple(steps),
        plan_hash(steps),
        codes_of(coded_presses(profile)),
    )


class _Compiler:
    """Goes through the steps in order, since a step may go on from the screen of the one before."""

    def __init__(self, profile, script, name, findings):
        self._profile, self._script, self._name, self._findings = profile, script, name, findings
        self._members = {}
        for stage in script.stages:
            self._members |= {str(step.id): self._ids(step) for step in stage.steps}
            self._members[str(stage.id)] = tuple(
                member for step in stage.steps for member in self._ids(step)
            )
        self._moved = {
            str(option)
            for stage in script.stages
            for step in stage.steps
            for option in step.settings
        }
        self._before = None
        """(bytes that made the screen of the step before) or None where that screen is unknown."""

    def _ids(self, step):
        """Return the ids of the Steps that `step` becomes."""
        presses = PRESSES[step.kind](self._profile) if step.kind in PRESSES else ()
        return tuple(press.id for press in presses) or (str(step.id),)

    def steps(self, stage, step):
        """Return the compiled Steps: one, but for the presses of a keyboard."""
        record = self._compiled(stage, step)
        if step.kind not in PRESSES:
            return [record]
        presses = PRESSES[step.kind](self._profile)
        if not presses:
            what = "no keyboard" if step.kind == "keys" else "no keyboard with diodes"
            return [
                _hashed(
                    dataclasses.replace(
                        record, not_fitted=f"profile {self._profile.id} describes {what}"
                    )
                )
            ]
        return [
            _hashed(
                dataclasses.replace(
                    record,
                    id=press.id,
                    kind=PRESS,
                    title=press.title,
                    reply=press.code,
                    key=press.key,
                    legend=press.legend,
                    modifiers=press.modifiers,
                    held=press.held,
                    may_repeat=press.may_repeat,
                )
            )
            for press in presses
        ]

    def _compiled(self, stage, step):
        record = Step(
            str(step.id),
            str(stage.id),
            str(step.kind),
            str(step.title),
            str(step.question),
            unit=_text(step.unit),
            low=step.low,
            high=step.high,
            source=_text(step.source),
            option=_text(step.option),
            position=_text(step.position),
            settings=self._settings(step),
            needs=self._needs(stage, step),
            covered_by=tuple(map(str, step.covered_by)),
            caution=_text(self._script.cautions.get(step.caution or stage.caution)),
            stop_if=_text(step.stop_if),
            continues=step.start == "keep",
            word=_text(step.word),
            glances=step.glances,
        )
        try:
            record = self._with_bytes(step, record)
        except NotFitted as reason:
            self._before = None
            record = dataclasses.replace(record, not_fitted=str(reason), continues=False)
        except Wrong as reason:
            place = reason.place or step.place
            self._findings.append(f"{self._name}:{place.line}:{place.column}: {step.id}: {reason}")
        return _hashed(record)

    def _with_bytes(self, step, record):
        self._refuse_unfitted_option(step)
        if step.word:
            self._refuse_word(str(step.word))
        fresh = self._profile.fresh if step.start == "fresh" and self._draws(step) else ()
        groups = [command_group(self._profile, str(name)) for name in fresh]
        for fragment in step.send:
            groups += self._groups(fragment)
        if step.word:
            groups += groups_of(self._profile, _Text(str(step.word)))
        if step.kind == "reply":
            groups.append(command_group(self._profile, str(step.command)))
        before = self._earlier(step)
        expected = reply = None
        if before is not None:
            reference = Reference(self._profile)
            reference.feed(before)
            start = reference.screen()
            reference.feed(b"".join(group.data for group in groups))
            screen = reference.screen()
            reply = screen.replies[len(start.replies) :] if step.kind == "reply" else None
            expected = dataclasses.replace(screen, replies=b"", bells=screen.bells - start.bells)
        if step.kind == "reply" and not reply:
            raise NotFitted(f"profile {self._profile.id} gives {step.command} no reply")
        self._before = None if before is None else before + b"".join(group.data for group in groups)
        is_shown = step.kind in ("look", "typed-back") or step.kind == "ask" and bool(groups)
        return dataclasses.replace(
            record, groups=tuple(groups), expected=expected if is_shown else None, reply=reply
        )

    def _groups(self, fragment):
        try:
            return groups_of(self._profile, fragment)
        except Wrong as reason:
            reason.place = fragment.place
            raise

    def _draws(self, step):
        return step.kind in ("look", "typed-back", "reply") or bool(step.send)

    def _earlier(self, step):
        """Return the bytes that made the screen on which the step begins, or None where that is unknown."""
        if step.start == "fresh":
            return b""
        if step.start == "keep":
            if self._before is None:
                raise NotFitted(
                    "it goes on from the screen of the step before, which is not fitted"
                )
            return self._before
        return None

    def _refuse_unfitted_option(self, step):
        for option, position in [(step.option, step.position), *step.settings.items()]:
            if option is None:
                continue
            fitted = next((known for known in self._profile.options if known.name == option), None)
            if fitted is None or position not in fitted.positions:
                raise NotFitted(
                    f"profile {self._profile.id} has no option {option} with a position {position}"
                )

    def _refuse_word(self, word):
        """A word to be typed back needs its glyphs on the screen and its codes, RETURN too, on the keyboard."""
        printing, codes = (
            self._profile.display.printing,
            {press.code for press in coded_presses(self._profile)},
        )
        for code in word.encode("ascii"):
            if not printing.first <= code <= printing.last:
                raise NotFitted(f"profile {self._profile.id} shows no {show(bytes([code]))}")
        for code in word.encode("ascii") + b"\r" if codes else b"":
            if bytes([code]) not in codes:
                raise NotFitted(
                    f"the keyboard of profile {self._profile.id} sends no {show(bytes([code]))}"
                )

    def _settings(self, step):
        normal = {
            str(option.name): str(option.normal)
            for option in self._profile.options
            if option.name in self._moved
        }
        wanted = {str(option): str(position) for option, position in step.settings.items()}
        return tuple(sorted((normal | wanted).items())) if step.kind != "switch" else ()

    def _needs(self, stage, step):
        needs = [
            member for need in (*stage.needs, *step.needs) for member in self._members[str(need)]
        ]
        return tuple(dict.fromkeys(need for need in needs if need != step.id))


@dataclasses.dataclass(frozen=True)
class _Text:
    """A fragment of text alone."""

    text: str
    command = pattern = bytes = None
    times = 1


def _text(value):
    return None if value is None else str(value)


def _hashed(step):
    """Return `step` with the SHA-256 of all its other fields."""
    return dataclasses.replace(
        step,
        hash=hashlib.sha256(json.dumps(step_document(step), sort_keys=True).encode()).hexdigest(),
    )
