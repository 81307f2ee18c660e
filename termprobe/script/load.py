"""Reads scripts by id or path, and checks what only the whole shows."""

from collections.abc import Iterable
from functools import lru_cache

from termprobe import yamlfile
from termprobe.errors import FileError
from termprobe.findings import Findings, nearest, quoted, try_check
from termprobe.script.model import Fragment, Script, ScriptStage, ScriptStep, Span
from termprobe.yamlvalues import Text

CONTENTS = ("text", "command", "pattern", "probe", "bytes")
"""The keys of which a part of `send` has one."""
REQUIRED = {
    "typed-back": ("word",),
    "reply": ("command",),
    "measure": ("unit", "source"),
    "switch": ("option", "position"),
    "look": ("question",),
    "ask": ("question",),
    "keys": (),
    "chords": (),
    "line-check": ("check",),
}
"""The keys that a step of each kind must have."""
KEPT = 16
"""Texts whose scripts are kept: a run compiles its script, and its report that of the run file."""
MOST_ENLARGED = 8
"""So many enlarged characters have room beside one another on a console of 80 columns."""
MOST_IN_VARIANT = 12
"""As many as ISO 646 leaves open codes: of a step in each national variant, in two bands."""


def load(name: str) -> Script:
    """Return the Script that `name`, an id or a path, stands for.

    Raise FileError with every finding.
    """
    path = yamlfile.find(name, "scripts")
    return parse(yamlfile.read_text(path), str(path))


def parse(text: str, name: str) -> Script:
    """Return the Script written in `text`, the same for the same text.

    Raise FileError with every finding, in which `name` stands.
    """
    try:
        script = _good(text)
    except FileError:
        return yamlfile.build(text, name, Script, (*FOR_ANY_SCRIPT, _check_new_script))
    findings = Findings(name)
    _check_new_script(script, findings)
    findings.refuse()
    return script


def parse_recorded(text: str, name: str) -> Script:
    """Return the Script written in the `text` of a run file, as parse() does.

    In an old one looks may say what covers them.
    """
    try:
        return _good(text)
    except FileError:
        return yamlfile.build(text, name, Script, FOR_ANY_SCRIPT)


@lru_cache(maxsize=KEPT)
def _good(text: str) -> Script:
    return yamlfile.build(text, "", Script, FOR_ANY_SCRIPT)


def _check_new_script(script: Script, findings: Findings) -> None:
    for stage in script.stages:
        for step in stage.steps:
            try_check(_check_covering, step, findings)


def _check_covering(step: ScriptStep, findings: Findings) -> None:
    """Refuse what cannot be proven by whoever writes a script."""
    for look in step.covered_by[:1]:
        findings.add(
            look,
            f"{step.id} must be without the key covered_by: which looks cover it is worked out "
            "on simulated boards",
        )


def _check_ids(script: Script, findings: Findings) -> None:
    """Check that names stand once, and that what a step or stage needs stands before it."""
    known: set[str] = set()
    stages = {str(stage.id) for stage in script.stages}
    for stage in script.stages:
        _check_new(stage, known, findings)
        _check_needs(stage, known - {stage.id}, findings)
        for step in stage.steps:
            _check_new(step, known, findings)
            try_check(_check_needs, step, known - {step.id, stage.id}, findings)
            try_check(_check_told_by, step, known - stages - {step.id}, findings)
            try_check(_check_caution, step, script, findings)
        _check_caution(stage, script, findings)


def _check_new(item: ScriptStage | ScriptStep, known: set[str], findings: Findings) -> None:
    if item.id in known:
        findings.add(item.place, f'id must be new, not "{item.id}" again')
    known.add(item.id)


def _check_needs(item: ScriptStage | ScriptStep, known: set[str], findings: Findings) -> None:
    must = f"{item.id} must need a stage or step that stands before it"
    _check_known(must, item.needs, known, findings)


def _check_told_by(step: ScriptStep, known: set[str], findings: Findings) -> None:
    must = f"what tells {step.id} must be a step that stands before it"
    _check_known(must, step.told_by.values(), known, findings)


def _check_known(must: str, names: Iterable[Text], known: set[str], findings: Findings) -> None:
    for name in names:
        if name not in known:
            findings.add(name, f'{must}, not "{name}"{nearest(name, known)}')


def _check_caution(item: ScriptStage | ScriptStep, script: Script, findings: Findings) -> None:
    if item.caution is not None and item.caution not in script.cautions:
        allowed = ", ".join(script.cautions) or "none"
        near = nearest(item.caution, script.cautions)
        findings.add(
            item.place,
            f'caution of {item.id} must be one of {allowed}, not "{item.caution}"{near}',
        )


def _check_steps(script: Script, findings: Findings) -> None:
    for stage in script.stages:
        for step in stage.steps:
            for check in STEP_CHECKS:
                try_check(check, step, findings)


