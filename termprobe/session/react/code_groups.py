"""Groups of bytes taken apart: each command and each control code becomes a group of its own.

So the one code that went wrong can be told. Pure.
"""

from collections.abc import Iterable, Iterator

from termprobe.notation import show
from termprobe.plan.model import Group
from termprobe.profile.model import Profile
from termprobe.terminal.decoded import Decoded, Meaning, Printable
from termprobe.terminal.decoder import Decoder

TEXT = "text"
NAMELESS = "bytes"
"""Groups of this label are called by what each part of them is."""


def code_groups(profile: Profile, groups: Iterable[Group]) -> tuple[Group, ...]:
    """Return `groups` with the same bytes, in groups of one code, or command, or text each."""
    decoder = Decoder(profile)
    return tuple(part for group in groups for part in _parts(decoder, group))


def _parts(decoder: Decoder, group: Group) -> list[Group]:
    """Return the parts of one group; the pause behind it is that behind the last of them."""
    found: list[Group] = []
    for data, meanings in _units(decoder, group.data):
        if _is_text(meanings) and found and found[-1].label == _text_label(group):
            found[-1] = Group(found[-1].data + data, found[-1].label)
        else:
            found.append(Group(data, _label(group, data, meanings), _settle_s(meanings)))
    if found:
        last = found[-1]
        found[-1] = Group(last.data, last.label, max(last.settle_s, group.settle_s))
    return found


def _units(decoder: Decoder, data: bytes) -> Iterator[tuple[bytes, list[Meaning]]]:
    """Yield the bytes that mean something together, and what they mean.

    Of what is begun and not ended there is no meaning.
    """
    begun = b""
    for code in data:
        begun += bytes([code])
        meanings = decoder.feed(bytes([code]))
        if meanings:
            yield begun, meanings
            begun = b""
    if begun:
        yield begun, []


def _is_text(meanings: list[Meaning]) -> bool:
    return bool(meanings) and all(isinstance(meaning, Printable) for meaning in meanings)


def _text_label(group: Group) -> str:
    return TEXT if group.label.startswith(NAMELESS) else group.label


def _label(group: Group, data: bytes, meanings: list[Meaning]) -> str:
    """Return what a part is: `down 0A`, `address 5, 10 1B 3D 25 2A`, `ENQ 05, no command`."""
    if _is_text(meanings):
        return _text_label(group)
    codes = data.hex(" ").upper()
    commands = [_command_words(meaning) for meaning in meanings if isinstance(meaning, Decoded)]
    if commands:
        return f"{', '.join(commands)} {codes}"
    ending = "no command" if meanings else "begun"
    return f"{show(data)} {codes}, {ending}"


def _command_words(decoded: Decoded) -> str:
    numbers = [number for number in (decoded.row, decoded.column) if number is not None]
    if decoded.count > 1:
        numbers.append(decoded.count)
    where = ", ".join(map(str, numbers))
    return " ".join(filter(None, (str(decoded.command.name), where)))


def _settle_s(meanings: list[Meaning]) -> float:
    """Return the pause that the commands among the meanings ask for."""
    pauses = [one.command.settle_ms for one in meanings if isinstance(one, Decoded)]
    return max(pauses, default=0) / 1000
