"""The catalogue of faults that a board can have, by name: WHERE/KIND/LINES[/VALUE]."""

from functools import partial

from termprobe.board.faults.bus import KINDS_AND_WORDS, cell_fault, faults_of_bus
from termprobe.board.faults.decoder import decoder_faults, part_faults
from termprobe.board.faults.line import (
    baud_fault,
    baud_faults,
    echo_faults,
    handshake_faults,
    parity_faults,
)
from termprobe.board.faults.model import Fault
from termprobe.board.faults.key_matrix import BUS, WHERE, key_fault, key_faults, keyboard_catalogue
from termprobe.board.wiring import refuse
from termprobe.errors import UsageError
from termprobe.notation import visible
from termprobe.findings import nearest

GROUPS = {
    **{bus: partial(faults_of_bus, bus) for bus in KINDS_AND_WORDS},
    "decoder": decoder_faults,
    **{
        where: partial(part_faults, where)
        for where in ("margin", "scroll", "clear", "home", "address")
    },
    "key-matrix": key_faults,
    "echo-gate": echo_faults,
    "handshake-gate": handshake_faults,
    "parity": parity_faults,
    "baud": baud_faults,
}
"""First word of a name: what yields the faults of that block for a profile."""

BY_NAME = {"cell": cell_fault, "key-matrix": key_fault, "baud": baud_fault}
"""First word of a name: what makes a fault that is too common to be listed, such as one of 26,880 bits of cells."""


def catalogue(profile) -> dict[str, Fault]:
    """Return fault name -> Fault, by block; single cells are left out. Raise UsageError where there is no circuit."""
    refuse(profile)
    return {fault.name: fault for group in GROUPS.values() for fault in group(profile)}


def fault(profile, name) -> Fault:
    """Return the Fault called `name`, listed or not; raise UsageError with the nearest name where there is none.

    Faults of the keyboard need no circuit around it.
    """
    where = name.split("/")[0]
    if where not in (WHERE, BUS) or profile.keyboard is None:
        refuse(profile)
    for found in GROUPS[where](profile) if where in GROUPS else ():
        if found.name == name:
            return found
    if where in BY_NAME:
        return BY_NAME[where](profile, name)
    near = (
        nearest(name, keyboard_catalogue(profile) if where == BUS else catalogue(profile))
        or f"; this profile has faults of {', '.join([*GROUPS, 'cell'])}"
    )
    raise UsageError(
        f'fault must be one that `termprobe sim --profile {profile.id} --faults` lists, not "{visible(name)}"{near}'
    )