def _check_required(step: ScriptStep, findings: Findings) -> None:
    for field in REQUIRED[step.kind]:
        if not getattr(step, field):
            findings.add(
                step.place,
                f"a step of kind {step.kind} must have the key {field}, and {step.id} has none",
            )


def _check_limits(step: ScriptStep, findings: Findings) -> None:
    for span in (step, *step.ranges, step.usual, step.possible):
        if span is not None:
            _check_span(step, span, findings)
    for span in step.ranges:
        if span.low is None or span.high is None:
            findings.add(span.place, f"a range of {step.id} must have low and high")
    has_limit = step.low is not None or step.high is not None
    if has_limit and step.ranges:
        findings.add(step.place, f"{step.id} must have low and high, or ranges, and not both")
    if step.kind == "measure" and not has_limit and not step.ranges:
        findings.add(step.place, f"{step.id} must have a limit, low or high or both")


def _check_span(step: ScriptStep, span: ScriptStep | Span, findings: Findings) -> None:
    low, high = span.low, span.high
    if low is not None and high is not None and low > high:
        findings.add(
            span.place, f"low of {step.id} must be at most high, not {low:g} against {high:g}"
        )


def _check_looking(step: ScriptStep, findings: Findings) -> None:
    if not 1 <= step.glances <= 100:
        findings.add(step.place, f"glances of {step.id} must be 1 to 100, not {step.glances}")
    if step.kind == "look" and step.start == "none":
        findings.add(
            step.place, f"start of {step.id} must be fresh or keep, for a look needs a known screen"
        )


def _check_word(step: ScriptStep, findings: Findings) -> None:
    if step.word is not None:
        _check_printable("word", step, step.word, findings)


def _check_enlarged(step: ScriptStep, findings: Findings) -> None:
    if step.enlarged is None:
        return
    _check_printable("enlarged", step, step.enlarged, findings)
    if step.kind != "look":
        must = f"enlarged of {step.id} must go with kind look"
        findings.add(step.enlarged, f"{must}, not {step.kind}")
    most = MOST_ENLARGED
    if step.variants:
        most = MOST_IN_VARIANT
    if not 1 <= len(set(step.enlarged)) == len(step.enlarged) <= most:
        must = f"enlarged of {step.id} must be 1 to {most} different characters"
        findings.add(step.enlarged, f"{must}, not {quoted(step.enlarged)}")


def _check_short(step: ScriptStep, findings: Findings) -> None:
    if step.short and step.kind != "reply":
        findings.add(step.place, f"short of {step.id} must go with kind reply, not {step.kind}")


def _check_send(step: ScriptStep, findings: Findings) -> None:
    for fragment in step.send:
        try_check(_check_fragment, step, fragment, findings)


def _check_fragment(step: ScriptStep, fragment: Fragment, findings: Findings) -> None:
    given = [name for name in CONTENTS if getattr(fragment, name) is not None]
    if len(given) != 1:
        allowed, found = ", ".join(CONTENTS), " and ".join(given) or "none"
        findings.add(
            fragment.place, f"a part of send in {step.id} must have one of {allowed}, not {found}"
        )
    if fragment.text is not None:
        _check_printable("text", step, fragment.text, findings)
    takes_cell = fragment.command is not None or fragment.probe is not None
    if fragment.at and (not takes_cell or len(fragment.at) not in (1, 2)):
        findings.add(
            fragment.place, f"at in {step.id} must be a row and a column of a command or a probe"
        )
    if fragment.short and fragment.command is None:
        findings.add(fragment.place, f"short in {step.id} must go with a command")
    if fragment.with_ is not None and fragment.pattern is None:
        findings.add(fragment.place, f"with in {step.id} must go with a pattern")
    if fragment.rows is not None:
        _check_rows(step, fragment, findings)
    if not 1 <= fragment.times <= 10_000:
        findings.add(fragment.place, f"times in {step.id} must be 1 to 10000, not {fragment.times}")


def _check_rows(step: ScriptStep, fragment: Fragment, findings: Findings) -> None:
    if fragment.text is None or len(fragment.text) != 1 or fragment.times != 1:
        must = f"rows in {step.id} must go with a text of one character, and without times"
        findings.add(fragment.place, must)
    if fragment.rows not in range(1, 100):
        findings.add(fragment.place, f"rows in {step.id} must be 1 to 99, not {fragment.rows}")


def _check_printable(key: str, step: ScriptStep, text: Text, findings: Findings) -> None:
    wrong = next((character for character in text if not " " <= character <= "~"), None)
    if wrong is not None:
        findings.add(
            text,
            f"{key} in {step.id} must be printable ASCII, not hold {ascii(wrong)}; "
            "other codes go under bytes",
        )


STEP_CHECKS = (
    _check_required,
    _check_limits,
    _check_looking,
    _check_word,
    _check_enlarged,
    _check_short,
    _check_send,
)
"""Each goes on with what is known where another one meets a value that is not."""
FOR_ANY_SCRIPT = (_check_ids, _check_steps)
"""Of a script, new or recorded."""
