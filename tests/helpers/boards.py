"""What tests of the simulated board's faults have in common."""

import dataclasses

from termprobe.board.board import Board
from termprobe.profile.load import load
from termprobe.profile.model import Command, Template

PROFILE = load("singlebyte-24x80")


def faulty(*names):
    """Return a board with the faults named, its screen cleared."""
    board = Board(PROFILE, names)
    board.receive(b"\x1a")
    return board


def rows_of(board, data):
    """Return the rows of the screen after `data`, without blanks at their ends."""
    board.receive(data)
    return [row.rstrip() for row in board.screen().rows]


def sent(board):
    """Return the bytes that the transmitter has sent since the last call, and forget them."""
    return b"".join(data for _, data in board.take_sent())


def at(row, column):
    """Return the bytes that address a cell."""
    return b"\x1b=" + bytes([0x20 + row, 0x20 + column])


def page(character):
    """Return bytes that put character(row, column) on every cell, row by row.

    The last cell would scroll and is left out.
    """
    cells = [character(row, column) for row in range(24) for column in range(80)]
    return b"\x1a" + bytes(cells[:-1])


def changed(profile, edges=None, commands=(), display=None, coordinates=None, **printing):
    """Return `profile` with other edges, more commands, another display or other coordinates.

    `printing` are fields of its Printing.
    """
    edges = edges or {}
    kept = tuple(
        dataclasses.replace(command, edge=edges.get(command.name, command.edge))
        for command in profile.commands
    )
    size = dataclasses.replace(
        profile.display,
        printing=dataclasses.replace(profile.display.printing, **printing),
        **(display or {}),
    )
    return dataclasses.replace(
        profile,
        commands=kept + tuple(commands),
        display=size,
        coordinates=coordinates or profile.coordinates,
    )


def more(name, coding, action, edge=None, reply=None):
    """Return a command that no profile has."""
    if reply is not None:
        reply = Template(reply)
    return Command(
        name=name,
        bytes=Template(coding),
        action=action,
        source="made up",
        edge=edge,
        reply=reply,
    )
