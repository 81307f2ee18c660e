"""Finds what is one file each: the modules of a folder.

A new file there needs no other edit.
"""

import importlib
import pkgutil
from collections.abc import Iterator
from types import ModuleType


def modules_in(folder: ModuleType) -> Iterator[ModuleType]:
    """Yield the modules of the package `folder`, by alphabet."""
    for name in sorted(found.name for found in pkgutil.iter_modules(folder.__path__)):
        yield importlib.import_module(f"{folder.__name__}.{name}")


def lacking(module: ModuleType, name: str, what: str) -> TypeError:
    """Return the error that says what a module of such a folder must hold."""
    return TypeError(f"{module.__name__} must hold {what} called {name}, and does not")
