"""Answers from a file, so that a rig with instruments can run unattended: YAML, step id -> answer."""

from termprobe import yamlfile
from termprobe.plan.model import ASK, MEASURE, SWITCH
from termprobe.observer.base import AS_EXPECTED, DIFFERS, DUMP, SKIPPED, UNSURE, Answer, Offer
from termprobe.observer.reading import parse_reading

KINDS = (MEASURE, ASK, SWITCH)
WORDS = {"yes": AS_EXPECTED, "no": DIFFERS, "unsure": UNSURE, "skip": SKIPPED}


class ScriptedObserver:
    """Answers the steps that `answers` (step id -> Answer) names, and no others."""

    strength = DUMP
    name = "answers file"

    def __init__(self, answers):
        self._answers = dict(answers)

    def can_answer(self, step):
        """Return whether the file answers the step."""
        return step.kind in KINDS and step.id in self._answers

    def answer(self, step):
        """Return the Answer of the file, or None."""
        return self._answers.get(step.id)


def load(path, plan):
    """Return a ScriptedObserver of the file at `path`; raise FileError with every finding."""
    return parse(yamlfile.read_text(path), str(path), plan)


def parse(text, name, plan):
    """Return a ScriptedObserver of the answers in `text`; raise FileError with every finding, places called by `name`."""
    answers = {}
    steps = {step.id: step for step in plan.steps}
    known = [step.id for step in plan.steps if step.kind in KINDS]

    def check(mapping, findings):
        for step_id, typed in mapping.items():
            if step_id not in steps:
                near = yamlfile.nearest(step_id, known)
                findings.add(
                    step_id, f'an answer must be for a step of the plan, not "{step_id}"{near}'
                )
            elif steps[step_id].kind not in KINDS:
                kind = steps[step_id].kind
                findings.add(
                    step_id,
                    f"an answer must be for a step of kind {', '.join(KINDS)}; {step_id} is of kind {kind}",
                )
            else:
                try:
                    answers[str(step_id)] = _answer(steps[step_id], str(typed))
                except ValueError as error:
                    findings.add(typed, str(error))

    yamlfile.build(text, name, dict[str, str], (check,))
    return ScriptedObserver(answers)


def _answer(step, typed):
    if typed in WORDS and (step.kind != MEASURE or typed == "skip"):
        return Answer(WORDS[typed], note="left out by the answers file" if typed == "skip" else "")
    if step.kind != MEASURE:
        raise ValueError(
            f'the answer must be one of {", ".join(WORDS)}, not "{typed}"{yamlfile.nearest(typed, WORDS)}'
        )
    value = parse_reading(typed, step.unit)
    return Answer(AS_EXPECTED if step.allows(value) else DIFFERS, value=value)


OFFER = Offer(
    option="--answers",
    metavar="FILE",
    help="YAML, step id to answer, for measure, ask and switch steps",
    make=lambda path, plan, clock: load(path, plan),
)
