"""Reads scripts by id or path, and checks what only the whole shows."""

from termprobe import yamlfile
from termprobe.script.model import Script

CONTENTS = ("text", "command", "pattern", "bytes")
REQUIRED = {
    "typed-back": ("word",),
    "reply": ("command",),
    "measure": ("unit", "source"),
    "switch": ("option", "position"),
    "look": ("question",),
    "ask": ("question",),
    "keys": (),
    "chords": (),
}


def load(name):
    """Return the Script that `name`, an id or a path, stands for; raise FileError with every finding."""
    path = yamlfile.find(name, "scripts")
    return parse(yamlfile.read_text(path), str(path))


def parse(text, name):
    """Return the Script written in `text`; `name` stands in the findings. Raise FileError with every finding."""
    return yamlfile.build(text, name, Script, (_check_ids, _check_steps))


def _check_ids(script, findings):
    """Names stand once; what a step or stage needs, and the looks that cover a step, stand before it."""
    known, looks = set(), set()
    for stage in script.stages:
        _check_new(stage, known, findings)
        _check_known(stage, known - {stage.id}, findings)
        for step in stage.steps:
            _check_new(step, known, findings)
            _check_known(step, known - {step.id, stage.id}, findings)
            _check_covered(step, looks, findings)
            looks |= {str(step.id)} if step.kind == "look" else set()
            _check_caution(step, script, findings)
        _check_caution(stage, script, findings)


def _check_new(item, known, findings):
    if item.id in known:
        findings.add(item.place, f'id must be new, not "{item.id}" again')
    known.add(str(item.id))


def _check_known(item, known, findings):
    for need in item.needs:
        if need not in known:
            findings.add(
                need,
                f'{item.id} must need a stage or step that stands before it, not "{need}"{yamlfile.nearest(need, known)}',
            )


def _check_covered(step, looks, findings):
    for look in step.covered_by:
        if look not in looks:
            findings.add(
                look,
                f'{step.id} must be covered by a look that stands before it, not "{look}"{yamlfile.nearest(look, looks)}',
            )


def _check_caution(item, script, findings):
    if item.caution is not None and item.caution not in script.cautions:
        findings.add(
            item.place,
            f'caution of {item.id} must be one of {", ".join(script.cautions) or "none"}, not "{item.caution}"'
            + yamlfile.nearest(item.caution, script.cautions),
        )


def _check_steps(script, findings):
    for step in (step for stage in script.stages for step in stage.steps):
        for field in REQUIRED[step.kind]:
            if not getattr(step, field):
                findings.add(
                    step.place,
                    f"a step of kind {step.kind} must have the key {field}, and {step.id} has none",
                )
        if step.kind == "measure" and step.low is None and step.high is None:
            findings.add(step.place, f"{step.id} must have a limit, low or high or both")
        if step.low is not None and step.high is not None and step.low > step.high:
            findings.add(
                step.place,
                f"low of {step.id} must be at most high, not {step.low:g} against {step.high:g}",
            )
        if not 1 <= step.glances <= 100:
            findings.add(step.place, f"glances of {step.id} must be 1 to 100, not {step.glances}")
        if step.kind == "look" and step.start == "none":
            findings.add(
                step.place,
                f"start of {step.id} must be fresh or keep, for a look needs a known screen",
            )
        if step.word is not None:
            _check_printable("word", step, step.word, findings)
        for fragment in step.send:
            _check_fragment(step, fragment, findings)


def _check_fragment(step, fragment, findings):
    given = [name for name in CONTENTS if getattr(fragment, name) is not None]
    if len(given) != 1:
        findings.add(
            fragment.place,
            f"a part of send in {step.id} must have one of {', '.join(CONTENTS)}, not {' and '.join(given) or 'none'}",
        )
    if fragment.text is not None:
        _check_printable("text", step, fragment.text, findings)
    if fragment.at and (fragment.command is None or len(fragment.at) not in (1, 2)):
        findings.add(fragment.place, f"at in {step.id} must be a row and a column of a command")
    if fragment.with_ is not None and fragment.pattern is None:
        findings.add(fragment.place, f"with in {step.id} must go with a pattern")
    if not 1 <= fragment.times <= 10_000:
        findings.add(fragment.place, f"times in {step.id} must be 1 to 10000, not {fragment.times}")


def _check_printable(key, step, text, findings):
    if wrong := [character for character in text if not " " <= character <= "~"]:
        findings.add(
            text,
            f"{key} in {step.id} must be printable ASCII, not hold {ascii(wrong[0])}; other codes go under bytes",
        )
