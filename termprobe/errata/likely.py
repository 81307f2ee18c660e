"""What a fault of one board is likely to be, by the kind of fault: facts for sentences."""

STRAP = "a strap, switch or setting of it"
JOINT = "a joint, a short or a part of it"
BRIDGE = "a bridge of solder on it, or a part"
WIRE = "two of its wires exchanged, or a part"
_BY_WHERE = {
    "baud": STRAP,
    "parity": STRAP,
    "echo-gate": STRAP,
    "handshake-gate": STRAP,
    "options": STRAP,
}
_BY_KIND = {
    "bridged": BRIDGE,
    "rows-bridged": BRIDGE,
    "columns-bridged": BRIDGE,
    "swapped": WIRE,
    "keys-swapped": WIRE,
}


def likely(fault: str) -> str:
    """Return what a fault, by its name, is likely to be on one board alone."""
    where, _, rest = fault.partition("/")
    kind, _, _ = rest.partition("/")
    return _BY_WHERE.get(where) or _BY_KIND.get(kind) or JOINT
