"""Reads profiles by id or path, and checks what only the whole shows."""

from termprobe import yamlfile
from termprobe.profile.model import Profile
from termprobe.profile.vocabulary import ACTIONS


def load(name):
    """Return the Profile that `name`, an id or a path, stands for; raise FileError with every finding."""
    path = yamlfile.find(name, "profiles")
    return parse(yamlfile.read_text(path), str(path))


def parse(text, name):
    """Return the Profile written in `text`; `name` stands in the findings. Raise FileError with every finding."""
    return yamlfile.build(text, name, Profile, (_check_commands,))


def _check_commands(profile, findings):
    names = [command.name for command in profile.commands]
    for command in profile.commands:
        if command.action not in ACTIONS:
            findings.add(command.action, f'action must be one of {", ".join(ACTIONS)}, not "{command.action}"{yamlfile.nearest(command.action, ACTIONS)}')
            continue
        slots, edges, _ = ACTIONS[command.action]
        if bool(edges) != bool(command.edge) or edges and command.edge not in edges:
            allowed = f"one of {', '.join(edges)}" if edges else "left out"
            findings.add(command.edge or command.name, f'edge of {command.name} must be {allowed}, not "{command.edge or "left out"}"{yamlfile.nearest(command.edge, edges)}')
        for slot in (part for part in command.bytes if isinstance(part, str)):
            if slot not in slots:
                findings.add(command.bytes, f'a slot of {command.name} must be one of {", ".join(slots) or "none"}, not "{slot}"')
    for name in profile.fresh:
        if name not in names:
            findings.add(name, f'fresh must name commands of this profile, not "{name}"{yamlfile.nearest(name, names)}')
