"""Finds out which cable is on the bench: by control lines, a token, and what a person tells."""

from collections.abc import Sequence

from termprobe.line.in_use import Checked, LineInUse, echoed, levels_with
from termprobe.line.wiring_drawing import drawn
from termprobe.line.wiring_signs import (
    HEARD,
    LineSigns,
    PossibleCable,
    explanations,
    likeliest,
)

TOKEN = b"UTP#75"
"""A text that no board sends by itself."""
DRIVEN = ("rts", "dtr")
KEY, SHOWS, TYPED = "key", "shows", "typed"
"""Words of a step's `told_by`: the steps in which a key is pressed, a character is sent, and a key
is typed at full duplex without showing."""
ALSO = 3
"""So many that suppose more are named."""


def signs_of(line: LineInUse) -> LineSigns:
    """Return what is seen of the cable; RTS and DTR are left on."""
    hears_itself = TOKEN in echoed(line, TOKEN)
    key = line.came(KEY)
    key_comes = None
    if key is not None and not hears_itself:
        key_comes = bool(key)
    stays = line.told(TYPED)
    typed_shows = None
    if stays is not None:
        typed_shows = not stays
    follows, on = _control_lines(line)
    return LineSigns(follows, on, hears_itself, key_comes, line.told(SHOWS), typed_shows)


def _control_lines(line: LineInUse) -> tuple[dict[str, frozenset[str]], dict[str, bool]]:
    """Return which of our lines each that we hear follows, and which are on."""
    if line.lines() is None:
        return {}, {}
    for driven in DRIVEN:
        levels_with(line, driven, True)
    on = dict(line.lines() or {})
    without = {driven: levels_with(line, driven, False) for driven in DRIVEN}
    return {name: _followed(name, on, without) for name in HEARD}, on


def _followed(
    name: str, on: dict[str, bool], without: dict[str, dict[str, bool]]
) -> frozenset[str]:
    """Return with which of ours the line `name` changes; `without` are the levels without each."""
    return frozenset(driven for driven in DRIVEN if without[driven][name] != on[name])


def wiring(line: LineInUse) -> Checked:
    """Name the cables that can be on the bench, the likeliest first, and draw that."""
    signs = signs_of(line)
    found = explanations(signs, line.handshake)
    if not found:
        return Checked(False, f"none of the cables known is such: {_seen(signs)}")
    best = likeliest(found)
    said = [_named(best), *_told_apart(best), *_others(found[len(best) :]), _seen(signs)]
    return Checked(_is_right(signs, best), "; ".join(said), drawn(best[0].wiring))


def _is_right(signs: LineSigns, best: Sequence[PossibleCable]) -> bool | None:
    """Return whether data can pass both ways; None where nothing is known of data."""
    carries = {one.carries_both_ways for one in best}
    is_known = signs.hears_itself or None not in (signs.key_comes, signs.shows)
    if not is_known or len(carries) > 1:
        return None
    return carries == {True}


def _named(best: Sequence[PossibleCable]) -> str:
    first, *others = best
    said = f"the cable is most likely {first.wiring.name}: {first.wiring.title}"
    if first.supposed:
        said += f", if {' and '.join(first.supposed)}"
    if not others:
        return said
    return f"{said}; from this side it cannot be told from {_list(others)}"


def _told_apart(best: Sequence[PossibleCable]) -> list[str]:
    """Return what a meter shows where several are alike from here."""
    first = best[0].wiring
    told = []
    for other in best[1:]:
        alone = [one for one in first.described() if one not in other.wiring.described()]
        more = [one for one in other.wiring.described() if one not in first.described()]
        for name, joints in ((first.name, alone[:1]), (other.wiring.name, more[:1])):
            told += [f"{joint} is joined in {name} alone" for joint in joints]
    if not told:
        return []
    first_told = list(dict.fromkeys(told))[:ALSO]
    return [f"a meter on the unplugged cable tells: {', '.join(first_told)}"]


def _others(others: Sequence[PossibleCable]) -> list[str]:
    if not others:
        return []
    named = [f"{one.wiring.name} if {' and '.join(one.supposed)}" for one in others[:ALSO]]
    return [f"also possible: {', '.join(named)}"]


def _list(some: Sequence[PossibleCable]) -> str:
    return ", ".join(one.wiring.name for one in some)


def _seen(signs: LineSigns) -> str:
    """Return the signs in words."""
    told = []
    for name, follows in signs.follows.items():
        if follows:
            ours = " and ".join(sorted(one.upper() for one in follows))
            told.append(f"{name.upper()} follows our {ours}")
        elif signs.on[name]:
            told.append(f"{name.upper()} is on by itself")
    if not told and signs.on:
        told.append("no control line is on")
    if signs.hears_itself:
        told.append("what is sent comes back at once")
    for is_so, yes, no in (
        (signs.key_comes, "a key comes", "no key comes"),
        (signs.shows, "what is sent shows", "nothing that is sent shows"),
        (signs.typed_shows, "typed keys show by themselves", "typed keys do not show"),
    ):
        if is_so is not None:
            told.append({True: yes, False: no}[is_so])
    return "seen: " + ", ".join(told or ["nothing"])
