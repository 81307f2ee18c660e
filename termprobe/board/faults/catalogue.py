"""The catalogue of faults that a board can have, by name: WHERE/KIND/LINES[/VALUE].

Each module of this folder but model.py and this one holds one family of faults and is found by
itself. It must have

    BLOCKS              the words with which the names of its faults begin
    faults(profile)     yields each Fault of the family that a board of `profile` can have

and may have

    fault_named(profile, name)
                        returns one of the faults that are too many to be listed; raises UsageError
    OF_KEYBOARD = True  where a keyboard alone can have them, without a circuit around it
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from types import ModuleType

from termprobe.board import faults as room
from termprobe.board.faults.model import Fault, block_of
from termprobe.board.wiring import circuit_of
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.listing import modules_in
from termprobe.notation import visible
from termprobe.profile.itself import Itself
from termprobe.profile.model import Profile

KEPT = 4
"""Lists of faults that are kept: a board with each of many faults has one profile."""
NO_FAMILY = ("catalogue", "model")
"""Modules of the folder that hold no faults."""


@dataclass(frozen=True)
class Family:
    """Faults of one kind of circuit."""

    blocks: tuple[str, ...]
    faults: Callable[[Profile], Iterator[Fault]]
    fault_named: Callable[[Profile, str], Fault] | None
    of_keyboard: bool


def families_in(folder: ModuleType) -> tuple[Family, ...]:
    """Return the families of the package `folder`, by the names of its modules.

    Raise TypeError where one lacks a part.
    """
    modules = [module for module in modules_in(folder) if _name(module) not in NO_FAMILY]
    return tuple(_family(module) for module in modules)


def _name(module: ModuleType) -> str:
    return module.__name__.rpartition(".")[2]


def _family(module: ModuleType) -> Family:
    parts = vars(module)
    for needed in ("BLOCKS", "faults"):
        if needed not in parts:
            raise TypeError(
                f"{module.__name__}: a family of faults must have BLOCKS and faults(profile), "
                f"and this module has no {needed}"
            )
    return Family(
        tuple(parts["BLOCKS"]),
        parts["faults"],
        parts.get("fault_named"),
        parts.get("OF_KEYBOARD", False),
    )


@cache
def families() -> tuple[Family, ...]:
    """Return the families of this folder, by name."""
    return families_in(room)


def blocks() -> tuple[str, ...]:
    """Return the words with which the names of faults begin."""
    return tuple(block for family in families() for block in family.blocks)


def catalogue(profile: Profile) -> dict[str, Fault]:
    """Return fault name -> Fault of all that a whole board can have, family by family.

    Those too many to be listed are left out, such as single cells. Raise UsageError where there is
    no circuit.
    """
    circuit_of(profile)
    return _listed(False, Itself(profile)).copy()


def keyboard_catalogue(profile: Profile) -> dict[str, Fault]:
    """Return fault name -> Fault of all that a keyboard alone can have; empty without one.

    Works for every profile with a keyboard, whether a whole board can be simulated or not.
    """
    if profile.keyboard is None:
        return {}
    return _listed(True, Itself(profile)).copy()


@lru_cache(maxsize=KEPT)
def _listed(is_keyboard_alone: bool, profile: Itself[Profile]) -> dict[str, Fault]:
    wanted = [family for family in families() if family.of_keyboard or not is_keyboard_alone]
    return {fault.name: fault for family in wanted for fault in family.faults(profile.held)}


def fault(profile: Profile, name: str) -> Fault:
    """Return the Fault called `name`, listed or not; raise UsageError with the nearest name.

    Faults of the keyboard need no circuit around it.
    """
    family = _family_of(name)
    if family is None:
        raise _unknown(name, profile, catalogue(profile))
    if family.of_keyboard and profile.keyboard is not None:
        return _found(name, profile, family, keyboard_catalogue)
    circuit_of(profile)
    return _found(name, profile, family, catalogue)


def keyboard_fault(profile: Profile, name: str) -> Fault:
    """Return the Fault of the keyboard called `name`; raise as fault() where it is none."""
    found = fault(profile, name)
    family = _family_of(name)
    if family is None or not family.of_keyboard:
        raise _unknown(name, profile, keyboard_catalogue(profile))
    return found


def _family_of(name: str) -> Family | None:
    block = block_of(name)
    for family in families():
        if block in family.blocks:
            return family
    return None


def _found(
    name: str,
    profile: Profile,
    family: Family,
    known: Callable[[Profile], dict[str, Fault]],
) -> Fault:
    listed = known(profile)
    if name in listed:
        return listed[name]
    if family.fault_named is not None:
        return family.fault_named(profile, name)
    raise _unknown(name, profile, listed)


def _unknown(name: str, profile: Profile, known: Iterable[str]) -> UsageError:
    near = nearest(name, known) or f"; this profile has faults of {', '.join(blocks())}"
    return UsageError(
        f"fault must be one that `termprobe sim --profile {profile.id} --faults all` lists, "
        f'not "{visible(name)}"{near}'
    )
