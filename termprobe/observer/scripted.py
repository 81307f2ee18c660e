"""Answers from a file, so that a rig with instruments can run unattended.

The file is YAML: step id -> answer.
"""

from collections.abc import Mapping

from termprobe import yamlfile
from termprobe.findings import Findings, nearest
from termprobe.journal.records import AS_EXPECTED, DIFFERS, DUMP, SKIPPED, UNSURE, Answer
from termprobe.observer.base import Offer
from termprobe.observer.typed_reading import answer_of_reading, reading_of
from termprobe.plan.model import Ask, Measure, Plan, Step, Switch
from termprobe.yamlvalues import Text

ANSWERED_KINDS = (Measure, Ask, Switch)
ANSWER_OF_WORD = {"yes": AS_EXPECTED, "no": DIFFERS, "unsure": UNSURE, "skip": SKIPPED}


class ScriptedObserver:
    """Answers the steps that `answers` (step id -> Answer) names, and no others."""

    strength = DUMP
    name = "answers file"

    def __init__(self, answers: Mapping[str, Answer]) -> None:
        self._answers = dict(answers)

    def can_answer(self, step: Step) -> bool:
        """Return whether the file answers the step."""
        return isinstance(step, ANSWERED_KINDS) and step.id in self._answers

    def answer(self, step: Step) -> Answer | None:
        """Return the Answer of the file, or None."""
        return self._answers.get(step.id)


def load_answers(path: str, plan: Plan) -> ScriptedObserver:
    """Return a ScriptedObserver of the file at `path`; raise FileError with every finding."""
    return parse(yamlfile.read_text(path), str(path), plan)


def parse(text: str, name: str, plan: Plan) -> ScriptedObserver:
    """Return a ScriptedObserver of the answers in `text`.

    Raises FileError with every finding; `name` is what they call the file.
    """
    answers: dict[str, Answer] = {}

    def check(mapping: dict[Text, Text], findings: Findings) -> None:
        for step_id, typed in mapping.items():
            wrong = _wrong_id(step_id, plan)
            if wrong:
                findings.add(step_id, wrong)
                continue
            try:
                answers[str(step_id)] = _answer(plan.step(str(step_id)), str(typed))
            except ValueError as error:
                findings.add(typed, str(error))

    yamlfile.build(text, name, dict[Text, Text], (check,))
    return ScriptedObserver(answers)


OFFER = Offer(
    option="--answers",
    metavar="FILE",
    help="YAML, step id to answer, for measure, ask and switch steps; one file serves all stages",
    make=lambda path, plan, clock: load_answers(path, plan),
)


def _wrong_id(step_id: str, plan: Plan) -> str:
    """Return why the file cannot answer that step, nothing where it can."""
    if step_id not in plan.index:
        known = [step.id for step in plan.steps if isinstance(step, ANSWERED_KINDS)]
        near = nearest(step_id, known)
        return f'an answer must be for a step of the plan, not "{step_id}"{near}'
    step = plan.step(str(step_id))
    if not isinstance(step, ANSWERED_KINDS):
        kinds = ", ".join(kind.kind for kind in ANSWERED_KINDS)
        return f"an answer must be for a step of kind {kinds}; {step_id} is of kind {step.kind}"
    return ""


def _answer(step: Step, typed: str) -> Answer:
    is_word = typed in ANSWER_OF_WORD and not isinstance(step, Measure)
    if is_word or typed == "skip":
        note = "left out by the answers file" if typed == "skip" else ""
        return Answer(ANSWER_OF_WORD[typed], note=note)
    if not isinstance(step, Measure):
        words = f'the answer must be one of {", ".join(ANSWER_OF_WORD)}, not "{typed}"'
        raise ValueError(words + nearest(typed, ANSWER_OF_WORD))
    return answer_of_reading(step, reading_of(step, typed))
